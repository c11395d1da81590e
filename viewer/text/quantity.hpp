#pragma once

#include <string_view>

#include "greens/units.hpp"

/// Text that people type -> SI numbers. Every quantity may carry its unit; a bare number takes the
/// unit said below. The grammar of numbers and units is in measure.hpp.
///
/// `what` names the quantity in messages. All functions throw InputError: one line with the value
/// as typed, and a remedy with an example. Ranges include both ends. Results are finite, never -0.
namespace dewtrail {

/// Ball to hole: 12ft, 12ft6in, 12'6", 3.6m, 4½paces. Bare: ft or m. 0.15 to 40 m.
double parse_distance_m(std::string_view text, const Units& units,
                        std::string_view what = "distance");

/// Path past the hole centre: 12in, 30cm, 'barely in' (3 in), 'a foot' (12 in), 'firm' (24 in),
/// 'dying' (0); a trailing 'past' is allowed. Bare: in or cm. 0 to 3 m.
double parse_past_m(std::string_view text, const Units& units, std::string_view what = "past");

/// Any short length across or down (a height, a miss): 10in, 25cm. Bare: in or cm. 0 to 40 m.
double parse_short_length_m(std::string_view text, const Units& units,
                            std::string_view what = "length");

/// A level roll or level putt: 12ft, 3.7m, 11paces. Bare: ft or m. 0 to 100 m.
double parse_level_roll_m(std::string_view text, const Units& units,
                          std::string_view what = "level putt");

/// A length of one pace: 0.9m, 3ft, 35in. Bare: ft or m. 0.3 to 1.5 m. Paces are no unit here.
double parse_pace_m(std::string_view text, const Units& units,
                    std::string_view what = "pace length");

/// Speed at the hole centre along the surface: 0.7m/s, 2.3ft/s. Bare: ft/s or m/s. 0 to 3 m/s.
double parse_hole_speed_m_s(std::string_view text, const Units& units,
                            std::string_view what = "hole speed");

/// Launch speed along the surface, written the same way. 0 to 20 m/s.
double parse_speed_m_s(std::string_view text, const Units& units, std::string_view what = "speed");

/// Rise over run, not negative: 2%, 1.1deg, 1:40 (2.5 %), 6mm/60cm, or a pair turned end for end
/// (1.6deg/-0.9deg, averaged; see parse_level_reading). Bare: percent. 0 to 0.20.
double parse_slope(std::string_view text, std::string_view what = "slope");

/// Green speed in feet: 10, 10ft6in, 3m, or slow 8, medium 9.5, quick 11, fast 12.5. Bare: feet in
/// both systems. 3 to 18.
double parse_stimp_ft(std::string_view text, std::string_view what = "stimp");

/// How well a stimp is known, or a change of it, feet: 0.5ft, 15cm. Bare: feet. 0 to 10.
double parse_stimp_change_ft(std::string_view text, std::string_view what = "stimp");

/// Time in seconds: 2.7, 2.7s. 0 to 120, above 0.
double parse_time_s(std::string_view text, std::string_view what = "time");

/// A share, 0 to 1, written in percent: 14%, 14 -> 0.14.
double parse_fraction(std::string_view text, std::string_view what = "share");

}  // namespace dewtrail
