#include "viewer/terminal/spread_options.hpp"

#include <fmt/format.h>

#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/practice/presets.hpp"
#include "viewer/scene/figures.hpp"
#include "viewer/scene/measure.hpp"
#include "viewer/scene/quantity.hpp"

namespace dewtrail {
namespace {

constexpr const char* group = "Spread, one standard deviation";

double at_most(double value, double most, const char* what, const std::string& text,
               const char* range) {
    if (value <= most) return value;
    throw InputError(fmt::format("{} {} is outside {}", what, text, range),
                     fmt::format("give a {} within {}", what, range));
}

Spread preset(const std::string& name) {
    if (const auto spread = find_spread(name)) return *spread;
    throw InputError(fmt::format("spread '{}' is not known", name),
                     "say --spread tour, low, middle or high");
}

}  // namespace

void add_spread_options(CLI::App& command, SpreadRequest& r) {
    command
        .add_option("--spread", r.preset, "tour, low, middle or high handicap (else the player's)")
        ->group(group);
    command.add_option("--line", r.line, "Of the start line: 1.6deg")->group(group);
    command.add_option("--pace-spread", r.pace, "Of the pace, of the level roll: 14%")
        ->group(group);
    command.add_option("--pace-floor", r.pace_floor, "Of the pace, whatever the length: 0.3ft")
        ->group(group);
    command.add_option("--slope-read", r.slope_read, "Of the slope as seen: 0.5%")->group(group);
}

Spread plan_spread(const SpreadRequest& request, const Player& player) {
    Spread spread = request.preset ? preset(*request.preset) : player.spread;
    if (request.line) spread.line_deg = parse_line_deg(*request.line);
    if (request.pace) spread.pace = parse_fraction(*request.pace, "pace spread");
    if (request.pace_floor)
        spread.pace_floor_m =
            at_most(parse_short_length_m(*request.pace_floor, player.units(), "pace floor"), 1,
                    "pace floor", *request.pace_floor, "0-1 m (0-39 in)");
    if (request.slope_read)
        spread.slope_read = at_most(parse_slope(*request.slope_read, "slope read"), 0.05,
                                    "slope read", *request.slope_read, "0-5 %");
    return spread;
}

double parse_line_deg(const std::string& text) {
    const Subject subject{"line", "1.6deg"};
    const Term term = read_term(text, subject);
    if (term.unit != Unit::none && term.unit != Unit::degree && term.unit != Unit::radian)
        refuse(subject, text, "is not an angle");
    const double deg = term.unit == Unit::radian ? term.number * 180 / M_PI : term.number;
    if (!(deg >= 0 && deg <= 20))
        refuse(subject, text, "is outside 0-20°", "one standard deviation, in degrees");
    return deg;
}

std::string spread_words(const Spread& spread, const Units& units) {
    return fmt::format("line {}, pace {} with {} at least, slope read {}",
                       format_degrees(spread.line_deg), format_percent(spread.pace),
                       format_length(spread.pace_floor_m, units), format_slope(spread.slope_read));
}

}  // namespace dewtrail
