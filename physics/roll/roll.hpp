#pragma once

#include <array>
#include <optional>
#include <vector>

#include "physics/roll/conditions.hpp"
#include "physics/surface/outline.hpp"
#include "physics/surface/surface.hpp"

namespace dewtrail {

/// A ball set rolling without slip (or with the slip that the conditions give it): where, which way
/// on the plan, and how fast along the surface.
struct Launch {
    Vec2 from;               ///< green frame, metres
    double bearing_rad = 0;  ///< plan bearing, clockwise from +y
    double speed_m_s = 0;    ///< along the surface
};

struct PathPoint {
    double time_s = 0;
    Vec2 at = Vec2::Zero();  ///< green frame, metres
    double bearing_rad = 0;  ///< plan bearing of travel
    double speed_m_s = 0;    ///< along the surface
    double arc_m = 0;        ///< path length along the surface since launch
};

/// How a roll ended.
enum class RollEnd {
    at_rest,         ///< slow, and held by friction where it lies
    left_the_green,  ///< farther outside the outline than the options allow
    airborne,        ///< the surface falls away faster than the ball can follow
    keeps_rolling,   ///< rolled the most that the options allow and had not stopped
    budget_used_up,  ///< the step budget ran out
    at_rim,          ///< reached the rim, and the options asked for no more
};
const char* describe(RollEnd end);

struct RollOptions {
    double tolerance = 1e-10;  ///< of place and time at rest, about: metres, seconds
    std::optional<Vec2> hole;  ///< watched for rim, closest pass and apex; never stops the ball
    const Outline* outline = nullptr;  ///< none: the surface has no end
    double beyond_edge_m = 1.0;        ///< how far outside the outline surface and stimp still hold
    double most_arc_m = 600.0;
    int most_steps = 4000;
    bool until_rim = false;  ///< stop at the rim of the hole
    bool keep_path = false;
    Conditions conditions{};  ///< wind, grain, skid and so on; none: the plain roll
};

/// One roll, the hole covered.
struct Roll {
    RollEnd end = RollEnd::budget_used_up;
    PathPoint last;                 ///< where it rested, left or was given up
    std::optional<PathPoint> rim;   ///< first point within the hole's radius of the centre
    std::optional<PathPoint> pass;  ///< where it turns away from the hole centre, the nearest such
    std::optional<PathPoint>
        apex;  ///< before that: farthest from the ball-hole line, moving along it
    /// Before that too, of either side of the ball-hole line; none where it does not turn there.
    std::optional<PathPoint> farthest_left, farthest_right;
    std::optional<PathPoint> off_green;   ///< first crossing of the outline
    std::optional<PathPoint> rolls_from;  ///< where the skid ends; none if there is none
    std::vector<PathPoint> path;
    int steps = 0;
    int evaluations = 0;  ///< of the right-hand side

    /// The rim, unless the ball had left the green before it got there.
    std::optional<PathPoint> rim_on_green() const {
        return rim && off_green && off_green->arc_m < rim->arc_m ? std::nullopt : rim;
    }
};

/// Rolls a ball over a surface with constant resistance (MODEL.md section 2), or under the
/// conditions of section 8; events lie on the dense output inside the step. Errors of time and
/// place at rest stay below about 100 x tolerance on smooth surfaces. On a fitted green, whose
/// third derivatives jump between cells, they stay below 1e-6 m and 1e-6 s at the default tolerance
/// (measured against GSL: 5e-7 m at worst). Throws std::invalid_argument for a resistance or speed
/// that is not positive.
Roll roll(const Surface& surface, double resistance, const Launch& launch,
          const RollOptions& options = {});

/// Throws what `roll` throws for these.
void check_roll(double resistance, const Launch& launch, const RollOptions& options);

}  // namespace dewtrail
