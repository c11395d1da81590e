#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "physics/read/survey_advice.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/modes/read/read_mode.hpp"
#include "viewer/paper/screen.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/picture_options.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

struct ReadArguments {
    PuttRequest putt;
    bool all_lines = false;
    bool path = false;
    bool detail = false;
    PictureOptions picture;
    std::string view = "plan";
};

constexpr const char* footer =
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

void print_notes(std::ostream& out, const std::vector<std::string>& notes) {
    for (const std::string& note : notes) out << "Note: " << note << ".\n";
}

/// The odds of every line: of one with next putts as far as it needs, of several from one table.
std::vector<std::optional<Odds>> odds_of_lines(const Putt& putt, const std::vector<Read>& lines,
                                               const Scatter& scatter) {
    if (lines.size() == 1) return {odds_of(putt, lines.front(), scatter)};
    std::vector<std::optional<Odds>> odds(lines.size());
    const auto surround = HoleSurround::make(putt.surface, putt.resistance, putt.hole);
    if (!surround) return odds;
    const NextPutts next(*surround, scatter);
    for (std::size_t i = 0; i < lines.size(); ++i) odds[i] = odds_of(putt, lines[i], scatter, next);
    return odds;
}

void print_json(Session& session, const PlacedPutt& plan, const ReadResult& result,
                const ReadArguments& arguments) {
    const Read& first = result.lines.front();
    const Spread& spread = session.player().spread;
    const auto odds = odds_of_lines(plan.putt, result.lines, scatter_of(spread));
    Json json = {{"putt", putt_json(plan)}};
    json.update(read_json(plan, first, odds_json(spread, odds.front())));
    if (const auto doubt = survey_doubt(session, plan, first, arguments))
        json["survey"] = {{"aim_sd_m", number(doubt->aim_m)},
                          {"level_putt_sd_m", number(doubt->level_putt_m)}};
    json["notes"] = notes_of(plan, first, arguments.all_lines ? 0 : result.other_lines);
    if (arguments.path) json["path"] = path_json(first.roll.path, followed_arc_m(first.roll));
    if (arguments.all_lines) {
        json["lines"] = Json::array();
        for (std::size_t i = 0; i < result.lines.size(); ++i) {
            const Read& line = result.lines[i];
            json["lines"].push_back(read_json(plan, line, odds_json(spread, odds[i])));
            if (arguments.path)
                json["lines"].back()["path"] = path_json(line.roll.path, followed_arc_m(line.roll));
        }
    }
    session.print(json);
}

void print_text(Session& session, const PlacedPutt& plan, const ReadResult& result,
                const ReadArguments& arguments) {
    std::ostream& out = session.out();
    const Units units = session.units();
    const Scatter scatter = scatter_of(session.player().spread);
    // Next putts take most of the time, and only the coach's lines tell them.
    std::vector<std::optional<Odds>> odds(result.lines.size());
    if (arguments.detail) odds = odds_of_lines(plan.putt, result.lines, scatter);
    for (std::size_t i = 0; i < result.lines.size(); ++i) {
        const Read& line = result.lines[i];
        if (i > 0) out << "\nAnother line: ";
        print_read(out, plan, line, stroke_odds_of(plan.putt, line, scatter), units);
        if (arguments.detail) print_detail(out, plan, line, odds[i], units);
        if (const auto doubt = survey_doubt(session, plan, line, arguments))
            print_row(out, "Survey",
                      fmt::format("leaves the aim open to {} either way, the pace to {}",
                                  format_length(doubt->aim_m, units),
                                  format_length(doubt->level_putt_m, units)));
        print_notes(out, notes_of(plan, line, arguments.all_lines ? 0 : result.other_lines));
        if (!arguments.path) continue;
        std::vector<std::vector<std::string>> rows{{"time s", "x m", "y m", "speed m/s"}};
        for (const auto& p : path_json(line.roll.path, followed_arc_m(line.roll)))
            rows.push_back({fmt::format("{:.2f}", p[0].get<double>()),
                            fmt::format("{:.3f}", p[1].get<double>()),
                            fmt::format("{:.3f}", p[2].get<double>()),
                            fmt::format("{:.3f}", p[3].get<double>())});
        print_table(out, rows);
    }
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
    ReadMode mode(start);
    save_whole_file(*arguments.picture.png, screen_png(mode));
}

Exit run_read(Session& session, const ReadArguments& arguments) {
    const PlacedPutt plan = set_up(arguments.putt, defaults_of(session));
    ReadOptions options;
    options.usual_past_m = session.player().usual_past_m;
    options.every_line = arguments.all_lines;
    options.keep_path = arguments.path;
    options.open_hole = true;
    const ReadResult result = read(plan.putt, options);
    save_picture(session, plan, arguments);
    session.caution();
    if (result.none) {
        if (session.json())
            session.print({{"error", no_line_json(plan, *result.none, session.units())}});
        else
            session.err() << no_line_words(plan, *result.none, session.units()) << '\n';
        return Exit::no_answer;
    }
    if (session.json())
        print_json(session, plan, result, arguments);
    else
        print_text(session, plan, result, arguments);
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
    command.footer(footer);
    command.callback([&session, arguments] {
        session.run = [&session, arguments] { return run_read(session, *arguments); };
    });
}

}  // namespace dewtrail
