#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "viewer/practice/drill/answer.hpp"
#include "viewer/practice/habits/progress.hpp"
#include "viewer/practice/player.hpp"

/// A lesson that a coach gives: something to see, two drills, today's ladder, putts for home.
namespace dewtrail {

struct TaughtDrill {
    Drill drill = Drill::line;
    int putts = 10;
    std::string say;    ///< what to tell the pupil
    std::string green;  ///< name of the green it is dealt on; empty: planes
};

struct TaughtLesson {
    std::string title, why;  ///< `why`: what the pupil's answers say, or what the theme is about
    std::string pupil;       ///< name; empty: anybody
    std::string theme;       ///< key of the demonstration that is shown first
    std::vector<TaughtDrill> drills;  ///< one to most_taught_drills
    double stimp_ft = usual_stimp_ft;
    double ladder_slope = 0.02;       ///< rise over run
    std::vector<std::string> rungs;   ///< lengths of the ladder, as typed
    std::vector<DealtPutt> homework;  ///< one to most_homework
};
inline constexpr std::size_t most_taught_drills = 3, most_homework = 10;

/// For whom, and when. `theme`: a demonstration's key; empty: the one that their answers call for.
struct LessonFor {
    std::string pupil, theme, date;
    double stimp_ft = usual_stimp_ft;
    double past_m = 12 * metres_per_inch;
    bool metric = false;
};

/// Today, on today's green as this player putts on it, in these units.
LessonFor lesson_today(const std::string& pupil, const Player& player, const Units& units);

/// The theme that the answers call for: the habit that stands out, in the kind of putt where it
/// does; 'uphill' where none does.
std::string theme_for(const Findings& findings);

/// The same for the same pupil, theme, date and answers; once they have putted again, or on another
/// day, the homework is other putts. The first drill is the one that the
/// answers ask for, and the homework begins with the kind of putt that costs most. InputError for
/// a theme that is not known, or whose green is not in the folders.
TaughtLesson plan_lesson(const LessonFor& who, const Progress& progress, Greenkeeper& keeper);

/// 'Line drill, 10 putts', and what starts it.
std::string drill_words(const TaughtDrill& drill);
std::string drill_command(const TaughtDrill& drill, const std::string& pupil);

/// Where the putts for home are to be had, as files are named on a command line; empty: not there.
struct HomeworkFiles {
    std::string set = "homework.toml", page{};  ///< a set of putts, and a page for a browser
};
/// What plays them: 'dewtrail practise --set …', 'open homework.html in a browser', or both.
std::string homework_words(const HomeworkFiles& files, const std::string& pupil);

}  // namespace dewtrail
