#pragma once

#include <optional>

#include "physics/read/read.hpp"

/// Why one putt breaks more than another.
namespace dewtrail {

/// What bends one roll, from launch to the hole.
///
/// Measured across the straight start line, the ball starts with no offset and no speed. So where
/// it passes the hole it has moved back by the double integral of its sideways acceleration a. Over
/// the share s of the time T, and as seen along the ball-hole line's perpendicular (start angle
/// theta),
///
///     break = T^2 * integral of (1 - s) a(s) / cos(theta) ds,   s from 0 to 1,
///
/// an identity of kinematics, no approximation. (1 - s): what bends the ball early has longer to
/// carry it. The acceleration is the ground's pull down the slope and friction's share across the
/// start line, the two terms of MODEL.md section 2; derived in section 9 there.
///
/// Sizes, SI: positive where it adds to this roll's own break, so a mirrored putt has the same.
struct Bend {
    double time_s = 0;         ///< T
    double gravity_m_s2 = 0;   ///< the integral for the ground's pull
    double friction_m_s2 = 0;  ///< and for friction; as a rule negative: it brakes the drift too
    double break_m = 0;        ///< as rolled: start line to ball, level with the hole

    double pull_m_s2() const { return gravity_m_s2 + friction_m_s2; }
    double from_pull_m() const { return time_s * time_s * pull_m_s2(); }
};

/// Of a roll whose path was kept, up to the hole or where it passes nearest; Simpson's rule between
/// the path's points, so that from_pull_m agrees with break_m to 1e-6 m on planes and 1e-5 m on
/// other surfaces, reads of 40 m included. None where the stroke has no aim spot.
/// std::invalid_argument if the path was not kept.
std::optional<Bend> bend_of(const Putt& putt, const Read& rolled);

/// The difference of two breaks, a minus b, split over its three causes by their Shapley values:
/// the mean, over all orders in which the causes may be changed from b's to a's, of what each
/// change adds (Shapley, A value for n-person games, 1953). For T^2 (G + F) that is
///
///     time      (Ta^2 - Tb^2) (Ga + Fa + Gb + Fb) / 2
///     gravity   (Ta^2 + Tb^2) / 2 (Ga - Gb)
///     friction  (Ta^2 + Tb^2) / 2 (Fa - Fb) .
///
/// They add up to a.from_pull_m() - b.from_pull_m() but for rounding; `residual_m` is what is left
/// to the difference of the breaks as rolled. Changes sign when a and b change places.
struct BreakParts {
    double time_m = 0, gravity_m = 0, friction_m = 0;
    double residual_m = 0;
    double whole_m = 0;  ///< a.break_m - b.break_m

    double pull_m() const { return gravity_m + friction_m; }
};
BreakParts break_parts(const Bend& a, const Bend& b);

}  // namespace dewtrail
