#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "viewer/picture/widgets/brush.hpp"
#include "viewer/practice/coach/told_lesson.hpp"

namespace dewtrail {

/// What of a lesson can be clicked, by Target::index of What::lesson; drills and putts for home
/// count on from their first. The last ones stand in the note, `lesson_seen` in that of a putt.
inline constexpr int lesson_shown = 0, lesson_drill = 1, lesson_putt = 10, lesson_other = 30,
                     lesson_open = 31, lesson_keep = 32, lesson_print = 33, lesson_seen = 34;
/// Its stimp, by Target::index of What::answer.
inline constexpr int answer_stimp = 20;

/// The lesson that is seen, and where it is from.
struct SeenLesson {
    std::string theme{};               ///< as it was chosen; empty: what the answers call for
    std::optional<double> stimp_ft{};  ///< as it was typed; none: the player's
    std::filesystem::path file{};      ///< that it was opened from; empty: it was planned
    std::optional<ToldLesson> told{};  ///< none where none could be planned
    Units told_in{};
};

/// What it is about, as the note says it: a theme, a file, the putts of somebody.
std::string about_words(const SeenLesson& seen, const std::string& pupil);
/// 'What Anna's putts call for'.
std::string by_answers_words(const std::string& pupil);

/// All of it, in the order in which it is given, in a box without a foot; returns where it ends.
/// What can be begun is a row each.
double draw_lesson(const Canvas& canvas, const ToldLesson& told, const Rect& box);

/// The note beside it: which one it is, its stimp, what can be done with it.
struct LessonNote {
    std::string about;
    std::string stimp;  ///< empty while it is typed
    bool any = true;    ///< there is a lesson
};
double draw_lesson_note(const Canvas& canvas, const LessonNote& note, double from_px);

}  // namespace dewtrail
