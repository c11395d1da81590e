#pragma once

#include <optional>

#include "physics/roll/roll.hpp"

/// A second way to a roll on any surface: the equations of motion in plan coordinates and plain
/// time (MODEL.md section 2), x, y and their rates, by GSL's Prince-Dormand 8(9). No path
/// variables, no dense output: an event is found by integrating again from the start of its step.
namespace dewtrail::oracle {

struct GslPoint {
    double time_s = 0;
    Vec2 at = Vec2::Zero();
    Vec2 velocity = Vec2::Zero();  ///< on the plan
    double speed_m_s = 0;          ///< along the surface
    double arc_m = 0;
};

struct GslRoll {
    GslPoint last;                 ///< at rest, if `rested`
    std::optional<GslPoint> rim;   ///< first within the hole's radius
    std::optional<GslPoint> pass;  ///< nearest turn away from the hole centre
    bool rested = false;
};

struct GslOptions {
    std::optional<Vec2> hole;
    double tolerance = 1e-13;  ///< per step, absolute and relative
    double most_time_s = 200;
    double most_step_m = 0.02;  ///< well under the hole's radius: no event is stepped over
};

/// Below 1e-4 m/s the rest of the roll, at most some 1e-7 m, is the closed form on the tangent
/// plane; where friction holds the ball. For surfaces that hold it wherever it comes to rest.
GslRoll gsl_roll(const Surface& surface, double resistance, const Launch& launch,
                 const GslOptions& options = {});

}  // namespace dewtrail::oracle
