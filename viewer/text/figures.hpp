#pragma once

#include <string>
#include <string_view>

#include "greens/units.hpp"

/// One function per quantity, so that map, note, sheet and terminal never disagree.
///
/// SI in, UTF-8 out: thin fractions (½ ¼ ¾), a true minus sign, a space before % and none before °,
/// never
/// '-0'. Halves round away from zero, so a mirrored putt shows mirrored figures. A figure that does
/// not exist is passed as NaN (or infinity) and comes out as an en dash.
namespace dewtrail {

inline constexpr const char* absent = "–";

/// Nearest quarter or half with its thin fraction: 1¾, ½, 0, −2½.
std::string format_quarters(double value);
std::string format_halves(double value);

/// Ball to hole, level rolls: '12 ft', '7 ft 1 in', '8 in'; metric '85 cm', '2.16 m'.
std::string format_distance(double distance_m, const Units& units);

/// Aim, apex, past, leave: to ¼ in under 3 in, whole inches to 3 ft, then '3 ft 2 in'; metric whole
/// cm under 1 m, then '2.16 m'. Size only: the sign is dropped, words name the side.
std::string format_length(double length_m, const Units& units);
std::string format_past(double past_m, const Units& units);
std::string format_aim(double offset_m, const Units& units);
/// The same as one would type it: '10 in right'.
std::string aim_as_typed(double offset_m, const Units& units);

/// Height above the hole with its sign: '+½ in', '−1 in', '0 in'; metric to ½ cm.
std::string format_height(double height_m, const Units& units);

/// Rise over run to ¼ %: '2 %', '1¾ %', '−½ %'.
std::string format_slope(double slope);

/// Feet in both systems, to ½, without a unit: '10', '9½'.
std::string format_stimp(double stimp_ft);

/// Ball clock to a quarter hour: '3:30', '12:00'.
std::string format_clock(double clock_h);

/// Entry clock to the minute, for coach detail: '5:34'.
std::string format_entry_clock(double clock_h);

/// '6.8 ft/s', '2.1 m/s'.
std::string format_speed(double speed_m_s, const Units& units);

/// '2.7 s'.
std::string format_time(double time_s);

/// '5.9°', '−13.7°'.
std::string format_degrees(double angle_deg);

/// A fraction in whole per cent: '14 %'; and to ½ % for room on pace: '4½ %'.
std::string format_percent(double fraction);
std::string format_half_percent(double fraction);

/// What somebody gave, not rounded to what is seen but to 0.01: '½ %', '0.35 %', '14 %'; '1.85°'.
std::string format_given_percent(double fraction);
std::string format_given_degrees(double angle_deg);

/// What somebody typed, set like a figure and not rounded: '12 ft 6 in', '1.1°', '1:40'; `unit` is
/// for a bare number. Empty where it holds no number ('quick'), or is to be worked out ('1%/2%').
std::string as_typed(std::string_view text, std::string_view unit);

/// Expected putts, two decimals: '1.95'.
std::string format_putts(double putts);

/// A start spot for a tee gate, millimetres in both systems: '31 mm'.
std::string format_spot(double length_m);

/// Level putt to ½ ft up to 15 ft, 1 ft up to 30, then paces: '9½ ft', '22 ft', '11 paces'; metric
/// to 0.1 m up to 5 m, ½ m up to 9, then paces. Under a quarter foot, or less than nothing: 'tap'.
std::string format_level_putt(double level_putt_m, const Units& units);

}  // namespace dewtrail
