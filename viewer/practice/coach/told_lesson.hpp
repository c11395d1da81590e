#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "viewer/comparison/ladder.hpp"
#include "viewer/practice/coach/taught_lesson.hpp"

namespace dewtrail {

/// A lesson worked out: what terminal, page and JSON tell of it.
struct ToldLesson {
    TaughtLesson lesson;
    std::string demonstration;       ///< its title
    std::array<std::string, 2> say;  ///< what there is to say while it rolls
    std::vector<double> rungs_m;     ///< ascending
    /// By rung, then by fall; none where there is no line.
    std::vector<std::array<std::optional<Read>, ladder_falls.size()>> ladder;
    std::vector<PlacedPutt> home;
    HomeworkFiles files{};  ///< with these putts
};

/// InputError for a green that is not there, or a length out of range.
ToldLesson told(const TaughtLesson& lesson, double player_past_m, Greenkeeper& keeper,
                const Units& units);

/// ' for Anna, stimp 10', behind what it is.
std::string lesson_setting(const TaughtLesson& lesson);
/// What stands in a cell of the ladder: '3 cups', '12 ft'; 'no line' and nothing.
std::pair<std::string, std::string> rung_words(const std::optional<Read>& read, const Units& units);

}  // namespace dewtrail
