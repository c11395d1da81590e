#include "viewer/practice/coach/taught_lesson.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "viewer/comparison/demonstrations.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/practice/drill/deal.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr int home_putts = 8;

using enum Grade;
using enum Reach;

/// What goes with a demonstration. The putts for home are of these kinds in turn, once breaking
/// each way.
struct Theme {
    std::string_view key, why;
    TaughtDrill first, second;
    std::vector<std::pair<Grade, Reach>> kinds;
    std::string_view green{};  ///< the putts for home lie on it
};

const std::vector<Theme>& themes() {
    static const std::vector<Theme> all{
        {"uphill",
         "Downhill the same slope breaks more than uphill.",
         {Drill::read, 8, "Before each putt say whether it runs up or down, then aim.", ""},
         {Drill::pace, 8, "The line is given. Find the pace, up and down.", ""},
         {{uphill, middle}, {downhill, middle}}},
        {"fast",
         "The faster the green, the more the same slope breaks.",
         {Drill::pace, 10, "The line is given. Find the pace of today's green.", ""},
         {Drill::line, 8, "The pace is given. Aim for today's green, not for last week's.", ""},
         {{level, middle}, {downhill, short_putt}}},
        {"firm",
         "A firm putt breaks less, and the hole takes less of it.",
         {Drill::pace, 10, "Say how far past the hole it is to run before you say the pace.", ""},
         {Drill::line, 8, "One pace for all of them. Aim for that pace.", ""},
         {{level, short_putt}, {uphill, short_putt}}},
        {"long",
         "Twice as long breaks more than twice as much.",
         {Drill::line, 8, "Find the last third first: there it breaks most.", ""},
         {Drill::pace, 8, "Long ones: the pace before the line.", ""},
         {{level, long_putt}, {level, middle}}},
        {"apex",
         "The line starts above the apex: a ball started at its apex misses low.",
         {Drill::line, 10, "Name the aim spot beside the hole, not the apex.", ""},
         {Drill::read, 6, "Draw the start line back to a mark in front of the ball.", ""},
         {{level, middle}, {downhill, middle}}},
        {"low",
         "A player who sees only part of the break misses on the low side.",
         {Drill::line, 10, "Say the aim you see, then the one you will play.", ""},
         {Drill::read, 8, "No ball may miss low.", ""},
         {{level, middle}, {downhill, middle}, {level, short_putt}}},
        {"misread",
         "Half a percent of slope is more than the hole forgives.",
         {Drill::slope, 6, "Feel the slope with your feet, then lay the level down.", ""},
         {Drill::line, 8, "Say the slope in percent before the aim.", ""},
         {{level, middle}, {uphill, middle}}},
        {"halves",
         "A putt may break both ways: read it in two halves.",
         {Drill::read, 6, "Say which half breaks which way, and which half wins.", "saddle"},
         {Drill::slope, 6, "Feel the slope at the ball and at the hole.", ""},
         {{level, long_putt}, {level, middle}},
         "saddle"},
    };
    return all;
}

const Theme& theme_named(const std::string& key) {
    return *std::find_if(themes().begin(), themes().end(),
                         [&](const Theme& theme) { return theme.key == key; });
}

/// Of a demonstration by its key or title.
std::string key_of(const std::string& theme) {
    check_demonstration(theme);
    for (const DemonstrationName& name : demonstration_names())
        if (theme == name.key || theme == name.title ||
            theme == as_sentence(std::string(name.title)))
            return std::string(name.key);
    return theme;
}

/// One word, as a shell takes it.
std::string quoted(const std::string& words) {
    std::string inside;
    for (const char c : words) inside += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return "'" + inside + "'";
}

std::string of_pupil(const std::string& pupil) {
    return pupil.empty() ? "" : " --pupil " + quoted(pupil);
}

/// In quotes only where a shell would take it for something else.
std::string file_word(const std::string& file) {
    constexpr std::string_view plain =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
        "0123456789-_./,+";
    return file.find_first_not_of(plain) == file.npos ? file : quoted(file);
}

/// What costs most comes first.
std::vector<Category> home_kinds(const Theme& theme, const std::optional<Weakest>& weakest) {
    std::vector<Category> kinds;
    if (weakest) kinds.push_back(weakest->kind);
    for (int turn = 0; static_cast<int>(kinds.size()) < home_putts; ++turn)
        for (const auto& [grade, reach] : theme.kinds)
            kinds.push_back(
                {turn % 2 ? BreakSide::left_to_right : BreakSide::right_to_left, grade, reach});
    kinds.resize(home_putts);
    return kinds;
}

std::vector<DealtPutt> home_putts_for(const LessonFor& who, const Theme& theme,
                                      const Progress& progress, Greenkeeper& keeper) {
    DealRanges ranges;
    ranges.least_stimp_ft = ranges.most_stimp_ft = who.stimp_ft;
    ranges.past_m = who.past_m;
    if (!theme.green.empty()) ranges.greens = {std::string(theme.green)};
    RandomStream random(seed_of(
        fmt::format("lesson {} {} {} {}", who.pupil, theme.key, who.date, progress.answers)));
    std::vector<DealtPutt> putts;
    for (const Category& kind : home_kinds(theme, progress.weakest))
        if (const auto putt = deal(kind, ranges, random, keeper)) putts.push_back(*putt);
    return putts;
}

/// The drill that the answers ask for stands first, and tells what to do about them.
void suit_answers(TaughtLesson& lesson, const Findings& findings) {
    const Finding& lead = findings.lead();
    lesson.why = finding_words(lead);
    const std::string instruction = instruction_words(lead);
    if (instruction.empty()) return;
    const Drill asked = next_drill(findings).drill;
    const auto same = std::find_if(lesson.drills.begin(), lesson.drills.end(),
                                   [&](const TaughtDrill& drill) { return drill.drill == asked; });
    TaughtDrill first = same == lesson.drills.end() ? TaughtDrill{asked, 10, "", ""} : *same;
    first.say = instruction;
    lesson.drills.erase(same == lesson.drills.end() ? lesson.drills.end() - 1 : same);
    lesson.drills.insert(lesson.drills.begin(), first);
}

}  // namespace

LessonFor lesson_today(const std::string& pupil, const Player& player, const Units& units) {
    return {.pupil = pupil,
            .theme = "",
            .date = today(),
            .stimp_ft = player.stimp_ft.value_or(usual_stimp_ft),
            .past_m = player.usual_past_m,
            .metric = units.metric};
}

std::string theme_for(const Findings& findings) {
    const Finding& lead = findings.lead();
    if (!lead.stands_out()) return lead.wrong_side > 1 ? "misread" : "uphill";
    for (const KindShare& kind : lead.kinds) {
        if (!kind.differs) continue;
        if (kind.group.find("long") != kind.group.npos) return "long";
        if (kind.group.find("hill") != kind.group.npos) return "uphill";
    }
    constexpr double like_the_apex = 0.65;  // a ball started there plays about 57 % of the break
    const double share = lead.share->mean;
    if (lead.of == Fault::pace) return share > 1 ? "firm" : "fast";
    return share > 1 ? "misread" : share < like_the_apex ? "apex" : "low";
}

TaughtLesson plan_lesson(const LessonFor& who, const Progress& progress, Greenkeeper& keeper) {
    const bool known = progress.findings.lead().share.has_value();
    const std::string key = who.theme.empty() ? theme_for(progress.findings) : key_of(who.theme);
    const Theme& theme = theme_named(key);
    TaughtLesson lesson;
    lesson.theme = theme.key;
    for (const DemonstrationName& name : demonstration_names())
        if (name.key == theme.key) lesson.title = as_sentence(std::string(name.title));
    lesson.why = theme.why;
    lesson.pupil = who.pupil;
    lesson.drills = {theme.first, theme.second};
    lesson.stimp_ft = who.stimp_ft;
    lesson.rungs = who.metric ? std::vector<std::string>{"1m", "2m", "4m", "6m"}
                              : std::vector<std::string>{"4ft", "8ft", "12ft", "20ft"};
    lesson.homework = home_putts_for(who, theme, progress, keeper);
    if (known && who.theme.empty()) suit_answers(lesson, progress.findings);
    return lesson;
}

std::string drill_words(const TaughtDrill& drill) {
    return fmt::format("{}, {} {}{}", kind_of(drill.drill).called, drill.putts,
                       drill.drill == Drill::slope ? "spots" : "putts",
                       drill.green.empty() ? "" : ", on " + drill.green);
}

std::string homework_words(const HomeworkFiles& files, const std::string& pupil) {
    std::string words;
    if (!files.set.empty())
        words = "dewtrail practise --set " + file_word(files.set) + of_pupil(pupil);
    if (files.page.empty()) return words;
    return words + (words.empty() ? "" : ", or ") + "open " + files.page + " in a browser";
}

std::string drill_command(const TaughtDrill& drill, const std::string& pupil) {
    return fmt::format("dewtrail practise --drill {} --putts {}{}{}", name_of(drill.drill),
                       drill.putts, drill.green.empty() ? "" : " --green " + drill.green,
                       of_pupil(pupil));
}

}  // namespace dewtrail
