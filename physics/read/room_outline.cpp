#include "physics/read/room_outline.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "physics/base/ball_and_hole.hpp"
#include "physics/numbers/root.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double fastest_drop_m_s = 1.63;  ///< on the level, over the centre
constexpr double longest_step = 0.3, shortest_step = 0.004;
/// Across a corner of the edge the chord runs half of step x bend inside it.
constexpr double most_bow = 0.02, most_bend = 0.5;
constexpr double corner_error = 1e-6;
constexpr int most_corners = 1500;

double turned(const Vec2& from, const Vec2& to) {
    return std::atan2(from.x() * to.y() - from.y() * to.x(), from.dot(to));
}

Vec2 heading(double radians) {
    return {std::cos(radians), std::sin(radians)};
}

/// The plane of strokes in units that make the region about as wide as long; the read at (0, 0).
class StrokePlane {
  public:
    StrokePlane(const Putt& putt, const Stroke& stroke)
        : strokes_(putt, stroke),
          angle_unit_(std::asin(std::min(1.0, hole_radius_m / putt.distance_m()))),
          pace_unit_(0.1 * level_roll_m(fastest_drop_m_s, putt.resistance) /
                     level_roll_m(stroke.speed_m_s, putt.resistance)) {}

    double margin(const Vec2& at) const {
        const StrokeOff off = off_at(at);
        if (std::abs(off.angle_rad) > M_PI / 2 || off.pace < least_pace_off ||
            off.pace > most_pace_off)
            return -1;
        return strokes_.margin(off);
    }

    StrokeOff off_at(const Vec2& at) const { return {at.x() * angle_unit_, at.y() * pace_unit_}; }
    Vec2 place(const StrokeOff& off) const {
        return {off.angle_rad / angle_unit_, off.pace / pace_unit_};
    }

  private:
    StrokesAbout strokes_;
    double angle_unit_, pace_unit_;
};

/// Walks along the edge with the strokes that drop on its left.
class EdgeWalk {
  public:
    explicit EdgeWalk(const StrokePlane& strokes) : strokes_(strokes) {}

    std::vector<Vec2> round(const Vec2& start) {
        std::vector<Vec2> corners{start};
        double way = M_PI / 2, step = 0.25 * longest_step;
        while (static_cast<int>(corners.size()) < most_corners) {
            const Vec2& here = corners.back();
            const auto next = shortened_step(here, way, step);
            if (!next) break;
            const Vec2 moved = *next - here;
            if (corners.size() > 3 && passes(start, here, moved)) break;
            const double bend = turned(heading(way), moved);
            way += bend;
            if (std::abs(bend) * step < 0.5 * most_bow) step = std::min(1.5 * step, longest_step);
            corners.push_back(*next);
        }
        return corners;
    }

  private:
    std::optional<Vec2> shortened_step(const Vec2& here, double way, double& step) const {
        while (true) {
            const auto next = step_from(here, way, step);
            const bool straight = next && std::abs(turned(heading(way), *next - here)) < most_bend;
            if (straight || step <= shortest_step) return next;
            step = std::max(0.5 * step, shortest_step);
        }
    }

    /// On the circle round `here`, near the way ahead, where strokes begin to drop as the direction
    /// turns left.
    std::optional<Vec2> step_from(const Vec2& here, double way, double step) const {
        const auto f = [&](double turn) {
            return strokes_.margin(here + step * heading(way + turn));
        };
        double turn = 0, at_turn = f(0);
        const bool inside = at_turn > 0;
        const double side = inside ? -1 : 1;
        for (double by = 0.1; std::abs(turn) < 1.1 * M_PI; by = std::min(1.5 * by, 0.4)) {
            const double next = turn + side * by, at_next = f(next);
            if ((at_next > 0) != inside) {
                const double close = corner_error / step;
                const double edge = inside ? root(f, next, turn, at_next, at_turn, close)
                                           : root(f, turn, next, at_turn, at_next, close);
                return here + step * heading(way + edge);
            }
            turn = next;
            at_turn = at_next;
        }
        return std::nullopt;
    }

    /// Whether this step reaches the start, or passes it on the other edge of a narrow region.
    static bool passes(const Vec2& start, const Vec2& here, const Vec2& moved) {
        const Vec2 to_start = start - here;
        const double along = to_start.dot(moved) / moved.squaredNorm();
        return along > 0 && along <= 1 && moved.y() > 0 &&
               (to_start - along * moved).norm() < 0.1 * moved.norm();
    }

    const StrokePlane& strokes_;
};

double distance_to_edge(const Vec2& p, const Vec2& a, const Vec2& b) {
    const Vec2 edge = b - a;
    const double t = std::clamp((p - a).dot(edge) / edge.squaredNorm(), 0.0, 1.0);
    return (p - a - t * edge).norm();
}

/// Known corners go into the edge that they lie nearest to.
void insert(std::vector<Vec2>& corners, const Vec2& p) {
    std::size_t best = 0;
    double least = HUGE_VAL;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const double far = distance_to_edge(p, corners[i], corners[(i + 1) % corners.size()]);
        if (far < least) {
            least = far;
            best = i;
        }
    }
    corners.insert(corners.begin() + static_cast<std::ptrdiff_t>(best) + 1, p);
}

}  // namespace

std::vector<StrokeOff> room_outline(const Putt& putt, const Stroke& stroke, const Room& room) {
    const StrokePlane strokes(putt, stroke);
    if (!(strokes.margin(Vec2::Zero()) > 0)) return {};
    std::vector<Vec2> corners = EdgeWalk(strokes).round(strokes.place({room.angle_hi_rad, 0}));
    for (const StrokeOff& end :
         {StrokeOff{0, room.pace_hi}, StrokeOff{room.angle_lo_rad, 0}, StrokeOff{0, room.pace_lo}})
        insert(corners, strokes.place(end));
    std::vector<StrokeOff> outline;
    for (const Vec2& corner : corners) outline.push_back(strokes.off_at(corner));
    return outline;
}

}  // namespace dewtrail
