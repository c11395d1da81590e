#pragma once

#include <optional>
#include <string_view>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {

/// One pace until the player says otherwise (common practice, no source).
inline constexpr double usual_pace_m = 0.9, least_pace_m = 0.3, most_pace_m = 1.5;

/// The system a player reads and types in. Inside the program everything is SI.
struct Units {
    bool metric = false;
    double pace_m = usual_pace_m;  ///< one pace of this player, m
};

/// The units that a typed figure may carry.
enum class Unit {
    none,
    foot,
    inch,
    yard,
    metre,
    centimetre,
    millimetre,
    pace,
    percent,
    degree,
    radian,
    metre_per_second,
    foot_per_second,
    second
};

/// By a spelling in lower case: "ft", "feet", "'", "m/s", "%"; "" is Unit::none.
std::optional<Unit> find_unit(std::string_view spelling);

/// Short name as it follows a figure: "ft", "%", "°".
std::string_view unit_name(Unit unit);

/// A length in metres, rounded once: 12 in are the double 0.3048. None if the unit is no length.
/// Paces are none where they have no length.
std::optional<double> to_metres(double number, Unit unit, double pace_m);

inline constexpr double cup_width_m = 2.0 * hole_radius_m;
inline constexpr double ball_width_m = 2.0 * ball_radius_m;
/// A putter head laid down as a measure (common practice, no source).
inline constexpr double putter_head_m = 4.0 * metres_per_inch;

/// Finishes that have a name (product convention).
inline constexpr double barely_in_past_m = 0.25 * metres_per_foot;
inline constexpr double usual_past_m = metres_per_foot;
inline constexpr double firm_past_m = 2.0 * metres_per_foot;

/// Green speeds that have a name, feet.
inline constexpr double slow_stimp_ft = 8.0;
inline constexpr double medium_stimp_ft = 9.5;
inline constexpr double quick_stimp_ft = 11.0;
inline constexpr double fast_stimp_ft = 12.5;

}  // namespace dewtrail
