#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/comparison/compare_words.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/paper/compare_page.hpp"
#include "viewer/paper/form_pages.hpp"
#include "viewer/paper/green_page.hpp"
#include "viewer/paper/ladder_page.hpp"
#include "viewer/paper/measure_form.hpp"
#include "viewer/paper/page_name.hpp"
#include "viewer/paper/read_page.hpp"
#include "viewer/paper/today_page.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/compare_options.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/sheet_files.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {
constexpr const char* sheet_footer =
    "Pages are true to scale when printed at 100 % ('actual size'). The name's ending says the\n"
    "kind of file: .pdf, .svg or .png. A file that is there is replaced only with --force.\n"
    "Examples:\n"
    "  dewtrail sheet ladder --stimp 10\n"
    "      Today's putts of 4, 8, 12 and 20 ft on 1, 2, 3 and 4 %: ladder.pdf, four pages.\n"
    "  dewtrail sheet read 12ft --slope 2% --clock 3 --out putt.svg\n"
    "  dewtrail sheet compare --show uphill --paper letter\n"
    "  dewtrail sheet survey\n"
    "  dewtrail sheet today meadow --hole flag --ball left front\n"
    "      Which way it falls and how much, square by square, and two reads.\n"
    "  dewtrail sheet green meadow --round\n"
    "      Pocket paper, no larger than 1 : 480.";

/// A kind of page as a command of its own. What was typed lives as long as the command.
template <class Arguments>
void add_kind(const Command& sheet, Session& session, const char* name, const char* what,
              void (*options)(const Command&, Arguments&),
              Exit (*run)(Session&, const Arguments&)) {
    const Command command = sheet.add_subcommand(name, what);
    auto arguments = std::make_shared<Arguments>();
    options(command, *arguments);
    add_sheet_options(command, arguments->sheet, name);
    session.add_common_options(command);
    command.callback([&session, arguments, run] {
        session.run = [&session, arguments, run] { return run(session, *arguments); };
    });
}

// ---- a read

struct ReadSheet {
    SheetArguments sheet;
    PuttRequest putt;
};

Exit say_no_line(Session& session, const std::string& reason) {
    if (session.json())
        session.print({{"error", {{"kind", "no_line"}, {"reason", reason}}}});
    else
        session.err() << reason << '\n';
    return Exit::no_answer;
}

Exit sheet_of_read(Session& session, const ReadSheet& arguments) {
    const Paper paper = paper_of(arguments.sheet);
    const Units units = session.units();
    const PlacedPutt plan = set_up(arguments.putt, defaults_of(session));
    const Solved solved = solve(plan.setup, session.player().usual_past_m, Effort::settled);
    if (!solved.read)
        return say_no_line(session, solved.none ? no_line_words(plan, *solved.none, units)
                                                : trouble_of(solved, units).words);
    return save_sheet(session, arguments.sheet,
                      {paper, {read_page(plan.setup, solved, paper, units)}},
                      putt_name(plan.setup, units));
}

// ---- a comparison

struct CompareSheet {
    SheetArguments sheet;
    CompareArguments putts;
    std::optional<std::string> show;
    int sideways = usual_stretch;
};

void add_compare_sheet_options(const Command& command, CompareSheet& arguments) {
    add_compare_options(command, arguments.putts);
    command.add_option("--show", arguments.show, "A ready demonstration (see compare --show list)")
        .group("Comparison");
    command
        .add_option("--sideways", arguments.sideways,
                    "How many times wider across than along: 1, 2, 4 or 8 (2, as in the window)")
        .one_of_numbers({1.0, 2.0, 4.0, 8.0})
        .group("Comparison");
}

bool has_stroke(const Comparison& comparison) {
    return std::any_of(comparison.putts.begin(), comparison.putts.end(),
                       [](const ComparedPutt& p) { return p.shown() != nullptr; });
}

Exit sheet_of_compare(Session& session, const CompareSheet& arguments) {
    const Paper paper = paper_of(arguments.sheet);
    const Units units = session.units();
    const auto save = [&](PrintedComparison page) {
        page.stretch = arguments.sideways;
        return save_sheet(session, arguments.sheet, {paper, {compare_page(page, paper, units)}},
                          arguments.show ? page.title : "");
    };
    if (arguments.show) return save(printed(demonstrate(*arguments.show, units)));
    const Comparison comparison = while_busy(session, "Reading the putts …", [&] {
        return compare(requests_of(arguments.putts), defaults_of(session));
    });
    const std::string sentence = comparison_sentence(comparison, units);
    if (!has_stroke(comparison)) return say_no_line(session, sentence);
    return save({comparison, "Side by side", {sentence}});
}

// ---- a ladder

struct LadderSheet {
    SheetArguments sheet;
    PuttRequest putt;
    std::vector<std::string> slopes, distances;
};

void add_ladder_sheet_options(const Command& command, LadderSheet& arguments) {
    command
        .add_option("distances", arguments.distances,
                    "One to five lengths of putts (4ft 8ft 12ft 20ft; metric 1m 2m 4m 6m)")
        .expected(1, most_rungs);
    command.add_option("--slope", arguments.slopes, "Slopes, a page each (1% 2% 3% 4%)")
        .expected(1, 12);
    command.add_option("--stimp", arguments.putt.stimp, "Today's green speed: 10, 3m, quick");
    command.add_flag("--wet", arguments.putt.wet, "A wet green: takes 1½ ft off the stimp");
    add_finish_options(command, arguments.putt);
}

std::vector<double> rungs_m(const LadderSheet& arguments, const Units& units) {
    if (arguments.distances.empty()) return usual_rungs_m(units.metric);
    std::vector<double> rungs;
    for (const std::string& text : arguments.distances)
        rungs.push_back(parse_distance_m(text, units));
    return rungs;
}

/// A finish that is not asked for is the usual one, for the long rungs as for the short.
Setup ladder_ground(Session& session, const LadderSheet& arguments, const std::string& slope) {
    PuttRequest request = arguments.putt;
    request.slope = slope;
    request.clock = "12";  // any; each rung sets its own
    request.distance = "1m";
    const Setup ground = set_up(request, defaults_of(session)).setup;
    if (!clock_of(ground))
        throw InputError("on level ground every putt is straight", "Give a slope: --slope 2%.");
    return ground;
}

Exit sheet_of_ladder(Session& session, const LadderSheet& arguments) {
    const Paper paper = paper_of(arguments.sheet);
    const Units units = session.units();
    Ladder ladder{.ground = {},
                  .distances_m = rungs_m(arguments, units),
                  .usual_past_m = session.player().usual_past_m};
    std::vector<std::string> slopes = arguments.slopes;
    if (slopes.empty()) slopes = {"1%", "2%", "3%", "4%"};
    Sheet sheet{paper, {}};
    std::vector<std::string> reasons;
    for (const std::string& slope : slopes) {
        ladder.ground = ladder_ground(session, arguments, slope);
        if (const auto why = no_ladder_words(ladder, units))
            reasons.push_back(*why);
        else
            sheet.pages.push_back(ladder_page(ladder, paper, units));
    }
    if (sheet.pages.empty()) return say_no_line(session, reasons.front());
    for (const std::string& why : reasons) session.err() << why << " Its page is left out.\n";
    return save_sheet(session, arguments.sheet, sheet);
}

// ---- forms

struct FormSheet {
    SheetArguments sheet;
};

template <Picture (*form)(Paper, const Units&)>
Exit sheet_of_form(Session& session, const FormSheet& arguments) {
    const Paper paper = paper_of(arguments.sheet);
    return save_sheet(session, arguments.sheet, {paper, {form(paper, session.units())}});
}

// ---- a green

struct GreenSheet {
    SheetArguments sheet;
    std::string green, hole;
};

void add_green_sheet_options(const Command& command, GreenSheet& arguments) {
    command.add_option("green", arguments.green, "Name or file of the green").required();
    command.add_option("--hole", arguments.hole, "Hole that heights are told from");
}

/// The first where none is named.
std::string hole_of(const Green& green, const std::string& name) {
    if (name.empty()) return green.holes.begin()->first;
    if (green.holes.count(name)) return name;
    throw InputError(fmt::format("hole '{}' is not on {}", name, green.name),
                     "See dewtrail green show for its holes.");
}

Exit sheet_of_green(Session& session, const GreenSheet& arguments) {
    SheetArguments practice = arguments.sheet;
    practice.round = false;
    const Paper paper = arguments.sheet.round ? Paper::pocket : paper_of(practice);
    const Green green = load_green(arguments.green, green_folders());
    const std::string hole = hole_of(green, arguments.hole);
    return save_sheet(session, arguments.sheet,
                      {paper, {green_page(green, hole, paper, session.units())}},
                      green.name + "-" + hole);
}

// ---- a green for today

struct TodaySheet {
    SheetArguments sheet;
    PuttRequest putt;
    std::string green;
    std::vector<std::string> balls;
};

void add_today_sheet_options(const Command& command, TodaySheet& arguments) {
    command.add_option("green", arguments.green, "Name or file of the green").required();
    command.add_option("--hole", arguments.putt.hole, "Today's hole (the first)");
    command
        .add_option("--ball", arguments.balls,
                    "Up to three balls to read: names, or x,y in metres (the green's own)")
        .expected(1, most_balls);
    command.add_option("--stimp", arguments.putt.stimp, "Today's green speed (the green's)");
    add_finish_options(command, arguments.putt);
}

Exit sheet_of_today(Session& session, const TodaySheet& arguments) {
    SheetArguments practice = arguments.sheet;
    practice.round = false;
    const bool round = arguments.sheet.round;
    if (round && !arguments.balls.empty())
        throw InputError("--round shows no balls", "What tells a line is for practice.");
    const Green green = load_green(arguments.green, green_folders());
    PuttRequest request = arguments.putt;
    request.green = arguments.green;
    request.hole = hole_of(green, request.hole.value_or(""));
    const std::vector<Vec2> balls = usual_balls(green, green.holes.at(*request.hole));
    if (balls.empty())
        throw InputError(fmt::format("{} has no room for a ball", green.name),
                         "Take a green of two metres or more.");
    std::vector<std::string> typed = arguments.balls;
    if (typed.empty())
        for (const Vec2& ball : balls) typed.push_back(fmt::format("{},{}", ball.x(), ball.y()));
    std::vector<Setup> putts;
    for (const std::string& ball : typed) {
        request.ball = ball;
        putts.push_back(set_up(request, defaults_of(session)).setup);
    }
    const Paper paper = round ? Paper::pocket : paper_of(practice);
    return save_sheet(
        session, arguments.sheet,
        {paper, {today_page(putts, session.player().usual_past_m, paper, session.units())}},
        putts[0].green->name + "-" + putts[0].hole_name);
}

}  // namespace

void add_sheet_command(const Command& app, Session& session) {
    const Command sheet = app.add_subcommand("sheet", "Printable pages: PDF, SVG or PNG");
    sheet.require_subcommand(1);
    sheet.footer(sheet_footer);
    add_kind<ReadSheet>(
        sheet, session, "read", "One read, drawn to scale",
        [](const Command& command, ReadSheet& a) { add_putt_options(command, a.putt); },
        sheet_of_read);
    add_kind<CompareSheet>(sheet, session, "compare", "A comparison, or a ready demonstration",
                           add_compare_sheet_options, sheet_of_compare);
    add_kind<LadderSheet>(sheet, session, "ladder",
                          "Putts of a few lengths for today's green speed, to scale",
                          add_ladder_sheet_options, sheet_of_ladder);
    const auto no_options = [](const Command&, FormSheet&) {};
    add_kind<FormSheet>(sheet, session, "survey", "A blank form to survey a green with", no_options,
                        sheet_of_form<survey_form>);
    add_kind<FormSheet>(sheet, session, "results", "A blank form for putts played", no_options,
                        sheet_of_form<result_form>);
    add_kind<FormSheet>(sheet, session, "measure", "A form for the tests of pace and line",
                        no_options, sheet_of_form<measure_form>);
    add_kind<TodaySheet>(sheet, session, "today",
                         "A green for today: falls on a grid, the hole, three balls",
                         add_today_sheet_options, sheet_of_today);
    add_kind<GreenSheet>(sheet, session, "green", "A whole green with its contours",
                         add_green_sheet_options, sheet_of_green);
}

}  // namespace dewtrail
