#pragma once

#include <Eigen/Core>
#include <optional>

#include "physics/roll/putt.hpp"

namespace dewtrail {

/// How far one stroke is from doing what the putt asks, and how that changes.
/// Both residuals are in metres, or m/s for a hole speed; zero when the stroke is a line of the
/// putt.
struct Shortfall {
    double miss = 0;    ///< the ball passes the hole centre this far to its right
    double finish = 0;  ///< what it does beyond what was asked
    /// Rows miss, finish; columns angle (rad), speed (m/s), resistance, tilt of the whole surface.
    Eigen::Matrix<double, 2, 4> derivative = Eigen::Matrix<double, 2, 4>::Zero();
};

enum class Derivatives { none, by_stroke, by_stroke_and_ground };

/// None where the stroke has no such residuals (kept rolling though asked to stop, left the
/// ground). It ignores the outline: whether the ball stays on the green is for the check to
/// say. `tilt`: direction in which the tilt of the last column rises.
std::optional<Shortfall> shortfall(const Putt& putt, const Stroke& stroke, double tolerance,
                                   Derivatives derivatives = Derivatives::by_stroke,
                                   const Vec2& tilt = Vec2::Zero());

/// How the solved stroke (angle, speed) moves per unit resistance (column 0) and per unit of extra
/// slope rising along `tilt` (column 1). None if the sensitivities are singular.
std::optional<Eigen::Matrix2d> stroke_sensitivity(const Putt& putt, const Stroke& stroke,
                                                  double tolerance, const Vec2& tilt);

}  // namespace dewtrail
