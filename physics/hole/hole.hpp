#pragma once

#include <Eigen/Core>
#include <limits>
#include <vector>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {

/// A ball reaching the rim, in the arrival frame: origin at the hole's centre in the plane of the
/// green, x to the right of the direction of travel, y along it, z out of the green.
/// Speed and offset are those **at the rim** (first point within R of the hole's centre), rolling.
struct RimArrival {
    double speed_m_s = 0;  ///< > 0, along the surface
    double offset_m =
        0;  ///< lateral offset of the ball's line, right of the hole's centre positive
    double slope_along = 0;  ///< rise over run of the green along travel, uphill positive
    double slope_right = 0;  ///< rise over run of the green to the right, rising positive
};

/// The rigid sphere and the hole it meets. Defaults are a golf ball on turf; impacts do not rebound
/// (restitution 0: with a rebound the limit is no longer monotone in speed).
struct HoleModel {
    double ball_radius_m = dewtrail::ball_radius_m;
    double inertia_ratio = 0.4;  ///< I/(m r^2); 2/5 for a uniform sphere
    double hole_radius_m = dewtrail::hole_radius_m;
    double hole_depth_m = 4 * metres_per_inch;
    double friction = 0.4;  ///< Coulomb, ball on rim, wall and green; from memory (Penner, Daish)
    double max_step_s = 2e-3;
    double tolerance =
        1e-8;  ///< local error per contact step, of r in position and of 1 m/s in speed
    double time_limit_s = 3;  ///< a ball still circling inside the hole then is taken as holed
    bool keep_path = false;

    /// Friction for contacts that never slip.
    static constexpr double no_slip = std::numeric_limits<double>::infinity();
};

struct HolePathPoint {
    double time_s;             ///< since the rim crossing
    Eigen::Vector3d centre;    ///< of the ball, arrival frame, metres
    Eigen::Vector3d velocity;  ///< m/s
};

/// What happened to a ball at the hole. Angles are positive to the right (clockwise from above).
struct HoleOutcome {
    /// A ball that falls is named by where it last touched the rim: front, side or back quarter.
    enum class How {
        drops,                    ///< off the front quarter, into the hole
        drops_off_the_back,       ///< strikes the far rim and falls in
        drops_off_the_side,       ///< over the side quarter, left or right
        rides_the_rim_and_drops,  ///< more than a quarter round the rim in contact, then in
        lips_out,                 ///< leaves in contact with the rim, or over the near half of it
        hops_over,                ///< leaves through the air over the far half
        passes,                   ///< never over the hole
        budget                    ///< time or phase limit; holed if then inside the hole
    };

    How how = How::passes;
    bool holed = false;

    /// Where the ball is back on the green (right, along), metres from the hole's centre, and how
    /// it rolls on from there: the slip it lands with is removed at once. Zero when holed.
    Eigen::Vector2d exit_position_m = Eigen::Vector2d::Zero();
    double exit_speed_m_s = 0;
    /// Exit heading less arrival heading, followed along the path, so that it may exceed pi.
    double turn_rad = 0;
    /// Bearing swept round the hole while touching the rim, and while touching the wall.
    double round_rim_rad = 0;
    double round_wall_rad = 0;

    /// Where its centre was (right, along) when it last touched the rim, metres.
    Eigen::Vector2d touched_m = Eigen::Vector2d::Zero();

    double time_s = 0;
    double lowest_centre_m = 0;   ///< lowest height of the ball's centre, green level 0
    double energy_rise_J_kg = 0;  ///< largest rise of energy seen in any phase: integration error
    int phases = 0;
    std::vector<HolePathPoint>
        path;  ///< if asked for; straight lines between points are near enough to draw
};

const char* to_string(HoleOutcome::How how);

/// Rolls a rigid sphere over the rim and tells whether it drops.
///
/// Model: sharp circular rim, wall square to the green, floor; the green is a plane tilted by the
/// slopes given. Contact rolls while friction allows, else slides; it lasts while the normal force
/// is positive; impacts keep no normal velocity. Derivation and sources: HOLE.md.
///
/// Range: speed up to 5 m/s, slopes up to 0.2 in size. Deterministic. About 70 microseconds a call.
/// Accuracy: halving step and tolerance moves a capture limit by less than 1e-5 of itself.
/// Throws std::invalid_argument for a speed that is not positive, or a model that is no ball and
/// hole.
HoleOutcome roll_into_hole(const RimArrival& arrival, const HoleModel& model = {});

}  // namespace dewtrail
