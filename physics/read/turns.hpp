#pragma once

#include <optional>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/putt.hpp"

namespace dewtrail {

/// A path that leaves one side of the ball-hole line and comes back over it, or that starts out on
/// one side and comes in from the other: where it is farthest on either side, in the order of the
/// roll, one right of the line and one left.
struct Turns {
    PlayerPoint first, second;
};

/// What a misread of the ground costs before and after such a path begins to bend back.
struct HalfCosts {
    double bends_back_m = 0;  ///< along the ball-hole line: where it does

    /// How far the aim moves, right positive, per unit of slope (rise over run) that the ground
    /// rises more toward the right, across the ball-hole line, only before that place and only
    /// after it; the pace stays. None where the stroke has no aim spot.
    std::optional<double> first_aim_m_per_slope, second_aim_m_per_slope;
};

/// Less than this on one side of the line is not told as a side: the half inch within which a putt
/// runs straight.
inline constexpr double least_turn_m = 0.5 * metres_per_inch;

/// None where the path keeps to one side, and the start line to the same.
std::optional<Turns> turns_of(const Putt& putt, const Stroke& stroke, const Roll& rolled);

/// Of a stroke of this putt whose path has turns. From differences of eight more rolls, to about
/// 1e-3 of themselves.
HalfCosts half_costs_of(const Putt& putt, const Stroke& stroke, const Roll& rolled);

}  // namespace dewtrail
