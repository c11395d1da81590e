#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/practice/presets.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/terminal/spread_options.hpp"

namespace dewtrail {
namespace {

struct OddsArguments {
    PuttRequest putt;
    SpreadRequest spread;
    bool map = false;
};

constexpr const char* footer =
    "Examples:\n"
    "  dewtrail odds 12ft --slope 2% --clock 3 --stimp 10 --spread middle\n"
    "      Chance to hole and expected putts for finishes from dying to three feet past, and the\n"
    "      aim and finish that take the fewest.\n"
    "  dewtrail odds 30ft --down 2% --line 1.2deg --pace-spread 10% --pace-floor 0.2ft\n"
    "  dewtrail odds --green meadow --hole flag --map > putts.csv\n"
    "      Expected putts from every half metre of a green: where to leave it.";

Exit refuse(Session& session, const std::string& kind, const std::string& reason) {
    if (session.json())
        session.print({{"error", {{"kind", kind}, {"reason", reason}}}});
    else
        session.err() << reason << '\n';
    return Exit::no_answer;
}

std::string nothing_stops(const PlannedPutt& plan) {
    return fmt::format(
        "No odds: the slope at the hole is {:.1f} % and a ball stops up to {:.1f} %; a miss would "
        "never come to rest. Choose a slower green or another hole.",
        100 * plan.slope_at_hole, 100 * plan.putt.resistance);
}

/// Half a metre apart over the outline; without one, 8 m round the hole.
std::vector<Vec2> map_places(const Putt& putt) {
    constexpr double spacing_m = 0.5, round_m = 8;
    Vec2 least = putt.hole - Vec2(round_m, round_m), most = putt.hole + Vec2(round_m, round_m);
    if (putt.outline) {
        least = most = putt.outline->corners().front();
        for (const Vec2& corner : putt.outline->corners()) {
            least = least.cwiseMin(corner);
            most = most.cwiseMax(corner);
        }
    }
    std::vector<Vec2> places;
    for (double y = std::ceil(least.y() / spacing_m) * spacing_m; y <= most.y(); y += spacing_m)
        for (double x = std::ceil(least.x() / spacing_m) * spacing_m; x <= most.x(); x += spacing_m)
            if (!putt.outline || putt.outline->inside_by({x, y}) >= 0) places.emplace_back(x, y);
    return places;
}

void print_map(Session& session, const PlannedPutt& plan, const Spread& spread,
               const NextPutts& next) {
    Json spots = Json::array();
    if (!session.json()) session.out() << "x_m,y_m,putts,holed\n";
    for (const Vec2& place : map_places(plan.putt)) {
        const Prospect here = next.from(place);
        if (session.json())
            spots.push_back({{"x_m", number(place.x())},
                             {"y_m", number(place.y())},
                             {"putts", number(here.putts)},
                             {"holed", number(here.holed)}});
        else
            session.out() << fmt::format("{},{},{:.4f},{:.4f}\n", place.x() + 0.0, place.y() + 0.0,
                                         here.putts, here.holed);
    }
    if (session.json())
        session.print({{"putt", putt_json(plan)}, {"spread", spread_json(spread)}, {"map", spots}});
}

/// A map needs no ball; the rest of the program does.
PuttRequest with_some_ball(PuttRequest request) {
    if (!request.distance && !request.ball) {
        request.distance = "10ft";
        if (!request.clock) request.clock = "12";
    }
    return request;
}

Exit run_odds(Session& session, const OddsArguments& arguments) {
    const Spread spread = plan_spread(arguments.spread, session.player());
    const Scatter scatter = scatter_of(spread);
    const PlannedPutt plan = plan_putt(
        arguments.map ? with_some_ball(arguments.putt) : arguments.putt, defaults_of(session));
    const Putt& putt = plan.putt;
    const auto surround = HoleSurround::make(putt.surface, putt.resistance, putt.hole);
    if (!surround) return refuse(session, "nothing_stops", nothing_stops(plan));
    const NextPutts next(*surround, scatter);
    session.caution();
    if (arguments.map) {
        print_map(session, plan, spread, next);
        return Exit::done;
    }
    const auto best = best_choice(putt, scatter, next);
    if (!best) return refuse(session, "no_line", "No odds: no finish up to 3 ft past has a line.");
    if (session.json())
        session.print(best_choice_json(plan, spread, *best));
    else
        print_best_choice(session.out(), plan, spread, *best, session.units());
    return Exit::done;
}

}  // namespace

void add_odds_command(CLI::App& app, Session& session) {
    auto* command = app.add_subcommand(
        "odds", "The odds for a player's spread, by finish, and the best aim and pace");
    auto arguments = std::make_shared<OddsArguments>();
    add_putt_options(*command, arguments->putt);
    add_spread_options(*command, arguments->spread);
    command->add_flag("--map", arguments->map,
                      "Expected putts from all over the green (CSV, JSON)");
    session.add_common_options(*command);
    command->footer(footer);
    command->callback([&session, arguments] {
        session.run = [&session, arguments] { return run_odds(session, *arguments); };
    });
}

}  // namespace dewtrail
