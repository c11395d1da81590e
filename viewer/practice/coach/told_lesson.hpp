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

/// 'A lesson for Anna, stimp 10'.
std::string lesson_setting(const TaughtLesson& lesson);

/// Its four parts, in the order in which it is given.
enum class LessonPart { show, drills, ladder, homework };
/// 'Show: uphill and downhill', 'Drills', 'Today's ladder: stimp 10, 2 % slope', 'Homework'.
std::string heading_of(LessonPart part, const ToldLesson& told);
/// What the figures of the ladder are.
inline constexpr const char* ladder_words = "aim beside the hole; the level putt to play it as";

/// What stands in a cell of the ladder: '3 cups', '12 ft'; 'no line' and nothing.
std::pair<std::string, std::string> rung_words(const std::optional<Read>& read, const Units& units);

}  // namespace dewtrail
