#pragma once

#include <optional>
#include <vector>

#include "physics/roll/putt.hpp"

namespace dewtrail {

struct PlaneLines {
    /// Every stroke that passes the hole centre and meets the finish, smallest angle first.
    std::vector<Stroke> strokes;
    /// Slope up to which friction holds a ball, i.e. the resistance coefficient.
    double holds_up_to_slope = 0;
    /// Friction over slope, k; infinite on the level.
    double friction_over_slope = 0;
    /// Where k <= 1: the slowest the ball can be at the hole centre, m/s.
    std::optional<double> least_arrival_m_s;
};

/// All lines of a putt on a plane by the closed form of MODEL.md section 3.
///
/// With k > 1 there is exactly one for every finish. With k <= 1 a ball never stops, so a distance
/// past has none; a hole speed has none, one or two (direct, and one that goes up and over).
/// Agrees with direct integration to 1e-9 rad and 1e-9 m/s except where two lines merge.
///
/// `gradient`: of the plane, green frame. `hole_from_ball`: plan vector, metres, not zero.
/// Throws std::invalid_argument for a zero vector, a resistance <= 0 or a negative finish.
PlaneLines lines_on_plane(const Vec2& gradient, double resistance, const Vec2& hole_from_ball,
                          const Finish& finish);

}  // namespace dewtrail
