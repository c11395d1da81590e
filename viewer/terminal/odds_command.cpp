#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <ostream>

#include "greens/contours.hpp"
#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/green_picture.hpp"
#include "viewer/paper/sheet.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/folded.hpp"
#include "viewer/terminal/green/green_command.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/picture_options.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/terminal/spread_options.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

struct OddsArguments {
    PuttRequest putt;
    SpreadRequest spread;
    bool map = false;
    std::optional<std::string> png, svg;

    bool picture() const { return png || svg; }
};

constexpr const char* odds_footer =
    "Examples:\n"
    "  dewtrail odds 12ft --slope 2% --clock 3 --stimp 10 --spread middle\n"
    "      Chance to hole and expected putts for finishes from dying to three feet past, and the\n"
    "      aim and finish that take the fewest.\n"
    "  dewtrail odds 30ft --down 2% --line 1.2deg --pace-spread 10% --pace-floor 0.2ft\n"
    "  dewtrail odds --green meadow --hole flag --map > putts.csv\n"
    "      Expected putts from every half metre of a green: where to leave it.\n"
    "  dewtrail odds --green meadow --hole flag --map --png putts.png\n"
    "      The same as a picture, with lines of equal putts, instead of the table.";

Exit refuse(Session& session, const std::string& kind, const std::string& reason) {
    if (session.json())
        session.print({{"error", {{"kind", kind}, {"reason", reason}}}});
    else
        session.err() << reason << '\n';
    return Exit::no_answer;
}

std::string nothing_stops(const PlacedPutt& plan) {
    if (plan.putt.slope_at_hole() < plan.putt.holding())
        return "No odds: slope, wind and grain together push a ball at the hole more than it is "
               "held: misses never come to rest. Take less wind or grain.";
    return fmt::format(
        "No odds: the slope at the hole is {:.1f} % and a ball stops up to {:.1f} %; a miss would "
        "never come to rest. Choose a slower green or another hole.",
        100 * plan.putt.slope_at_hole(), 100 * plan.putt.resistance);
}

/// The green's own; without one, a square 8 m either way of the hole.
Outline map_outline(const Putt& putt) {
    if (putt.outline) return *putt.outline;
    constexpr double round_m = 8;
    std::vector<Vec2> corners;
    for (const auto& [x, y] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}})
        corners.push_back(putt.hole + round_m * Vec2(x, y));
    return Outline(corners);
}

/// Half a metre apart.
std::vector<Vec2> map_places(const Outline& outline) {
    constexpr double spacing_m = 0.5;
    const auto [least, most] = box_round(outline.corners());
    std::vector<Vec2> places;
    for (double y = std::ceil(least.y() / spacing_m) * spacing_m; y <= most.y(); y += spacing_m)
        for (double x = std::ceil(least.x() / spacing_m) * spacing_m; x <= most.x(); x += spacing_m)
            if (outline.inside_by({x, y}) >= 0) places.emplace_back(x, y);
    return places;
}

void save_map(const OddsArguments& arguments, const PlacedPutt& plan, const Spread& spread,
              const NextPutts& next, const Outline& outline, const Units& units) {
    if (!arguments.picture()) return;
    const Putt& putt = plan.putt;
    const Sheet picture = putts_picture(
        {*putt.surface, outline, putt.hole, next,
         plan.setup.green ? plan.setup.green->name
                          : fmt::format("A plane of {}", slope_figure(plan.setup, units)),
         fmt::format("Expected putts from each place to {}, stimp {}. Spread: {}.",
                     hole_called(plan.setup.hole_name), stimp_figure(plan.setup, units),
                     spread_words(spread, units))},
        units);
    if (arguments.png) save_whole_file(*arguments.png, sheet_png(picture));
    if (arguments.svg) save_whole_file(*arguments.svg, sheet_svg(picture));
}

Json map_json(const OddsArguments& arguments, const PlacedPutt& plan, const Spread& spread,
              const NextPutts& next, const Outline& outline) {
    Json spots = Json::array();
    for (const Vec2& place : map_places(outline)) {
        const Prospect here = next.from(place);
        spots.push_back({{"x_m", number(place.x())},
                         {"y_m", number(place.y())},
                         {"putts", number(here.putts)},
                         {"holed", number(here.holed)}});
    }
    Json json{{"putt", putt_json(plan)}, {"spread", spread_json(spread)}, {"map", spots}};
    if (arguments.png) json["png"] = *arguments.png;
    if (arguments.svg) json["svg"] = *arguments.svg;
    return json;
}

void print_map_csv(std::ostream& out, const NextPutts& next, const Outline& outline) {
    const Unfolded whole(out);
    out << "x_m,y_m,putts,holed\n";
    for (const Vec2& place : map_places(outline)) {
        const Prospect here = next.from(place);
        out << fmt::format("{},{},{:.4f},{:.4f}\n", place.x() + 0.0, place.y() + 0.0, here.putts,
                           here.holed);
    }
}

/// Pictures first: a picture that could not be written must not be reported.
void print_map(Session& session, const OddsArguments& arguments, const PlacedPutt& plan,
               const Spread& spread, const NextPutts& next) {
    const Outline outline = map_outline(plan.putt);
    save_map(arguments, plan, spread, next, outline, session.units());
    if (session.json()) return session.print(map_json(arguments, plan, spread, next, outline));
    if (!arguments.picture()) return print_map_csv(session.out(), next, outline);
    for (const auto& path : {arguments.png, arguments.svg})
        if (path) print_row(session.out(), "picture", *path);
}

/// A map needs no ball; the rest of the program does.
PuttRequest with_some_ball(PuttRequest request) {
    if (!request.distance && !request.ball) {
        request.distance = "10ft";
        if (!request.clock) request.clock = "12";
    }
    return request;
}

std::optional<NextPutts> next_putts(const Session& session, const Putt& putt,
                                    const Scatter& scatter) {
    const Busy busy(session, "Working out the next putts from all round the hole …");
    const auto surround = HoleSurround::make(putt);
    if (!surround) return std::nullopt;
    return NextPutts(*surround, scatter);
}

Exit run_odds(Session& session, const OddsArguments& arguments) {
    if (arguments.picture() && !arguments.map)
        throw InputError("--png and --svg draw a map", "Add --map.");
    check_picture(arguments.png);
    check_picture(arguments.svg, ".svg");
    const Spread spread = plan_spread(arguments.spread, session.player());
    const Scatter scatter = scatter_of(spread);
    const PlacedPutt plan = set_up(arguments.map ? with_some_ball(arguments.putt) : arguments.putt,
                                   defaults_of(session));
    const Putt& putt = plan.putt;
    const auto made = next_putts(session, putt, scatter);
    if (!made) return refuse(session, "nothing_stops", nothing_stops(plan));
    const NextPutts& next = *made;
    session.caution();
    if (arguments.map) {
        print_map(session, arguments, plan, spread, next);
        return Exit::done;
    }
    const auto best = while_busy(session, "Trying finishes from 0 to 3 ft past …",
                                 [&] { return best_choice(putt, scatter, next); });
    if (!best) return refuse(session, "no_line", "No odds: no finish up to 3 ft past has a line.");
    if (session.json())
        session.print(best_choice_json(plan, spread, *best));
    else
        print_best_choice(session.out(), plan, spread, *best, session.units());
    return Exit::done;
}

}  // namespace

void add_odds_command(const Command& app, Session& session) {
    const Command command = app.add_subcommand(
        "odds", "The odds for a player's spread, by finish, and the best aim and pace");
    auto arguments = std::make_shared<OddsArguments>();
    add_putt_options(command, arguments->putt);
    add_spread_options(command, arguments->spread);
    add_condition_options(command, arguments->putt.conditions);
    command.add_flag("--map", arguments->map, "Expected putts from all over the green (CSV, JSON)");
    command.add_option("--png", arguments->png, "The map as a picture to write, PNG");
    command.add_option("--svg", arguments->svg, "The map as a picture to write, SVG");
    session.add_common_options(command);
    command.footer(odds_footer);
    command.callback([&session, arguments] {
        session.run = [&session, arguments] { return run_odds(session, *arguments); };
    });
}

}  // namespace dewtrail
