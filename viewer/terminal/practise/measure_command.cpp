#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <memory>
#include <ostream>
#include <random>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/practice/measure/measure_words.hpp"
#include "viewer/terminal/practise/asking.hpp"
#include "viewer/terminal/practise/practise.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

struct MeasureArguments {
    std::optional<std::string> from, to, line, stimp;
    std::optional<std::uint64_t> seed;
    int count = 20;
};

constexpr std::size_t counting = 40;  // the last ones say what a player is like now

constexpr const char* examples =
    "Twenty balls on a carpet or a mat, a tape measure and two coins: your own pace and line, in\n"
    "place of a preset's. Each ball is remembered as it is typed; q ends.\n"
    "Examples:\n"
    "  dewtrail measure pace\n"
    "      A length is called, you putt it and type where the ball stopped: 13ft, 10in short.\n"
    "  dewtrail measure pace --line 2m --stimp 12\n"
    "      On a short mat: type the time to a line 2 m away.\n"
    "  dewtrail measure line\n"
    "      Two coins are the gate; type t, l or r for through, left or right.\n"
    "  dewtrail measure show\n"
    "      What was found so far. 'measure take' makes it your spread: odds and best finishes "
    "follow.";

template <class Row>
std::vector<Row> last_of(std::vector<Row> rows) {
    if (rows.size() > counting) rows.erase(rows.begin(), rows.end() - counting);
    return rows;
}

std::optional<LineFound> line_found(const std::vector<GateStroke>& strokes) {
    constexpr std::size_t least = 6;
    if (strokes.size() < least) return std::nullopt;
    LinePosterior known;
    for (const GateStroke& stroke : strokes) known.add(stroke.gate, stroke.passed);
    return known.found();
}

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

/// 'It stopped at': a length, or so much short or long of the one that was called.
double parse_stop_m(std::string text, double called_m, const Units& units) {
    for (const auto& [word, side] :
         {std::pair("short", -1.0), std::pair("long", 1.0), std::pair("past", 1.0)})
        if (const auto at = text.find(word); at != text.npos) {
            const double off = parse_short_length_m(text.substr(0, at), units, "how far off");
            return std::max(called_m + side * off, 0.0);
        }
    return parse_level_roll_m(text, units, "where it stopped");
}

// ---- the tests

class PaceTest {
  public:
    PaceTest(Session& session, const MeasureArguments& a)
        : units_(session.units()), asking_(session) {
        const auto length = [&](const std::optional<std::string>& text, double usual) {
            return text ? parse_distance_m(*text, units_) : usual;
        };
        const double from = length(a.from, units_.metric ? 2 : 6 * metres_per_foot);
        const double to = length(a.to, units_.metric ? 6 : 20 * metres_per_foot);
        if (!(to > from))
            throw InputError("--to is no longer than --from", "Say --from 6ft --to 20ft.");
        if (a.line) line_m_ = parse_distance_m(*a.line, units_, "line");
        if (a.line && !a.stimp)
            throw InputError("a time to a line tells nothing without the floor's speed",
                             "Give --stimp 12; find it with: dewtrail speed");
        if (a.stimp) stimp_ft_ = parse_stimp_ft(*a.stimp);
        called_ = called_lengths_m(from, to, a.count, a.seed ? *a.seed : std::random_device()());
    }

    void run(Memory& memory) {
        int number = 0;
        for (const double called : called_) {
            const std::string question = fmt::format(
                "{} of {}: {}. {}:", ++number, called_.size(), format_distance(called, units_),
                line_m_ ? "Seconds to the line" : "It stopped at");
            const auto stopped = asking_.until(
                question, [&](const std::string& text) { return stop_of(text, called); });
            if (!stopped) return;
            memory.remember(
                PaceBall{.at = moment_now(), .called_m = called, .stopped_m = *stopped});
        }
    }

  private:
    double stop_of(const std::string& text, double called) const {
        double stop = 0;
        if (line_m_) {
            const auto roll = roll_by_time_m(*line_m_, parse_time_s(text), stimp_ft_);
            if (!roll)
                throw InputError("a ball that slow does not get to the line",
                                 "Type the seconds from the stroke to the line.");
            stop = *roll;
        } else {
            stop = parse_stop_m(text, called, units_);
        }
        const PaceBall ball{.called_m = called, .stopped_m = stop};
        if (const std::string wrong = out_of_range(ball); !wrong.empty())
            throw InputError("that is " + wrong, "Type where the ball stopped.");
        return stop;
    }

    Units units_;
    Asking asking_;
    std::optional<double> line_m_;
    double stimp_ft_ = usual_stimp_ft;
    std::vector<double> called_;
};

Passed parse_passed(const std::string& text) {
    constexpr std::pair<std::string_view, Passed> words[] = {
        {"t", Passed::through}, {"through", Passed::through}, {"l", Passed::left},
        {"left", Passed::left}, {"r", Passed::right},         {"right", Passed::right}};
    for (const auto& [word, passed] : words)
        if (text == word) return passed;
    throw InputError(fmt::format("'{}' is neither through, left nor right", text),
                     "Type t, l or r; a ball that touches a coin went to its side.");
}

void run_line_test(Session& session, Memory& memory, int strokes) {
    Asking asking(session);
    LinePosterior known;
    for (const GateStroke& stroke : last_of(memory.gate_strokes()))
        known.add(stroke.gate, stroke.passed);
    GateSize gate;
    for (int i = 1; i <= strokes; ++i) {
        gate = known.next(usual_gates(session.units().metric), gate);
        const auto passed =
            asking.until(fmt::format("{} of {}: gate {}. Through, left or right:", i, strokes,
                                     gate_words(gate, session.units())),
                         parse_passed);
        if (!passed) return;
        memory.remember(GateStroke{.at = moment_now(), .gate = gate, .passed = *passed});
        known.add(gate, *passed);
    }
}

// ---- what was found

struct Found {
    std::optional<PaceFound> pace;
    std::optional<LineFound> line;
};

Found found_in(const Memory& memory) {
    return {pace_found(last_of(memory.pace_balls())), line_found(last_of(memory.gate_strokes()))};
}

void print_months(Session& session, const Memory& memory) {
    std::map<std::string, std::pair<std::vector<PaceBall>, std::vector<GateStroke>>> months;
    for (const PaceBall& ball : memory.pace_balls())
        months[ball.at.substr(0, 7)].first.push_back(ball);
    for (const GateStroke& stroke : memory.gate_strokes())
        months[stroke.at.substr(0, 7)].second.push_back(stroke);
    if (months.size() < 2) return;
    std::vector<std::vector<std::string>> table{{"month", "pace", "line"}};
    for (const auto& [month, rows] : months) {
        const auto pace = pace_found(rows.first);
        const auto line = line_found(rows.second);
        table.push_back(
            {month,
             pace ? fmt::format("{:.0f}–{:.0f} %", 100 * pace->spread.lo, 100 * pace->spread.hi)
                  : absent,
             line ? fmt::format("{:.1f}–{:.1f}°", line->spread_deg.lo, line->spread_deg.hi)
                  : absent});
    }
    session.out()
        << "\nSpreads, month by month: where two do not overlap, the change is more than chance.\n";
    print_table(session.out(), table);
}

Exit show(Session& session, const Memory& memory) {
    const Found found = found_in(memory);
    if (session.json()) {
        session.print({{"pace", pace_json(found.pace)}, {"line", line_json(found.line)}});
        return Exit::done;
    }
    const Units units = session.units();
    if (found.pace) {
        session.out() << fmt::format("Pace, by {} balls\n", found.pace->balls);
        print_lines(session, pace_words(*found.pace, units));
    }
    if (found.line) {
        session.out() << fmt::format("{}Line, by {} strokes\n", found.pace ? "\n" : "",
                                     found.line->strokes);
        print_lines(session, line_words(*found.line, units));
    }
    if (!found.pace && !found.line)
        session.out()
            << "Six balls tell the first of it: dewtrail measure pace, or measure line.\n";
    else
        session.out() << "\nMake it yours: dewtrail measure take\n";
    print_months(session, memory);
    return Exit::done;
}

Exit take(Session& session, const Memory& memory) {
    const Found found = found_in(memory);
    if (!found.pace && !found.line)
        throw InputError("nothing was measured yet",
                         "Six balls are the least: dewtrail measure pace");
    Player player = load_player(session.player_path());
    const auto rounded = [](double value, double step) { return step * std::round(value / step); };
    if (found.pace) {
        player.spread.pace = rounded(found.pace->spread.mean, 0.001);
        player.spread.pace_floor_m = rounded(found.pace->floor_m.mean, 0.001);
    }
    if (found.line) player.spread.line_deg = rounded(found.line->spread_deg.mean, 0.01);
    save_player(session.player_path(), player);
    if (session.json())
        session.print({{"line_deg", number(player.spread.line_deg)},
                       {"pace", number(player.spread.pace)},
                       {"pace_floor_m", number(player.spread.pace_floor_m)}});
    else
        session.out() << fmt::format("Your spread is now {}.\n",
                                     spread_words(player.spread, session.units()));
    return Exit::done;
}

Exit measure_pace(Session& session, const MeasureArguments& arguments) {
    PaceTest test(session, arguments);
    Memory memory = memory_of(session);
    test.run(memory);
    return show(session, memory);
}

Exit measure_line(Session& session, const MeasureArguments& arguments) {
    Memory memory = memory_of(session);
    run_line_test(session, memory, arguments.count);
    return show(session, memory);
}

Exit show_found(Session& session, const MeasureArguments&) {
    return show(session, memory_of(session));
}

Exit take_found(Session& session, const MeasureArguments&) {
    return take(session, memory_of(session));
}

}  // namespace

void add_measure_command(const Command& app, Session& session) {
    const Command command =
        app.add_subcommand("measure", "Your own pace and line, by twenty balls at home");
    command.require_subcommand(1);
    command.footer(examples);
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
    by_pace.add_option("--seed", pace->seed, "The same order again");
    by_pace.add_option("--line", pace->line,
                       "On a short floor: time the ball to a line so far away");
    by_pace.add_option("--stimp", pace->stimp, "The floor's speed, for --line");
    const auto line = std::make_shared<MeasureArguments>();
    part("line", "Two coins are a gate; you type through, left or right", line, measure_line)
        .add_option("--strokes", line->count, "How many (20)")
        .within(1, 200);
    const auto none = std::make_shared<MeasureArguments>();
    part("show", "What was found so far", none, show_found);
    part("take", "Make it your spread", none, take_found);
}

}  // namespace dewtrail
