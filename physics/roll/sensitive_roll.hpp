#pragma once

#include <Eigen/Core>
#include <array>

#include "physics/roll/roll.hpp"

namespace dewtrail {

/// Derivatives of (x, y, bearing, ln speed, arc) with respect to, in this order: launch bearing
/// (per rad), launch speed (per m/s), resistance (per 1), and an extra tilt of the whole surface
/// along x and along y (per unit slope). Taken at a fixed path parameter; see `read` for their use.
using Sensitivities = Eigen::Matrix<double, 5, 5>;

struct SensitiveRoll {
    Roll roll;
    Sensitivities at_pass = Sensitivities::Zero();
    Sensitivities at_end = Sensitivities::Zero();
    /// How (x, y, bearing, ln speed, arc) change there along the path, per path parameter.
    std::array<double, 5> rate_at_pass{};
};

/// The same roll, step for step, with its sensitivities. `with_ground`: also those to resistance
/// and tilt (costs more); otherwise the last three columns stay zero.
SensitiveRoll roll_with_sensitivities(const Surface& surface, double resistance,
                                      const Launch& launch, const RollOptions& options,
                                      bool with_ground = false);

}  // namespace dewtrail
