#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/practice/habits/low_misses.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/terminal/practise/log_round.hpp"
#include "viewer/terminal/practise/practise.hpp"
#include "viewer/terminal/practise/table_file.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

/// As typed, by the columns of the CSV.
struct LogArguments {
    std::map<std::string, std::string> cells;
    std::optional<std::string> distance;
    bool holed = false, round = false;
    std::string file;
    std::optional<int> last;
};

std::string miss_words(const LoggedPutt& putt, const Units& units) {
    if (putt.holed) return "holed";
    const std::string left = leave_text({putt.past_m, putt.right_m, putt.left_m}, units);
    std::string words = "missed";
    if (!putt.missed.empty()) words += ' ' + putt.missed;
    if (!left.empty()) words += ", stopped " + left;
    return words;
}

std::string putt_line(const LoggedPutt& putt, const Units& units) {
    std::string words = format_distance(putt.distance_m, units);
    if (putt.slope) words += ", " + format_slope(*putt.slope);
    if (putt.clock_h) words += ", ball at " + format_clock(*putt.clock_h);
    if (!putt.side.empty()) words += ", " + putt.side;
    if (!putt.grade.empty()) words += ", " + putt.grade;
    return words + ": " + miss_words(putt, units);
}

Json json_of(const LoggedPutt& putt) {
    const auto text = [](const std::string& words) {
        return words.empty() ? Json(nullptr) : Json(words);
    };
    return {{"id", putt.id},
            {"date", text(putt.date)},
            {"green", text(putt.green)},
            {"hole", text(putt.hole)},
            {"distance_m", number(putt.distance_m)},
            {"slope", number(putt.slope)},
            {"clock_h", number(putt.clock_h)},
            {"stimp_ft", number(putt.stimp_ft)},
            {"aim_m", number(putt.aim_m)},
            {"level_putt_m", number(putt.level_putt_m)},
            {"holed", putt.holed},
            {"past_m", number(putt.past_m)},
            {"right_m", number(putt.right_m)},
            {"left_m", number(putt.left_m)},
            {"missed", text(putt.missed)},
            {"side", text(putt.side)},
            {"grade", text(putt.grade)}};
}

LoggedPutt logged_putt(LogArguments& arguments, const Units& units) {
    auto& cells = arguments.cells;
    if (!arguments.distance)
        throw InputError("no distance was given",
                         "say how long the putt was: dewtrail log 12ft --missed low");
    cells["distance"] = *arguments.distance;
    const bool missed = cells.count("missed") || cells.count("left");
    if (arguments.holed == missed)
        throw InputError(missed ? "a putt cannot be holed and missed" : "how did it end?",
                         "add --holed, or --missed 'low short', or --left '2ft past 6in left'");
    cells["result"] = arguments.holed ? "holed" : "missed";
    if (!cells.count("date")) cells["date"] = today();
    return parse_putt({cells.begin(), cells.end()}, units);
}

/// What to do with it now.
const char* next_words(const LoggedPutt& putt) {
    const bool told = putt.slope && putt.clock_h && !putt.holed;
    return told ? "Next: dewtrail review --last 1" : "Next: dewtrail player fit --from-log";
}

Exit run_add(Session& session, LogArguments& arguments) {
    if (arguments.round) return run_log_round(session);
    LoggedPutt putt = logged_putt(arguments, session.units());
    Memory memory = memory_of(session);
    putt.id = memory.remember(putt);
    if (session.json())
        session.print(json_of(putt));
    else
        session.out() << fmt::format("Remembered as putt {}: {}.\n{}\n", putt.id,
                                     putt_line(putt, session.units()), next_words(putt));
    return Exit::done;
}

void print_putts(Session& session, const std::vector<LoggedPutt>& putts, std::size_t in_all) {
    Json list = Json::array();
    for (const LoggedPutt& putt : putts) list.push_back(json_of(putt));
    session.print({{"putts", list}, {"in_all", in_all}});
}

void print_low_misses(Session& session, const std::vector<LoggedPutt>& putts) {
    const LowMisses misses = low_misses(putts, session.player());
    if (misses.low + misses.high > 0) session.out() << '\n' << low_miss_words(misses) << '\n';
}

Exit run_list(Session& session, const LogArguments& arguments) {
    const Memory memory = memory_of(session, Session::Use::looks);
    const auto all = memory.putts();
    const std::size_t count =
        std::min(all.size(), static_cast<std::size_t>(std::max(1, arguments.last.value_or(20))));
    const std::vector<LoggedPutt> putts(all.end() - static_cast<std::ptrdiff_t>(count), all.end());
    if (session.json()) {
        print_putts(session, putts, all.size());
        return Exit::done;
    }
    if (all.empty()) {
        session.out() << "No putt is logged yet. Start with: dewtrail log 12ft --missed low\n";
        return Exit::done;
    }
    for (const LoggedPutt& putt : putts)
        session.out() << fmt::format("{:>4}  {:<10}  {}\n", putt.id, putt.date,
                                     putt_line(putt, session.units()));
    print_low_misses(session, all);
    return Exit::done;
}

Exit run_export(Session& session, const LogArguments& arguments) {
    check_may_be_file(arguments.file);
    const Memory memory = memory_of(session, Session::Use::looks);
    const auto putts = memory.putts();
    const bool printed = arguments.file.empty() || arguments.file == "-";
    if (printed && session.json()) {
        print_putts(session, putts, putts.size());
        return Exit::done;
    }
    return export_table(session, printed ? "-" : arguments.file, write_putts_csv(putts),
                        putts.size(), "putts");
}

Exit run_import(Session& session, const LogArguments& arguments) {
    const Units units = session.units();
    return import_table(
        session, arguments.file, "putts",
        [&](const std::string& text) { return read_putts_csv(arguments.file, text, units); },
        [&](const auto& putts) { return memory_of(session).add(putts); });
}

using Run = Exit (*)(Session&, const LogArguments&);

Command add_part(const Command& log, Session& session, const std::shared_ptr<LogArguments>& a,
                 const char* name, const char* what, const char* examples, Run run) {
    const Command part = log.add_subcommand(name, what);
    session.add_memory_option(part);
    session.add_common_options(part);
    part.footer(std::string("Examples:\n") + examples);
    part.callback(
        [&session, a, run] { session.run = [&session, a, run] { return run(session, *a); }; });
    return part;
}

void add_cells(const Command& command, const std::shared_ptr<LogArguments>& a) {
    const auto cell = [&](const char* column, const char* what) {
        command.add_option_function(
            std::string("--") + column,
            [a, column](const std::string& text) { a->cells[column] = text; }, what);
    };
    command.add_option("distance", a->distance, "How long it was: 12ft, 3.6m, 4½paces");
    command.add_flag("--holed", a->holed, "It went in");
    command.add_flag("--round", a->round, "After a round: five putts from memory are asked for");
    cell("missed", "How it missed: low, high, left, right, short, long; 'low short'");
    cell("left", "Where it stopped, seen from the ball: '2ft past 6in left', or 2ft");
    cell("side", "rl (right to left), lr, or straight");
    cell("grade", "up, level or down");
    cell("slope", "Slope: 2%");
    cell("clock", "Where the ball lay: 12 straight above the hole, 3 right of it");
    cell("stimp", "Green speed");
    cell("aim", "What was meant: '15in right', '2 cups left', centre");
    cell("pace", "… as a level putt of: 12ft");
    cell("date", "2026-05-01; today if not given");
    cell("green", "Name of the green or course");
    cell("hole", "Name or number of the hole");
}

}  // namespace

void add_log_command(const Command& app, Session& session) {
    auto a = std::make_shared<LogArguments>();
    const Command command =
        app.add_subcommand("log", "Remember real putts; list, export, import them");
    add_cells(command, a);
    session.add_memory_option(command);
    session.add_common_options(command);
    command.footer(
        "Examples:\n"
        "  dewtrail log 12ft --side rl --grade down --missed 'low long'\n"
        "      Quick; dewtrail log --round asks for five putts of a round one after the other.\n"
        "  dewtrail log 12ft --slope 2% --clock 3 --aim '15in right' --left '2ft past 6in left'\n"
        "      Full: this one can be reviewed.");
    command.callback([&session, a, command] {
        if (!command.names_a_subcommand())
            session.run = [&session, a] { return run_add(session, *a); };
    });
    add_part(command, session, a, "list", "The last putts, and what their misses say",
             "  dewtrail log list\n  dewtrail log list --last 50 --json", run_list)
        .add_option("--last", a->last, "How many (20)");
    add_part(command, session, a, "export", "All putts as CSV",
             "  dewtrail log export putts.csv\n  dewtrail log export > putts.csv", run_export)
        .add_option("file", a->file, "Where to; standard output if not given");
    add_part(command, session, a, "import",
             "Add the putts of a CSV file: a filled-in result form, or an export",
             "  dewtrail log import putts.csv\n  dewtrail log import putts.csv --units metric",
             run_import)
        .add_option("file", a->file,
                    "Columns date,green,hole,distance,slope,clock,stimp,aim,pace,result,left,"
                    "missed,side,grade; all but distance may be missing")
        .required();
}

}  // namespace dewtrail
