#include "physics/roll/closing_roll.hpp"

#include <algorithm>

#include "physics/numbers/root.hpp"

namespace dewtrail {
namespace {

/// Where it points with as good as nothing left to roll: later its heading does not matter.
constexpr double last_speed_m_s = 1e-6;

Launch launch_of(const PathPoint& from) {
    return {from.at, from.bearing_rad, from.speed_m_s};
}

/// The plane halfway to where the plane here would lead.
PlaneGround ground_halfway(const Surface& surface, double resistance, const Forces* forces,
                           const PlaneGround& here, const PathPoint& from, const Vec2& heading) {
    const Vec2 rest = PlaneRoll(here, launch_of(from), heading).rest_at();
    const Vec2 halfway = 0.5 * (from.at + rest);
    const Hold there(surface.at(halfway.x(), halfway.y()), resistance, forces);
    return there.grip() > 0 ? there.plane() : here;
}

}  // namespace

ClosingRoll::ClosingRoll(const Surface& surface, double resistance, const Forces* forces,
                         const Hold& here, const PathPoint& from, const Vec2& heading)
    : from_(from),
      ground_(ground_halfway(surface, resistance, forces, here.plane(), from, heading)),
      roll_(ground_, launch_of(from), heading),
      rest_(later(roll_.rest())),
      last_sigma_(std::log(std::max(from.speed_m_s / last_speed_m_s, 1.0)) /
                  (ground_.friction - ground_.pull)) {
    rest_.bearing_rad = at(last_sigma_).bearing_rad;
    // The time is that of the ground two thirds of the way, so much later is the ball's mean place
    // in time.
    const PlaneGround start = here.plane();
    const double first = PlaneRoll(start, launch_of(from), heading).rest().time_s;
    rest_.time_s += (rest_.time_s - from.time_s - first) / 3;
}

PathPoint ClosingRoll::later(PathPoint point) const {
    point.time_s += from_.time_s;
    point.arc_m += from_.arc_m;
    point.bearing_rad =
        from_.bearing_rad + std::remainder(point.bearing_rad - from_.bearing_rad, 2 * M_PI);
    return point;
}

std::optional<PathPoint> ClosingRoll::rim(const Vec2& hole) const {
    const auto found = roll_.rim(hole);
    return found ? std::optional(later(*found)) : std::nullopt;
}

std::optional<PathPoint> ClosingRoll::pass(const Vec2& hole) const {
    const auto found = roll_.pass(hole);
    return found ? std::optional(later(*found)) : std::nullopt;
}

std::optional<PathPoint> ClosingRoll::along(const Vec2& line) const {
    const auto across = [&](double sigma) {
        const Vec2 e = along_bearing(roll_.at(sigma).bearing_rad);
        return e.x() * line.y() - e.y() * line.x();
    };
    const double first = across(0), last = across(last_sigma_);
    if ((first < 0) == (last < 0)) return std::nullopt;
    constexpr double close = 1e-9;
    return at(root(across, 0, last_sigma_, first, last, close));
}

PathPoint ClosingRoll::at_share(double share) const {
    const double sigma = -std::log(1 - share) / (ground_.friction - ground_.pull);
    return at(std::min(sigma, last_sigma_));
}

std::array<double, 3> closing_way(const Hold& here, const Vec2& heading, double speed_m_s) {
    const PlaneGround plane = here.plane();
    const PathPoint rest = PlaneRoll(plane, {Vec2::Zero(), 0, speed_m_s}, heading).rest();
    return {rest.at.x(), rest.at.y(), rest.arc_m};
}

}  // namespace dewtrail
