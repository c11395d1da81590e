#include "physics/odds/stroke_map.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "physics/numbers/cubic_rows.hpp"
#include "physics/numbers/root.hpp"
#include "physics/numbers/squared.hpp"
#include "physics/odds/drop_edges.hpp"
#include "physics/odds/drop_scan.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr RestGrid::Size rest_grid{25, 17};
constexpr double easy_past_m = 0.15;
constexpr double level_error_m = 1e-8;  ///< costs little on a plane, and mirrors to rounding
constexpr double rough_level_error_m = 1e-4;
constexpr double scanned_below = 2.2;  ///< friction over slope

}  // namespace

/// Walks the strokes that drop from soft to firm along the middle line, the start angle that leads
/// over the hole's centre (or lets the ball rest on the ball-hole line).
class MapBuilder {
  public:
    explicit MapBuilder(const Putt& putt)
        : putt_(putt), roller_(putt), radius_rad_(hole_radius_m / putt.distance_m()) {}

    std::optional<StrokeMap> build(const std::optional<Stroke>& around, const StrokeWindow& window,
                                   const MapOptions& options) {
        if (!options.scans && !roller_.on_plane()) level_error_m_ = rough_level_error_m;
        StrokeMap map(putt_, options);
        map.level_slowing_ = level_deceleration_m_s2(putt_.resistance);
        map.ground_ = roller_.plane();
        map.scanned_ = options.scans && putt_.least_friction_over_pull() < scanned_below;
        if (map.scanned_) {
            map.panels_ = DropScan(roller_, scanned(window), options.edge_rows).panels();
        } else {
            if (!start(around)) return std::nullopt;
            map.panels_.push_back({.level_rolls = {softest(), firmest()}});
            walk_edges(map.panels_.front(), options.edge_rows);
        }
        if (map.panels_.empty()) return std::nullopt;
        return map;
    }

  private:
    StrokeWindow scanned(const StrokeWindow& window) const {
        if (!roller_.on_plane()) return window;
        return window_on_plane(putt_, static_cast<const Plane&>(*putt_.surface));
    }

    /// A first stroke that drops.
    bool start(const std::optional<Stroke>& around) {
        if (roller_.on_plane()) return start_on_plane();
        if (!around) return false;
        angle_ = around->angle_rad;
        level_ = level_roll_m(around->speed_m_s, putt_.resistance, putt_.conditions);
        return roller_.margin(angle_, level_) > 0;
    }

    bool start_on_plane() {
        const auto& plane = static_cast<const Plane&>(*putt_.surface);
        const Finish easy = Finish::past(easy_past_m);
        const Stroke stroke =
            lines_on_plane(plane.gradient(), putt_.resistance, putt_.line(), easy).strokes.front();
        angle_ = stroke.angle_rad;
        level_ = level_roll_m(stroke.speed_m_s, putt_.resistance);
        return true;
    }

    /// How far right of the ball-hole line it passes or rests, in hole radii.
    double miss(double angle, double level) const {
        const Vec2 e = putt_.line().normalized(), off = roller_.nearest(angle, level) - putt_.hole;
        return (e.y() * off.x() - e.x() * off.y()) / hole_radius_m;
    }

    double off(double angle, double level) const {
        return (roller_.nearest(angle, level) - putt_.hole).norm();
    }

    /// The middle line for a level roll, by the secant method from a guess near it. A soft stroke
    /// rests before it gets there: then the angle that comes nearest to the hole.
    double middle(double level, double guess) const {
        double a = guess, fa = miss(a, level);
        double b = a - fa * radius_rad_, fb = miss(b, level);
        for (int i = 0; i < 12 && std::abs(fb) > 1e-3 && fb != fa; ++i) {
            const double step = std::clamp(-fb * (b - a) / (fb - fa), -0.3, 0.3);
            a = b;
            fa = fb;
            b += step;
            fb = miss(b, level);
        }
        if (off(b, level) < 0.3 * hole_radius_m) return b;
        return nearest_angle(b, level);
    }

    /// Parabola by parabola to where it comes nearest to the hole, to a tenth of its radius.
    double nearest_angle(double angle, double level) const {
        double step = 0.5 * radius_rad_;
        for (int i = 0; i < 20 && step > 0.05 * radius_rad_; ++i) {
            const double next = turning_point(angle, level, step);
            if (std::abs(next - angle) < step) step *= 0.2;
            angle = next;
        }
        return angle;
    }

    /// Of the parabola through three squared distances from the hole, two steps away at most.
    double turning_point(double angle, double level, double step) const {
        const auto distance2 = [&](double x) { return squared(off(x, level)); };
        const double left = distance2(angle - step), here = distance2(angle),
                     right = distance2(angle + step);
        const double bend = left - 2 * here + right, downhill = left - right;
        if (!(bend > 0)) return angle + std::copysign(2 * step, downhill);
        return angle + step * std::clamp(0.5 * downhill / bend, -2.0, 2.0);
    }

    /// The softest stroke that still reaches the rim: from the stroke that would rest on it if
    /// lengths were as level rolls.
    double softest() {
        const double start = angle_, distance = putt_.distance_m();
        const auto short_of_rim = [&](double level) {
            angle_ = middle(level, angle_);
            return off(angle_, level) - hole_radius_m;
        };
        double a = level_ * (distance - hole_radius_m) / (distance + easy_past_m);
        double fa = short_of_rim(a), b = a, fb = fa;
        for (double share = 0.01; share < 1 && (fa < 0) == (fb < 0); share *= 2) {
            a = b;
            fa = fb;
            b *= fb > 0 ? 1 + share : 1 - share;
            fb = short_of_rim(b);
        }
        if ((fa < 0) == (fb < 0)) b = a = fa < 0 ? a : level_;
        const double level = a < b   ? root(short_of_rim, a, b, fa, fb, level_error_m_)
                             : b < a ? root(short_of_rim, b, a, fb, fa, level_error_m_)
                                     : a;
        soft_angle_ = angle_;
        angle_ = start;
        return level;
    }

    double firmest() {
        const double start = angle_;
        const auto margin = [&](double level) {
            angle_ = middle(level, angle_);
            return roller_.margin(angle_, level);
        };
        double soft = level_, firm = level_ + 0.3, at_soft = margin(soft), at_firm = margin(firm);
        for (int i = 0; i < 40 && at_firm > 0; ++i) {
            soft = firm;
            at_soft = at_firm;
            firm += 0.3 * (1 + i);
            at_firm = margin(firm);
        }
        const double level =
            at_soft > 0 ? root(margin, soft, firm, at_soft, at_firm, level_error_m_) : soft;
        firm_angle_ = angle_;
        angle_ = start;
        return level;
    }

    /// Row by row, each guessed from the ones before: rows spread by a cosine follow a parabola.
    void walk_edges(StrokePanel& panel, int edge_rows) const {
        const auto [soft, firm] = panel.level_rolls;
        auto& rows = panel.edges;
        rows.push_back({soft_angle_, soft_angle_});
        for (int i = 1; i + 1 < edge_rows; ++i) {
            const double share = 0.5 * (1 - std::cos(M_PI * i / (edge_rows - 1)));
            rows.push_back(edges(soft + share * (firm - soft), rows));
        }
        rows.push_back({firm_angle_, firm_angle_});
    }

    Interval edges(double level, const std::vector<Interval>& before) const {
        const DropEdges edges(roller_);
        const Interval guess = carried_on(before);
        if (before.size() >= 3)
            if (const auto found = edges.near(guess, level)) return *found;
        if (const auto found = edges.about(guess, level)) return *found;
        return edges.around(middle(level, 0.5 * (before.back().lo + before.back().hi)), level);
    }

    /// By a parabola through the rows before; the last row where there are fewer than three.
    static Interval carried_on(const std::vector<Interval>& rows) {
        const std::size_t n = rows.size();
        if (n < 3) return rows[n - 1];
        const Interval &a = rows[n - 3], &b = rows[n - 2], &c = rows[n - 1];
        return {3 * (c.lo - b.lo) + a.lo, 3 * (c.hi - b.hi) + a.hi};
    }

    const Putt& putt_;
    StrokeRoller roller_;
    double radius_rad_;
    double level_error_m_ = level_error_m;
    double angle_ = 0, level_ = 0;            ///< a stroke that drops
    double soft_angle_ = 0, firm_angle_ = 0;  ///< of the softest and the firmest
};

std::optional<StrokeMap> StrokeMap::make(const Putt& putt, const std::optional<Stroke>& around,
                                         const StrokeWindow& window, const MapOptions& options) {
    auto map = MapBuilder(putt).build(around, window, options);
    if (!map || map->on_plane()) return map;
    return map->with_rests(window, rest_grid);
}

std::optional<StrokeMap> StrokeMap::over(const StrokeWindow& window) const {
    if (on_plane()) return *this;
    if (scanned_) return make(putt_, {}, window, options_);
    return with_rests(window, rest_grid);
}

std::optional<StrokeMap> StrokeMap::make_edges(const Putt& putt, const Stroke& around,
                                               const MapOptions& options) {
    return MapBuilder(putt).build(around, {}, options);
}

StrokeMap StrokeMap::with_rests(const StrokeWindow& window, RestGrid::Size size) const {
    StrokeMap map = *this;
    map.rests_ = std::make_shared<RestGrid>(StrokeRoller(putt_), window, size);
    return map;
}

/// By cubics over the angle of the cosine, or by chords between rows that lie close enough for it.
Drops StrokePanel::at(double level_roll_m) const {
    const int rows = static_cast<int>(edges.size()) / strands;
    const auto edge = [&](int row, int strand) { return edges[row * strands + strand]; };
    Drops drops;
    if (!levels_m.empty()) {
        const auto next = std::upper_bound(levels_m.begin() + 1, levels_m.end() - 1, level_roll_m);
        const int row = static_cast<int>(next - levels_m.begin());
        const double t = (level_roll_m - next[-1]) / (next[0] - next[-1]);
        for (int k = 0; k < strands; ++k) {
            const Interval a = edge(row - 1, k), b = edge(row, k);
            drops.add({a.lo + t * (b.lo - a.lo), a.hi + t * (b.hi - a.hi)});
        }
        return drops;
    }
    const auto [soft, firm] = level_rolls;
    const double share = (level_roll_m - soft) / (firm - soft);
    const CubicCell c(std::acos(1 - 2 * share) / M_PI * (rows - 1), rows);
    const double lo = blend([&](int row) { return edge(row, 0).lo; }, c, rows);
    const double hi = blend([&](int row) { return edge(row, 0).hi; }, c, rows);
    if (lo < hi) drops.add({lo, hi});
    return drops;
}

Drops StrokeMap::drops(double level_roll_m) const {
    for (const StrokePanel& panel : panels_)
        if (panel.level_rolls.holds(level_roll_m)) return panel.at(level_roll_m);
    return {};
}

Vec2 StrokeMap::rest(double angle_rad, double level_roll_m) const {
    if (!ground_) return rests_->at(angle_rad, level_roll_m);
    const double speed = std::sqrt(2 * level_slowing_ * level_roll_m);
    return PlaneRoll(*ground_, putt_.launch({angle_rad, speed})).rest_at();
}

}  // namespace dewtrail
