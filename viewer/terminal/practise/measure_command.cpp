#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>
#include <random>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/measure/gate_test.hpp"
#include "viewer/practice/measure/measure_typed.hpp"
#include "viewer/practice/measure/measure_words.hpp"
#include "viewer/practice/memory_csv.hpp"
#include "viewer/terminal/practise/asking.hpp"
#include "viewer/terminal/practise/practise.hpp"
#include "viewer/terminal/practise/table_file.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

struct MeasureArguments {
    std::optional<std::string> from, to, line, stimp;
    std::optional<std::uint64_t> seed;
    std::optional<int> count;
    bool drill = false;
    std::string file;

    int count_of() const { return count.value_or(drill ? 10 : 20); }
};

constexpr const char* measure_examples =
    "Twenty balls on a carpet or a mat, a tape measure and two coins: your own pace and line, in\n"
    "place of a preset's. Each ball is remembered as it is typed; q ends.\n"
    "Examples:\n"
    "  dewtrail measure pace\n"
    "      A length is called, you putt it and type where the ball stopped: 13ft, 10in short.\n"
    "  dewtrail measure pace --line 2m --stimp 12\n"
    "      On a short mat: type the time to a line 2 m away; --line 1m,2m: between two marks.\n"
    "  dewtrail measure line\n"
    "      Two coins are the gate; type t, l or r for through, left or right.\n"
    "  dewtrail measure show\n"
    "      What was found so far. 'measure take' makes it your spread: odds and best finishes "
    "follow.";

Json pace_json(const std::optional<PaceFound>& found) {
    if (!found) return nullptr;
    return {{"balls", found->balls},
            {"short_m", number(found->short_m)},
            {"long_m", number(found->long_m)},
            {"bias", share_json(found->bias)},
            {"short_bias", share_json(found->short_bias)},
            {"long_bias", share_json(found->long_bias)},
            {"spread", share_json(found->spread)},
            {"floor_m", share_json(found->floor_m)}};
}

Json line_json(const std::optional<LineFound>& found) {
    if (!found) return nullptr;
    return {{"strokes", found->strokes},
            {"bias_deg", share_json(found->bias_deg)},
            {"spread_deg", share_json(found->spread_deg)}};
}

void print_lines(Session& session, const std::vector<std::string>& lines) {
    for (const std::string& line : lines) session.out() << line << '\n';
}

// ---- the tests

PaceFloor floor_of(const MeasureArguments& a, Session& session) {
    const Units units = session.units();
    PaceFloor floor = usual_floor(units);
    if (a.from) floor.from_m = parse_distance_m(*a.from, units);
    if (a.to) floor.to_m = parse_distance_m(*a.to, units);
    if (a.line) floor.timed = parse_stretch(*a.line, units);
    if (a.line && !a.stimp)
        throw InputError("a time to a line tells nothing without the floor's speed",
                         session.player().stroke_table.empty()
                             ? "Give --stimp 12; find it with: dewtrail speed"
                             : "Give --stimp 12, or a ball by your stroke table: --stimp '4ft, "
                               "back 6in'");
    if (a.stimp) floor.stimp_ft = parse_floor_stimp_ft(*a.stimp, units, session.player());
    check(floor);
    return floor;
}

/// The lengths where the bias is, ten of them.
void call_for_drill(PaceFloor& floor, const Memory& memory, const Units& units) {
    const auto found = measured(memory.measures()).pace;
    const auto drill = found ? pace_drill(*found, units) : std::nullopt;
    if (!drill)
        throw InputError("no bias shows yet: there is nothing to drill",
                         "Ten more balls may tell: dewtrail measure pace");
    floor.from_m = drill->least_m;
    floor.to_m = drill->most_m;
}

/// Returns where the balls stopped.
std::vector<BallStop> run_pace_test(Session& session, Memory& memory,
                                    const MeasureArguments& arguments) {
    const Units units = session.units();
    PaceFloor floor = floor_of(arguments, session);
    if (arguments.drill) call_for_drill(floor, memory, units);
    const auto called = called_lengths_m(floor.from_m, floor.to_m, arguments.count_of(),
                                         arguments.seed ? *arguments.seed : std::random_device()());
    Asking asking(session);
    if (floor.timed && !session.json()) session.out() << timing_words(floor, units) << '\n';
    std::vector<BallStop> stops;
    for (const double length : called) {
        const std::string question =
            fmt::format("{} of {}: {}. {}:", stops.size() + 1, called.size(),
                        format_distance(length, units), asked_words(floor));
        const auto stop = asking.until(question, [&](const std::string& text) {
            return parse_stop(text, length, floor, units);
        });
        if (!stop) break;
        memory.remember(
            PaceBall{.at = moment_now(), .called_m = length, .stopped_m = stop->stopped_m});
        stops.push_back(*stop);
    }
    return stops;
}

void run_line_test(Session& session, Memory& memory, const MeasureArguments& arguments) {
    const Units units = session.units();
    Asking asking(session);
    GateTest test(memory.measures().strokes, usual_gates(units.metric), arguments.drill);
    for (int i = 1; i <= arguments.count_of(); ++i) {
        const auto passed =
            asking.until(fmt::format("{} of {}: gate {}. Through, left or right:", i,
                                     arguments.count_of(), gate_words(test.gate(), units)),
                         parse_passed);
        if (!passed) return;
        memory.remember(GateStroke{.at = moment_now(), .gate = test.gate(), .passed = *passed});
        test.add(*passed);
    }
}

// ---- what was found

void print_months(Session& session, const std::vector<MeasuredMonth>& months) {
    if (months.size() < 2) return;
    std::vector<std::vector<std::string>> table{{"month", "pace", "line"}};
    for (const auto& [month, found] : months)
        table.push_back({month, found.pace ? percent_range(found.pace->spread) : absent,
                         found.line ? degrees_range(found.line->spread_deg) : absent});
    session.out() << "\nSpreads, month by month\n";
    print_table(session.out(), table);
    print_lines(session, change_words(months));
}

Json months_json(const std::vector<MeasuredMonth>& months) {
    Json rows = Json::array();
    for (const auto& [month, found] : months)
        rows.push_back(
            {{"month", month}, {"pace", pace_json(found.pace)}, {"line", line_json(found.line)}});
    return rows;
}

/// `floor`: the stimp of the one that was just putted on, where that was found.
Exit show(Session& session, const Memory& memory,
          const std::optional<Credible>& floor = std::nullopt) {
    const Measures measures = memory.measures();
    const Measured found = measured(measures);
    const auto months = measured_by_month(measures);
    if (session.json()) {
        session.print({{"pace", pace_json(found.pace)},
                       {"line", line_json(found.line)},
                       {"floor_stimp_ft", share_json(floor)},
                       {"months", months_json(months)}});
        return Exit::done;
    }
    const Units units = session.units();
    if (floor) session.out() << floor_words(*floor) << '\n';
    if (found.nothing()) {
        session.out()
            << "Six balls tell the first of it: dewtrail measure pace, or measure line.\n";
        return Exit::done;
    }
    const auto print = [&](const std::string& heading, const std::vector<std::string>& words,
                           const std::string& drill, const char* by) {
        session.out() << heading << '\n';
        print_lines(session, words);
        if (!drill.empty())
            session.out() << "Drill: " << drill << " dewtrail measure " << by << " --drill\n";
        session.out() << '\n';
    };
    if (found.pace)
        print(fmt::format("Pace, by {} balls", found.pace->balls), pace_words(*found.pace, units),
              drill_words(*found.pace, units), "pace");
    if (found.line)
        print(fmt::format("Line, by {} strokes", found.line->strokes),
              line_words(*found.line, units), drill_words(*found.line, units), "line");
    session.out() << "Make it yours: dewtrail measure take\n";
    print_months(session, months);
    return Exit::done;
}

Exit take(Session& session, const Memory& memory) {
    const Measured found = measured(memory.measures());
    if (found.nothing())
        throw InputError("nothing was measured yet",
                         "Six balls are the least: dewtrail measure pace");
    Player player = load_player(session.player_path());
    const Spread before = player.spread;
    player.adopt(spread_by(found, before), measured_from(found), today());
    save_player(session.player_path(), player);
    if (session.json()) {
        session.print({{"line_deg", number(player.spread.line_deg)},
                       {"pace", number(player.spread.pace)},
                       {"pace_floor_m", number(player.spread.pace_floor_m)},
                       {"from", player.spread_from},
                       {"since", player.spread_since}});
        return Exit::done;
    }
    const Units units = session.units();
    session.out() << fmt::format(
        "Your spread is now {}.\nBefore: {}; it is kept in the player file.\n{}\n",
        spread_words(player.spread, units), spread_words(before, units),
        taken_words(before, player.spread, player.stimp_ft.value_or(usual_stimp_ft), units));
    return Exit::done;
}

// ---- the parts of the command

Exit measure_pace(Session& session, const MeasureArguments& arguments) {
    Memory memory = memory_of(session);
    const auto stops = run_pace_test(session, memory, arguments);
    return show(session, memory, floor_stimp_ft(stops, session.player()));
}

Exit measure_line(Session& session, const MeasureArguments& arguments) {
    Memory memory = memory_of(session);
    run_line_test(session, memory, arguments);
    return show(session, memory);
}

Exit show_found(Session& session, const MeasureArguments&) {
    return show(session, memory_of(session, Session::Use::looks));
}

Exit take_found(Session& session, const MeasureArguments&) {
    return take(session, memory_of(session, Session::Use::looks));
}

Exit run_export(Session& session, const MeasureArguments& arguments) {
    if (arguments.file == "-" && session.json())
        throw InputError("measure export prints a table", "Name a file, or leave --json out.");
    if (arguments.file != "-") check_may_be_file(arguments.file);
    const Measures measures = memory_of(session, Session::Use::looks).measures();
    return export_table(session, arguments.file, write_measures_csv(measures), measures.size(),
                        "balls and strokes");
}

Exit run_import(Session& session, const MeasureArguments& arguments) {
    return import_table(
        session, arguments.file, "balls and strokes",
        [&](const std::string& text) { return read_measures_csv(arguments.file, text); },
        [&](const Measures& measures) { return memory_of(session).add(measures); });
}

}  // namespace

void add_measure_command(const Command& app, Session& session) {
    const Command command =
        app.add_subcommand("measure", "Your own pace and line, by twenty balls at home");
    command.require_subcommand(1);
    command.footer(measure_examples);
    using Run = Exit (*)(Session&, const MeasureArguments&);
    const auto part = [&](const char* name, const char* what,
                          const std::shared_ptr<MeasureArguments>& a, Run run) {
        const Command sub = command.add_subcommand(name, what);
        session.add_memory_option(sub);
        session.add_common_options(sub);
        sub.callback(
            [&session, a, run] { session.run = [&session, a, run] { return run(session, *a); }; });
        return sub;
    };
    const auto pace = std::make_shared<MeasureArguments>();
    const Command by_pace =
        part("pace", "Lengths are called, you type where the ball stopped", pace, measure_pace);
    by_pace.add_option("--from", pace->from, "Shortest length called (6 ft; 2 m)");
    by_pace.add_option("--to", pace->to, "Longest (20 ft; 6 m)");
    by_pace.add_option("--balls", pace->count, "How many (20)").within(1, 200);
    by_pace.add_flag("--drill", pace->drill, "Ten balls of the lengths where your bias is");
    by_pace.add_option("--seed", pace->seed, "The same order again");
    by_pace.add_option("--line", pace->line,
                       "On a short floor: time the ball to a line so far away, or between two "
                       "marks: 3ft,6ft");
    by_pace.add_option("--stimp", pace->stimp,
                       "The floor's speed, for --line; or a ball by your stroke table: 4ft, back "
                       "6in");
    const auto line = std::make_shared<MeasureArguments>();
    const Command by_line =
        part("line", "Two coins are a gate; you type through, left or right", line, measure_line);
    by_line.add_option("--strokes", line->count, "How many (20)").within(1, 200);
    by_line.add_flag("--drill", line->drill, "Ten through the gate one size smaller than yours");
    const auto none = std::make_shared<MeasureArguments>();
    part("show", "What was found so far", none, show_found);
    part("take", "Make it your spread; the one before is kept", none, take_found);
    const auto file = std::make_shared<MeasureArguments>();
    part("export", "All balls and strokes as CSV", file, run_export)
        .add_option("FILE", file->file, "- prints them")
        .required();
    part("import", "Add the balls and strokes of such a file", file, run_import)
        .add_option("FILE", file->file, "A file that measure export wrote")
        .required();
}

}  // namespace dewtrail
