#pragma once

#include "viewer/putt/outlook.hpp"
#ifdef DEWTRAIL_ONE_THREAD
#include "viewer/putt/newest_in_turn.hpp"
#else
#include "viewer/putt/newest_only.hpp"
#endif

namespace dewtrail {

#ifdef DEWTRAIL_ONE_THREAD
template <class Question, class Answer>
using Beside = NewestInTurn<Question, Answer>;
#else
template <class Question, class Answer>
using Beside = NewestOnly<Question, Answer>;
#endif

/// Works out odds beside the window. Without memory for them, say, the window goes on without odds.
class OutlookDesk : public Beside<OutlookQuestion, Outlook> {
    using Desk = Beside<OutlookQuestion, Outlook>;

  public:
    OutlookDesk();
};

}  // namespace dewtrail
