#pragma once

#include "viewer/putt/newest_only.hpp"
#include "viewer/putt/outlook.hpp"

namespace dewtrail {

/// Works out odds beside the window. Without memory for them, say, the window goes on without odds.
class OutlookDesk : public NewestOnly<OutlookQuestion, Outlook> {
  public:
    OutlookDesk();
};

}  // namespace dewtrail
