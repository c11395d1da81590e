#pragma once

#include <optional>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/putt.hpp"

namespace dewtrail {

/// A path that leaves one side of the ball-hole line and comes back over it: where it is farthest
/// on either side, and what a misread of the ground costs before and after it begins to bend back.
struct Turns {
    PlayerPoint first, second;  ///< in the order of the roll: one right of the line, one left
    double bends_back_m = 0;    ///< along the ball-hole line: where the path begins to bend back

    /// How far the aim moves, right positive, per unit of slope (rise over run) that the ground
    /// rises more toward the right, across the ball-hole line, only before that place and only
    /// after it; the pace stays. None where the stroke has no aim spot.
    std::optional<double> first_aim_m_per_slope, second_aim_m_per_slope;
};

/// Less than this on one side of the line is not told as a side: the half inch within which a putt
/// runs straight.
inline constexpr double least_turn_m = 0.5 * metres_per_inch;

/// Of a stroke of this putt and its roll; none where the path keeps to one side. The costs come
/// from differences of eight more rolls, to about 1e-3 of themselves.
std::optional<Turns> turns_of(const Putt& putt, const Stroke& stroke, const Roll& rolled);

}  // namespace dewtrail
