#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "physics/read/survey_advice.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/modes/read/read_mode.hpp"
#include "viewer/paper/screen.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/picture_options.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/glossary.hpp"

namespace dewtrail {
namespace {

struct ReadArguments {
    PuttRequest putt;
    bool all_lines = false;
    bool path = false;
    bool detail = false;
    PictureOptions picture;
    std::optional<std::string> view;
};

constexpr const char* read_footer =
    "Examples:\n"
    "  dewtrail read 12ft --slope 2% --clock 3 --stimp 10\n"
    "      12 feet, 2 % slope, the ball right of the hole, stimp 10: breaks right to left.\n"
    "  dewtrail read 20ft --reading '0,up 1%' --reading '10ft,left 2%' --reading 'hole,left 3%'\n"
    "      A level laid down at the ball, halfway and at the hole.\n"
    "  dewtrail read --green meadow --hole flag --ball left --png left.png --view eye\n"
    "      The window's picture of it, seen from behind the ball.";

/// What the survey of the green leaves open about the read; none on a plane.
std::optional<ReadDoubt> survey_doubt(Session& session, const PlacedPutt& plan, const Read& read,
                                      const ReadArguments& arguments) {
    if (!arguments.detail || !plan.setup.green || !plan.setup.green->fit) return std::nullopt;
    return read_doubt(plan.putt, read, *plan.setup.green->fit, session.player().usual_past_m);
}

/// Of every line: the next putts of one as far as it needs, of several from one table.
std::vector<std::optional<Odds>> odds_of_lines(const Putt& putt, const std::vector<Read>& lines,
                                               const Scatter& scatter) {
    if (lines.size() == 1) return {odds_of(putt, lines.front(), scatter)};
    std::vector<std::optional<Odds>> odds(lines.size());
    const auto surround = HoleSurround::make(putt);
    if (!surround) return odds;
    const NextPutts next(*surround, scatter);
    for (std::size_t i = 0; i < lines.size(); ++i) odds[i] = odds_of(putt, lines[i], scatter, next);
    return odds;
}

/// Next putts take most of the time, and only JSON and the coach's lines tell them.
std::vector<std::optional<OddsKnown>> known_odds_of(const Putt& putt,
                                                    const std::vector<Read>& lines,
                                                    const Spread& spread, bool next_putts) {
    std::vector<std::optional<OddsKnown>> known;
    const Scatter scatter = scatter_of(spread);
    if (next_putts) {
        for (const auto& odds : odds_of_lines(putt, lines, scatter))
            known.push_back(odds ? std::optional(known_odds(spread, *odds)) : std::nullopt);
        return known;
    }
    for (const Read& line : lines) {
        const auto odds = stroke_odds_of(putt, line, scatter);
        known.push_back(odds ? std::optional(known_odds(spread, *odds)) : std::nullopt);
    }
    return known;
}

std::vector<Account> accounts_of(Session& session, const PlacedPutt& plan, const ReadResult& result,
                                 const ReadArguments& arguments) {
    const auto odds = known_odds_of(plan.putt, result.lines, session.player().spread,
                                    session.json() || arguments.detail);
    std::vector<Account> accounts;
    for (std::size_t i = 0; i < result.lines.size(); ++i) {
        KnownBeside known = known_of(plan.setup, odds[i]);
        known.survey = survey_doubt(session, plan, result.lines[i], arguments);
        known.other_lines = arguments.all_lines ? 0 : result.other_lines;
        accounts.push_back(account_of(plan.putt, result.lines[i], session.units(), known));
        std::vector<std::string>& notes = accounts.back().notes;
        notes.insert(notes.begin(), plan.notes.begin(), plan.notes.end());
    }
    return accounts;
}

void print_json(Session& session, const PlacedPutt& plan, const std::vector<Read>& lines,
                const std::vector<Account>& accounts, const ReadArguments& arguments) {
    const auto line_json = [&](std::size_t i) {
        Json json = read_json(accounts[i]);
        if (arguments.path)
            json["path"] = path_json(lines[i].roll.path, followed_arc_m(lines[i].roll));
        return json;
    };
    Json json = {{"putt", putt_json(plan)}};
    json.update(line_json(0));
    json["notes"] = accounts[0].notes;
    if (arguments.all_lines) json["lines"] = Json::array();
    for (std::size_t i = 0; arguments.all_lines && i < lines.size(); ++i)
        json["lines"].push_back(line_json(i));
    session.print(json);
}

void print_path(std::ostream& out, const Roll& roll) {
    std::vector<std::vector<std::string>> rows{{"time s", "x m", "y m", "speed m/s"}};
    for (const auto& p : path_json(roll.path, followed_arc_m(roll)))
        rows.push_back(
            {fmt::format("{:.2f}", p[0].get<double>()), fmt::format("{:.3f}", p[1].get<double>()),
             fmt::format("{:.3f}", p[2].get<double>()), fmt::format("{:.3f}", p[3].get<double>())});
    print_table(out, rows);
}

/// A newcomer has not chosen it, nor read of it anywhere.
void print_usual_finish(Session& session, const PlacedPutt& plan, const PuttRequest& putt) {
    if (putt.names_no_finish() && plan.setup.finish.value == usual_past_m)
        session.out() << fmt::format("The finish (--past) is {}\n",
                                     uncapital(std::string(explained(finish_word)->sentence)));
}

void print_text(Session& session, const PlacedPutt& plan, const std::vector<Read>& lines,
                const std::vector<Account>& accounts, const ReadArguments& arguments) {
    std::ostream& out = session.out();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (i > 0) out << "\nAnother line: ";
        out << putt_words(plan, session.units()) << "\n\n";
        print_account(out, accounts[i], arguments.detail);
        print_notes(out, accounts[i].notes);
        if (arguments.path) print_path(out, lines[i].roll);
    }
    print_usual_finish(session, plan, arguments.putt);
}

/// What the window shows of it.
void save_picture(Session& session, const PlacedPutt& plan, const ReadArguments& arguments) {
    if (!arguments.picture.png) return;
    ReadStart start;
    start.setup = plan.setup;
    start.setup.spread = session.player().spread;
    start.usual_past_m = session.player().usual_past_m;
    start.units = session.units();
    start.theme = arguments.picture.look();
    start.eye = arguments.view == "eye";
    start.room = arguments.view == "room";
    start.detail = arguments.detail;
    start.less_motion = true;
    save_whole_file(*arguments.picture.png, screen_png(*Shell::with<ReadMode>(start, start)));
}

Exit run_read(Session& session, const ReadArguments& arguments) {
    check_picture(arguments.picture);
    check_goes_with_picture(arguments.picture, arguments.view.has_value(), "--view");
    std::optional<Busy> busy(std::in_place, session, "Reading the putt …");
    const PlacedPutt plan = set_up(arguments.putt, defaults_of(session));
    ReadOptions options;
    options.usual_past_m = session.player().usual_past_m;
    options.every_line = arguments.all_lines;
    options.keep_path = arguments.path;
    options.open_hole = true;
    const ReadResult result = read(plan.putt, options);
    std::vector<Account> accounts;
    if (!result.none) accounts = accounts_of(session, plan, result, arguments);
    save_picture(session, plan, arguments);
    busy.reset();
    session.caution();
    if (result.none) {
        if (session.json())
            session.print({{"error", no_line_json(plan, *result.none, session.units())}});
        else
            session.err() << no_line_words(plan, *result.none, session.units()) << '\n';
        return Exit::no_answer;
    }
    if (session.json())
        print_json(session, plan, result.lines, accounts, arguments);
    else
        print_text(session, plan, result.lines, accounts, arguments);
    print_picture(session, arguments.picture.png);
    return Exit::done;
}

}  // namespace

void add_read_command(const Command& app, Session& session) {
    const Command command =
        app.add_subcommand("read", "The read for one putt: line, apex, aim spot, pace, room, odds");
    auto arguments = std::make_shared<ReadArguments>();
    add_putt_options(command, arguments->putt);
    add_sure_options(command, arguments->putt);
    add_condition_options(command, arguments->putt.conditions);
    command.add_flag("--all-lines", arguments->all_lines,
                     "Every line that holes it, the straightest first");
    command.add_flag("--path", arguments->path, "The whole path as well");
    command.add_flag("--detail", arguments->detail, "Degrees, speeds, start spot: coach detail");
    add_picture_options(command, arguments->picture, "What the window would show");
    command.add_option("--view", arguments->view, "Of the picture: plan, eye or room")
        .one_of({"plan", "eye", "room"})
        .group("Picture");
    session.add_common_options(command);
    command.footer(read_footer);
    command.callback([&session, arguments] {
        session.run = [&session, arguments] { return run_read(session, *arguments); };
    });
}

}  // namespace dewtrail
