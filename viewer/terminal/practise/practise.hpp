#pragma once

#include <optional>
#include <string>

#include "viewer/practice/coach/told_lesson.hpp"
#include "viewer/practice/drill/lesson.hpp"
#include "viewer/practice/habits/finding.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/terminal/session.hpp"
#include "viewer/terminal/sheet_files.hpp"

namespace dewtrail {

/// The memory that the options name; what it leaves out is said on the error stream.
inline Memory memory_of(Session& session, Session::Use use = Session::Use::adds) {
    session.say_whose();
    return Memory(session.memory_folder(use),
                  [&session](const std::string& words) { session.err() << words << '\n'; });
}

/// A session of dealt putts at the terminal. `save_set`: where the putts dealt are kept as a set.
Exit run_lesson(Session& session, Memory& memory, const LessonPlan& plan,
                const std::optional<std::string>& save_set);

/// The slope drill: say percent and fall of a real green, then what the level shows.
Exit run_slope_drill(Session& session, Memory& memory, int rounds);

/// Trends, tests by week, what to do next; on a page instead, where one is asked for.
Exit show_progress(Session& session, const Memory& memory);
Exit print_progress(Session& session, const Memory& memory, const SheetArguments& page);

/// A lesson for the pupil whose turn it is, from what they practised or on a theme.
TaughtLesson planned_lesson(Session& session, const std::string& theme,
                            std::optional<double> stimp_ft, Greenkeeper& keeper);

/// Its putts for home as a page for a browser; `page` as PocketPage takes it.
std::string homework_page(const ToldLesson& told, const std::string& page = {});

/// A finding as JSON; a share that is not claimed is null.
Json share_json(const std::optional<Credible>& share);
Json finding_json(const Finding& finding);
Json home_json(const std::optional<HomeDrill>& home);
Json next_json(const NextDrill& next);
/// 'dewtrail practise --drill line --putts 5'.
std::string next_command(const NextDrill& next);

}  // namespace dewtrail
