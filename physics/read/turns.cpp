#include "physics/read/turns.hpp"

#include <algorithm>
#include <cmath>

#include "physics/read/aim_offset.hpp"
#include "physics/surface/tilted.hpp"

namespace dewtrail {
namespace {

constexpr double tolerance = 1e-9;
constexpr double slope_step = 1e-3, angle_step_rad = 1e-4;

/// On a kept path, between two of its points.
PathPoint at_arc(const std::vector<PathPoint>& path, double arc_m) {
    const auto beyond = std::find_if(path.begin() + 1, path.end() - 1,
                                     [&](const PathPoint& p) { return p.arc_m >= arc_m; });
    const PathPoint &a = *(beyond - 1), &b = *beyond;
    const double t = b.arc_m > a.arc_m ? (arc_m - a.arc_m) / (b.arc_m - a.arc_m) : 0;
    PathPoint p = a;
    p.at += t * (b.at - a.at);
    p.bearing_rad += t * (b.bearing_rad - a.bearing_rad);
    p.speed_m_s += t * (b.speed_m_s - a.speed_m_s);
    return p;
}

/// Rolls one stroke on ground of which only one part is tilted.
class HalfRoller {
  public:
    HalfRoller(const Putt& putt, const Stroke& stroke) : putt_(putt), launch_(putt.launch(stroke)) {
        const Vec2 e = putt.line().normalized();
        right_ = {e.y(), -e.x()};
        path_ = roll_from(*putt.surface, launch_, true).path;
    }

    /// Between the two turns the path runs across the line; where it does so most it begins to
    /// bend back.
    PathPoint split_between(double first_s, double second_s) {
        const double line = bearing_of(putt_.line());
        PathPoint split = path_.front();
        double most = -1;
        for (const PathPoint& p : path_) {
            if (p.time_s < first_s || p.time_s > second_s) continue;
            const double across = std::abs(std::sin(p.bearing_rad - line));
            if (across > most) most = across, split = p;
        }
        split_arc_m_ = split.arc_m;
        return split;
    }

    double miss_per_slope_before() const {
        return by_slope([this](const Surface& tilted) {
            const auto path = roll_from(tilted, launch_, true).path;
            return miss(*putt_.surface, going_on(at_arc(path, split_arc_m_)), true);
        });
    }

    double miss_per_slope_after() const {
        return by_slope([this](const Surface& tilted) {
            return miss(tilted, going_on(at_arc(path_, split_arc_m_)), true);
        });
    }

    double miss_per_angle() const {
        Launch right = launch_, left = launch_;
        right.bearing_rad += angle_step_rad;
        left.bearing_rad -= angle_step_rad;
        return (miss(*putt_.surface, right, false) - miss(*putt_.surface, left, false)) /
               (2 * angle_step_rad);
    }

  private:
    template <class Miss>
    double by_slope(Miss miss_on) const {
        const auto tilted = [&](double slope) {
            return Tilted(putt_.surface, slope * right_, putt_.hole);
        };
        return (miss_on(tilted(slope_step)) - miss_on(tilted(-slope_step))) / (2 * slope_step);
    }

    Roll roll_from(const Surface& surface, const Launch& launch, bool keep_path,
                   bool rolling = false) const {
        RollOptions options;
        options.tolerance = tolerance;
        options.hole = putt_.hole;
        options.keep_path = keep_path;
        options.conditions = putt_.conditions;
        if (rolling) options.conditions.launch_spin.reset();
        return roll(surface, putt_.resistance, launch, options);
    }

    static Launch going_on(const PathPoint& p) { return {p.at, p.bearing_rad, p.speed_m_s}; }

    /// How far right of the hole's centre it passes.
    double miss(const Surface& surface, const Launch& launch, bool rolling) const {
        const Roll rolled = roll_from(surface, launch, false, rolling);
        return right_.dot(rolled.pass.value_or(rolled.last).at - putt_.hole);
    }

    const Putt& putt_;
    Launch launch_;
    Vec2 right_;
    std::vector<PathPoint> path_;
    double split_arc_m_ = 0;
};

}  // namespace

std::optional<Turns> turns_of(const Putt& putt, const Stroke& stroke, const Roll& rolled) {
    const auto &left = rolled.farthest_left, &right = rolled.farthest_right;
    if (!left || !right) return std::nullopt;
    PlayerPoint a = in_player_frame(putt, left->at), b = in_player_frame(putt, right->at);
    // Where the ground turns a ball soon it is aimed to a side that its path hardly sees.
    const double aim = aim_offset_m(putt, stroke.angle_rad).value_or(0);
    if (std::max(-a.offset_m, -aim) < least_turn_m || std::max(b.offset_m, aim) < least_turn_m)
        return std::nullopt;
    if (std::max(-a.offset_m, b.offset_m) < least_turn_m) return std::nullopt;
    if (right->time_s < left->time_s) std::swap(a, b);
    return Turns{a, b};
}

HalfCosts half_costs_of(const Putt& putt, const Stroke& stroke, const Roll& rolled) {
    const auto [first_s, second_s] =
        std::minmax({rolled.farthest_left->time_s, rolled.farthest_right->time_s});
    HalfRoller halves(putt, stroke);
    HalfCosts costs;
    costs.bends_back_m = in_player_frame(putt, halves.split_between(first_s, second_s).at).along_m;
    if (!aim_offset_m(putt, stroke.angle_rad)) return costs;
    const double cosine = std::cos(stroke.angle_rad);
    const double aim_per_miss = putt.distance_m() / (cosine * cosine) / halves.miss_per_angle();
    costs.first_aim_m_per_slope = -aim_per_miss * halves.miss_per_slope_before();
    costs.second_aim_m_per_slope = -aim_per_miss * halves.miss_per_slope_after();
    return costs;
}

}  // namespace dewtrail
