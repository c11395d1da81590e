#pragma once

#include <functional>
#include <string>

#include "viewer/modes/shell/wish.hpp"
#include "viewer/paper/paper.hpp"
#include "viewer/practice/coach/told_lesson.hpp"
#include "viewer/practice/habits/progress.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {

/// The pages that go with a putt as it is set up: "read", "green", "today" (the green with this
/// ball), "ladder" (1 to 4 % at its stimp and finish); and forms: "survey", "results", "measure".
/// std::invalid_argument for another name, or for a read or a green where there is none.
Sheet putt_sheet(const std::string& page, const Setup& setup, const Units& units, double past_m);

/// Who wishes for a page, and what may have to be worked out for it.
struct WishedBy {
    std::string pupil{};  ///< whose name stands on it; empty: to be filled in
    double usual_past_m = dewtrail::usual_past_m;
    std::function<Progress()> progress{};
    std::function<ToldLesson()> lesson{};
};

/// The page that a mode wishes for: one of putt_sheet's, "compare", "progress" or "lesson".
Sheet wished_sheet(const Wish& wish, const Units& units, const WishedBy& by);
/// The lesson that is wished for: the one that is seen, or one that is planned on the theme of what
/// is compared; an empty theme: on what the answers call for.
TaughtLesson wished_lesson(const Wish& wish,
                           const std::function<TaughtLesson(const std::string& theme)>& plan);
/// What its file is called, without an ending: 'read-12ft-2pct-at-3.00', 'progress-Anna'.
std::string wished_name(const Wish& wish, const Units& units, const std::string& pupil);

}  // namespace dewtrail
