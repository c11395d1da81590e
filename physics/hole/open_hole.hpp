#pragma once

#include <optional>
#include <vector>

#include "physics/hole/hole.hpp"
#include "physics/roll/putt.hpp"

namespace dewtrail {

/// What the hole needs to know of a ball at its rim: speed, offset, and how the ground tilts there.
RimArrival arrival_at(const Putt& putt, const PathPoint& rim);

/// A ball reaches the hole, and what happens to it there.
struct HoleMeeting {
    PathPoint rim;  ///< how it comes: first point within R of the hole's centre
    HoleOutcome outcome;
};

/// Back on the green: place, heading and speed with which it rolls on. Where it stays on the rim,
/// where it came with speed 0; meaningless if holed.
PathPoint exit_of(const Putt& putt, const HoleMeeting& meeting);

/// A roll with the hole open: up to the rim as on the covered green, then as a rigid body; and if
/// it is not holed, on from where it leaves the rim, to rest, off the green, or back to the hole.
struct OpenRoll {
    std::vector<HoleMeeting> meetings;   ///< in order; empty if it never reaches the hole
    bool holed = false;                  ///< at the last meeting
    RollEnd end = RollEnd::at_rest;      ///< of a ball that is not holed
    PathPoint last;                      ///< where it ends; in the hole: the floor, or where it was
                                         ///< last followed
    std::optional<PathPoint> off_green;  ///< first crossing of the outline
    /// If asked for: the ball's centre in plan, times and lengths since launch. The stretches
    /// within the hole have the rigid body's own points.
    std::vector<PathPoint> path;
};

/// A ball that keeps coming back is followed through this many meetings, then given up as
/// `budget_used_up`. We have never seen more than two.
inline constexpr int most_hole_meetings = 6;

/// Follows a covered roll of this putt through the hole. `options` are those it was rolled with.
///
/// The green within the rim is the plane that touches it where the ball comes, and the circle of
/// the hole is taken on the plan: its height errs by up to R slope^3, 7e-6 m on 5 %.
OpenRoll roll_through_hole(const Putt& putt, const Roll& covered, const RollOptions& options);

}  // namespace dewtrail
