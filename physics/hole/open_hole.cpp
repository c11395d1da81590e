#include "physics/hole/open_hole.hpp"

#include <algorithm>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {
namespace {

/// So that a ball leaves from strictly outside the rim and a return to it is seen as one.
constexpr double outside_the_rim = 1 + 1e-9;
constexpr double stands_m_s = 1e-9;

/// Arrival frame to green.
struct RimFrame {
    Vec2 along, right;
    explicit RimFrame(double bearing_rad)
        : along(along_bearing(bearing_rad)), right(along.y(), -along.x()) {}
    Vec2 operator()(const Eigen::Vector2d& v) const { return v.x() * right + v.y() * along; }
};

HoleMeeting meet(const Putt& putt, const PathPoint& rim, bool keep_path) {
    HoleModel model;
    model.keep_path = keep_path;
    return {rim, roll_into_hole(arrival_at(putt, rim), model)};
}

std::vector<PathPoint> path_of(const Putt& putt, const HoleMeeting& meeting) {
    const RimFrame green(meeting.rim.bearing_rad);
    std::vector<PathPoint> path;
    path.reserve(meeting.outcome.path.size());
    PathPoint point = meeting.rim;
    for (const HolePathPoint& p : meeting.outcome.path) {
        const Vec2 at = putt.hole + green(p.centre.head<2>()),
                   velocity = green(p.velocity.head<2>());
        point.arc_m += (at - point.at).norm();
        point.at = at;
        point.time_s = meeting.rim.time_s + p.time_s;
        point.speed_m_s = velocity.norm();
        if (point.speed_m_s > 0) point.bearing_rad = bearing_of(velocity);
        path.push_back(point);
    }
    return path;
}

/// The roll as it grows, one leg of green and one meeting after another.
class ThroughTheHole {
  public:
    ThroughTheHole(const Putt& putt, const RollOptions& options) : putt_(putt), options_(options) {
        options_.until_rim = true;
        options_.conditions.launch_spin.reset();  // what leaves the hole rolls
    }

    OpenRoll follow(const Roll& covered) {
        Roll leg = covered;
        PathPoint from;
        while (const auto rim = leg.rim_on_green()) {
            take_green(leg, from, rim->time_s);
            const HoleMeeting meeting = meet(putt_, since(from, *rim), options_.keep_path);
            take_hole(meeting);
            if (roll_.holed) return std::move(roll_);
            from = roll_.last;
            roll_.end = RollEnd::at_rest;
            if (!(from.speed_m_s > stands_m_s)) return std::move(roll_);
            roll_.end = RollEnd::budget_used_up;
            if (roll_.meetings.size() == most_hole_meetings) return std::move(roll_);
            leg = roll(*putt_.surface, putt_.resistance,
                       {from.at, from.bearing_rad, from.speed_m_s}, options_);
        }
        take_green(leg, from, HUGE_VAL);
        roll_.end = leg.end;
        roll_.last = since(from, leg.last);
        return std::move(roll_);
    }

  private:
    /// A point of a leg that began at `from`, counted from launch.
    static PathPoint since(const PathPoint& from, PathPoint point) {
        point.time_s += from.time_s;
        point.arc_m += from.arc_m;
        return point;
    }

    void take_green(const Roll& leg, const PathPoint& from, double until_s) {
        if (leg.off_green && leg.off_green->time_s < until_s && !roll_.off_green)
            roll_.off_green = since(from, *leg.off_green);
        roll_.path.reserve(roll_.path.size() + leg.path.size());
        for (const PathPoint& p : leg.path)
            if (p.time_s < until_s) roll_.path.push_back(since(from, p));
    }

    void take_hole(const HoleMeeting& meeting) {
        const std::vector<PathPoint> within = path_of(putt_, meeting);
        roll_.path.insert(roll_.path.end(), within.begin(), within.end());
        roll_.meetings.push_back(meeting);
        roll_.holed = meeting.outcome.holed;
        roll_.last = exit_of(putt_, meeting);
        if (!within.empty()) roll_.last.arc_m = within.back().arc_m;
    }

    const Putt& putt_;
    RollOptions options_;
    OpenRoll roll_;
};

}  // namespace

RimArrival arrival_at(const Putt& putt, const PathPoint& rim) {
    const RimFrame frame(rim.bearing_rad);
    const Vec2 gradient = putt.surface->at(rim.at.x(), rim.at.y()).gradient();
    return {rim.speed_m_s, frame.right.dot(rim.at - putt.hole), gradient.dot(frame.along),
            gradient.dot(frame.right)};
}

PathPoint exit_of(const Putt& putt, const HoleMeeting& meeting) {
    const HoleOutcome& outcome = meeting.outcome;
    PathPoint exit = meeting.rim;
    exit.time_s += outcome.time_s;
    exit.speed_m_s = outcome.exit_speed_m_s;
    if (!(outcome.exit_speed_m_s > 0)) {
        if (outcome.holed) exit.at = putt.hole;
        return exit;
    }
    const Vec2 from_centre = RimFrame(meeting.rim.bearing_rad)(outcome.exit_position_m);
    const double least = hole_radius_m * outside_the_rim;
    exit.at = putt.hole + from_centre * std::max(1.0, least / from_centre.norm());
    exit.arc_m += (exit.at - meeting.rim.at).norm();
    exit.bearing_rad += outcome.turn_rad;
    return exit;
}

OpenRoll roll_through_hole(const Putt& putt, const Roll& covered, const RollOptions& options) {
    return ThroughTheHole(putt, options).follow(covered);
}

}  // namespace dewtrail
