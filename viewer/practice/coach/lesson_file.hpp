#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "viewer/practice/coach/taught_lesson.hpp"

/// A lesson as a text file, to be changed by hand:
///
///     format = 1
///     title = "Most misses are low"
///     why = "Who sees a part of the break misses on the low side."
///     pupil = "Anna"            # may be left out
///     theme = "low"             # a demonstration: dewtrail compare --show list
///     stimp = 10                # feet, 3-18
///
///     [[drill]]                 # one to three
///     drill = "line"            # line, pace, read or slope
///     putts = 10
///     say = "No ball may miss low."
///     green = "meadow"          # may be left out: planes
///
///     [ladder]
///     slope_percent = 2
///     lengths = "4ft 8ft 12ft 20ft"
///
///     [[putt]]                  # homework, one to ten, as in a set of putts
///     ball = [3.0, -1.5]
///     slope_percent = 2
///     stimp = 10
namespace dewtrail {

std::string lesson_text(const TaughtLesson& lesson);

/// InputError with file, line and column for anything that is not such a file.
TaughtLesson read_lesson(const std::string& file, std::string_view text);
TaughtLesson load_lesson(const std::filesystem::path& path);

}  // namespace dewtrail
