#pragma once

#include <string>
#include <string_view>

#include "greens/units.hpp"
#include "physics/odds/scatter.hpp"

namespace dewtrail {

/// A player's scatter in the units people use, one standard deviation each. Until it is measured: a
/// middle handicap (the middle preset: half the 5-footers drop, see ODDS.md).
struct Spread {
    double line_deg = 1.65;                       ///< of the start line, degrees
    double pace = 0.14;                           ///< of the level roll, as a fraction of it
    double pace_floor_m = 0.3 * metres_per_foot;  ///< and never less than this, m
    double slope_read = 0.005;                    ///< of the slope as seen, along any direction
    double fall_read_deg = 6;                     ///< of the direction in which it is seen to fall

    bool operator==(const Spread&) const = default;
};
inline constexpr double most_line_deg = 20, most_pace = 1, most_pace_floor_m = 1;
inline constexpr double most_slope_read = 0.05, most_fall_read_deg = 45;

/// A spread to choose by its name.
struct NamedSpread {
    std::string name;
    Spread spread;
};

/// The same spread in the units of the physics.
Scatter scatter_of(const Spread& spread);

/// Each of the five as typed, within its range: '1.6deg' (bare: degrees), '14%', '0.3ft' (bare: in
/// or cm), '0.5%', '6deg'. All throw InputError.
double parse_line_spread_deg(std::string_view text);
double parse_pace_spread(std::string_view text);
double parse_pace_floor_m(std::string_view text, const Units& units);
double parse_slope_read(std::string_view text);
double parse_fall_read_deg(std::string_view text);

/// 'line 1.8°, pace 14 % with 4 in at least, slope read ½ %, its fall 6°'.
std::string spread_words(const Spread& spread, const Units& units);

}  // namespace dewtrail
