#include "viewer/terminal/spread_options.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "viewer/putt/presets.hpp"

namespace dewtrail {
namespace {

constexpr const char* group = "Spread, one standard deviation";

Spread preset(const std::string& name) {
    if (const auto spread = find_spread(name)) return *spread;
    throw InputError(fmt::format("spread '{}' is not known", name),
                     "say --spread tour, low, middle or high");
}

}  // namespace

void add_spread_options(const Command& command, SpreadRequest& r) {
    command
        .add_option("--spread", r.preset, "tour, low, middle or high handicap (else the player's)")
        .group(group);
    add_own_spread_options(command, r);
}

void add_own_spread_options(const Command& command, SpreadRequest& r) {
    command.add_option("--line", r.line, "Of the start line: 1.6deg").group(group);
    command.add_option("--pace-spread", r.pace, "Of the pace, of the level roll: 14%").group(group);
    command.add_option("--pace-floor", r.pace_floor, "Of the pace, whatever the length: 0.3ft")
        .group(group);
    command.add_option("--slope-read", r.slope_read, "Of the slope as seen: 0.5%").group(group);
    command
        .add_option("--fall-read", r.fall_read,
                    "Of the direction it is seen to fall: 6deg (an hour of the clock is 30)")
        .group(group);
}

Spread plan_spread(const SpreadRequest& request, const Player& player) {
    Spread spread = request.preset ? preset(*request.preset) : player.spread;
    if (request.line) spread.line_deg = parse_line_spread_deg(*request.line);
    if (request.pace) spread.pace = parse_pace_spread(*request.pace);
    if (request.pace_floor)
        spread.pace_floor_m = parse_pace_floor_m(*request.pace_floor, player.units());
    if (request.slope_read) spread.slope_read = parse_slope_read(*request.slope_read);
    if (request.fall_read) spread.fall_read_deg = parse_fall_read_deg(*request.fall_read);
    return spread;
}

}  // namespace dewtrail
