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
    /// Rows miss, finish; columns angle (rad), speed (m/s), resistance, and a tilt of the whole
    /// surface along x and along y.
    Eigen::Matrix<double, 2, 5> derivative = Eigen::Matrix<double, 2, 5>::Zero();
};

enum class Derivatives { none, by_stroke, by_stroke_and_ground };

/// None where the stroke has no such residuals (kept rolling though asked to stop, left the
/// ground). It ignores the outline: whether the ball stays on the green is for the check to say.
std::optional<Shortfall> shortfall(const Putt& putt, const Stroke& stroke, double tolerance,
                                   Derivatives derivatives = Derivatives::by_stroke);

/// How the solved stroke (angle, speed) moves per unit resistance (column 0) and per unit of extra
/// slope along x and y (columns 1, 2). None if the sensitivities are singular.
using StrokeSensitivity = Eigen::Matrix<double, 2, 3>;
std::optional<StrokeSensitivity> stroke_sensitivity(const Putt& putt, const Stroke& stroke,
                                                    double tolerance);

}  // namespace dewtrail
