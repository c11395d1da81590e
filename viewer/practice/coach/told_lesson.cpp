#include "viewer/practice/coach/told_lesson.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "viewer/comparison/demonstrations.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {

ToldLesson told(const TaughtLesson& lesson, double player_past_m, Greenkeeper& keeper,
                const Units& units) {
    const Demonstration shown = demonstrate(lesson.theme, units);
    ToldLesson told{lesson, shown.title, shown.say, {}, {}, {}, {}};
    for (const std::string& length : lesson.rungs)
        told.rungs_m.push_back(parse_distance_m(length, units, "length"));
    std::sort(told.rungs_m.begin(), told.rungs_m.end());
    Setup ground;
    ground.slope = lesson.ladder_slope;
    ground.stimp_ft = lesson.stimp_ft;
    ground.finish = Finish::past(player_past_m);
    for (const double rung : told.rungs_m) {
        auto& reads = told.ladder.emplace_back();
        for (std::size_t i = 0; i < ladder_falls.size(); ++i)
            reads[i] = ladder_read(ground, ladder_falls[i], rung, player_past_m);
    }
    for (const DealtPutt& putt : lesson.homework) told.home.push_back(keeper.set_up(putt));
    return told;
}

std::string lesson_setting(const TaughtLesson& lesson) {
    return fmt::format("A lesson{}, stimp {}", lesson.pupil.empty() ? "" : " for " + lesson.pupil,
                       format_stimp(lesson.stimp_ft));
}

std::string heading_of(LessonPart part, const ToldLesson& told) {
    switch (part) {
        case LessonPart::show:
            return "Show: " + told.demonstration;
        case LessonPart::drills:
            return told.lesson.drills.size() == 1 ? "Drill" : "Drills";
        case LessonPart::ladder:
            return fmt::format("Today's ladder: stimp {}, {} slope",
                               format_stimp(told.lesson.stimp_ft),
                               format_slope(told.lesson.ladder_slope));
        case LessonPart::homework:
            break;
    }
    return "Homework";
}

std::pair<std::string, std::string> rung_words(const std::optional<Read>& read,
                                               const Units& units) {
    if (!read) return {"no line", ""};
    return {read->aim_offset_m ? aim_short(*read->aim_offset_m, units) : "no spot",
            format_level_putt(read->level_putt_m, units)};
}

}  // namespace dewtrail
