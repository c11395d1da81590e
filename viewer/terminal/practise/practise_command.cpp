#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>
#include <random>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/practice/drill/slope_drill.hpp"
#include "viewer/practice/memory_csv.hpp"
#include "viewer/terminal/practise/practise.hpp"
#include "viewer/terminal/practise/table_file.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

struct PractiseArguments {
    std::optional<std::string> drill, from, to, most_slope, stimp, date;
    std::optional<std::string> set, save_set, export_to, import_from, kind;
    std::optional<std::uint64_t> seed;
    std::optional<int> putts;
    std::vector<std::string> greens;
    bool day = false, week = false, progress = false, quiet = false;
    SheetArguments page;
};

constexpr const char* practise_footer =
    "Type an aim in inches or cups, a pace as a level putt; q ends. Every answer is remembered\n"
    "before it is talked about.\n\n"
    "Examples:\n"
    "  dewtrail practise --drill line --putts 10\n"
    "      The pace is given, you say the line.\n"
    "  dewtrail practise --progress --out progress.pdf\n"
    "      How it goes, on a page.\n"
    "  dewtrail practise --day\n"
    "      The putt of the day, the same for everybody with your usual past.\n"
    "  printf '15in right\\n12ft\\ny\\n' | dewtrail practise --putts 1 --seed 7 --json";

/// Seeds that people can type again.
std::uint64_t fresh_seed() {
    return std::random_device()() % 1'000'000;
}

void choose_ranges(DealRanges& ranges, const PractiseArguments& arguments, Session& session) {
    const Units units = session.units();
    if (arguments.stimp)
        ranges.least_stimp_ft = ranges.most_stimp_ft = parse_stimp_ft(*arguments.stimp);
    if (arguments.from) ranges.least_m = parse_distance_m(*arguments.from, units, "from");
    if (arguments.to) ranges.most_m = parse_distance_m(*arguments.to, units, "to");
    if (ranges.most_m < ranges.least_m)
        throw InputError("--to is shorter than --from", "give --from 3ft --to 30ft");
    if (arguments.most_slope) ranges.most_slope = parse_slope(*arguments.most_slope, "most-slope");
    if (ranges.most_slope > 0.06)
        throw InputError("most-slope is outside 0-6 %", "greens for practice are no steeper");
    ranges.greens = arguments.greens;
}

Category parse_kind(const std::string& name) {
    if (const auto kind = find_category(name)) return *kind;
    throw InputError(fmt::format("kind '{}' is not known", name),
                     "write it like 'left-to-right downhill short'");
}

LessonPlan lesson_plan(const PractiseArguments& arguments, Session& session, Drill drill) {
    LessonPlan plan = usual_plan(session.player(), arguments.seed ? *arguments.seed : fresh_seed());
    plan.drill = drill;
    plan.quiet = arguments.quiet;
    if (arguments.date) plan.date = parse_date(*arguments.date);
    if (arguments.day && arguments.week)
        throw InputError("--day and --week contradict each other", "give one of them");
    if (arguments.day) plan.occasion = Occasion::day;
    if (arguments.week) plan.occasion = Occasion::week;
    plan.putts = arguments.putts.value_or(plan.putts);
    if (arguments.kind) plan.kind = parse_kind(*arguments.kind);
    if (plan.occasion == Occasion::practice) choose_ranges(plan.ranges, arguments, session);
    if (arguments.save_set)
        for (const std::string& green : arguments.greens) check_names_green(green);
    if (arguments.set) plan.set = load_putt_set(*arguments.set);
    return plan;
}

Exit run_practise(Session& session, const PractiseArguments& arguments) {
    const Drill drill = *find_drill(arguments.drill.value_or("read"));
    if (arguments.putts && (*arguments.putts < 1 || *arguments.putts > 1000))
        throw InputError(fmt::format("putts {} is outside 1-1000", *arguments.putts),
                         "give --putts 10");
    session.player();
    if (arguments.export_to == "-" && session.json())
        throw InputError("--export - prints a table", "Name a file, or leave --json out.");
    if (arguments.export_to) check_may_be_file(*arguments.export_to);
    const bool looks = arguments.export_to || arguments.progress || !arguments.page.out.empty();
    Memory memory = memory_of(session, looks ? Session::Use::looks : Session::Use::adds);
    if (arguments.export_to) {
        const auto answers = memory.answers();
        return export_table(session, *arguments.export_to, write_answers_csv(answers),
                            answers.size(), "answers");
    }
    if (const auto& file = arguments.import_from)
        return import_table(
            session, *file, "answers",
            [&](const std::string& text) { return read_answers_csv(*file, text); },
            [&](const auto& answers) { return memory.add(answers); });
    if (!arguments.page.out.empty()) return print_progress(session, memory, arguments.page);
    if (arguments.progress) return show_progress(session, memory);
    if (drill == Drill::slope)
        return run_slope_drill(session, memory, arguments.putts.value_or(usual_spots));
    const LessonPlan plan = lesson_plan(arguments, session, drill);
    session.caution();
    return run_lesson(session, memory, plan, arguments.save_set);
}

void add_ranges(const Command& command, PractiseArguments& a) {
    constexpr const char* group = "Putts";
    command.add_option("--from", a.from, "Shortest putt dealt (3 ft)").group(group);
    command.add_option("--to", a.to, "Longest (35 ft)").group(group);
    command.add_option("--most-slope", a.most_slope, "Steepest green (3 %)").group(group);
    command.add_option("--stimp", a.stimp, "Green speed (the player's, else 9 to 11)").group(group);
    command.add_option("--green", a.greens, "Deal on green files, again for each").group(group);
    command.add_option("--kind", a.kind, "Putts of one kind: 'left-to-right downhill short'")
        .group(group);
    command.add_option("--set", a.set, "Play a fixed set of putts, a TOML file").group(group);
    command.add_option("--save-set", a.save_set, "Keep the putts dealt as a set").group(group);
}

}  // namespace

void add_practise_command(const Command& app, Session& session) {
    auto a = std::make_shared<PractiseArguments>();
    const Command command =
        app.add_subcommand("practise", "Drills: a putt is told, you answer, the truth is told");
    command
        .add_option("--drill", a->drill, "What is asked: read is line and pace, and the usual one")
        .one_of(drill_names());
    command.add_option("--putts", a->putts, "How many (10; slope 6)");
    command.add_option("--seed", a->seed, "The same putts again");
    command.add_flag("--day", a->day, "The putt of the day");
    command.add_flag("--week", a->week, "The ten-putt test of the week");
    command.add_flag("--quiet", a->quiet,
                     "Once a trend was told: two truths in three wait for the end");
    command.add_option("--date", a->date, "Take it for this day: 2026-05-01");
    command.add_flag("--progress", a->progress, "Trends, tests by week, what costs most");
    command.add_option("--out", a->page.out, "The progress as a page: progress.pdf, .svg or .png");
    command.add_option("--paper", a->page.paper, "Its paper (a4)").one_of({"a4", "letter"});
    command.add_flag("--force", a->page.force, "Replace a file that is there");
    command.add_option("--export", a->export_to, "Write all answers to a CSV file; - prints them");
    command.add_option("--import", a->import_from, "Add the answers of such a file");
    add_ranges(command, *a);
    session.add_memory_option(command);
    session.add_common_options(command);
    command.footer(practise_footer);
    command.callback(
        [&session, a] { session.run = [&session, a] { return run_practise(session, *a); }; });
}

}  // namespace dewtrail
