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
        if (!options.scans && !roller_.on_plane()) ends_ = rough_ends;
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
    /// Of the softest and the firmest stroke: level roll, and start angle by how far from the hole
    /// it passes, in hole radii.
    struct EndFineness {
        double level_m, nearest;
    };
    /// Costs little on a plane, and mirrors to rounding.
    static constexpr EndFineness fine_ends{1e-8, 0.05};
    static constexpr EndFineness rough_ends{1e-4, 0.15};

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

    /// A start angle, and where its stroke passes the hole or rests short of it.
    struct Way {
        double angle_rad;
        double miss;   ///< right of the ball-hole line, in hole radii
        double off_m;  ///< from the hole's centre
    };
    Way way(double angle, double level) const {
        const Vec2 e = putt_.line().normalized(), off = roller_.nearest(angle, level) - putt_.hole;
        return {angle, (e.y() * off.x() - e.x() * off.y()) / hole_radius_m, off.norm()};
    }

    /// The middle line for a level roll, by the secant method from a guess near it. A soft stroke
    /// rests before it gets there: then the angle that comes nearest to the hole.
    Way middle(double level, double guess) const {
        Way a = way(guess, level), b = a;
        double step = -a.miss * radius_rad_;
        for (int i = 0; i < 13 && std::abs(b.miss) > 1e-3 && step != 0; ++i) {
            a = b;
            b = way(a.angle_rad + step, level);
            const double gain = a.miss - b.miss;
            step = gain == 0 ? 0 : std::clamp(b.miss * step / gain, -0.3, 0.3);
        }
        if (b.off_m < 0.3 * hole_radius_m) return b;
        return nearest_way(b, level);
    }

    /// On along the middle line, guessed from the two level rolls before.
    Way follow(double level) {
        constexpr double tells_m = 1e-3;
        const double by = level - followed_to_;
        const Way there = middle(level, followed_ + turn_ * by);
        if (std::abs(by) > tells_m) turn_ = (there.angle_rad - followed_) / by;
        followed_ = there.angle_rad;
        followed_to_ = level;
        return there;
    }
    void follow_from(double angle, double level) {
        followed_ = angle;
        followed_to_ = level;
        turn_ = 0;
    }

    /// Parabola by parabola to where it comes nearest to the hole.
    Way nearest_way(Way here, double level) const {
        double step = 0.5 * radius_rad_;
        for (int i = 0; i < 20 && step > ends_.nearest * radius_rad_; ++i) {
            const double next = turning_point(here, level, step);
            if (std::abs(next - here.angle_rad) < step) step *= 0.2;
            here = way(next, level);
        }
        return here;
    }

    /// Of the parabola through three squared distances from the hole, two steps away at most.
    double turning_point(const Way& here, double level, double step) const {
        const double left = squared(way(here.angle_rad - step, level).off_m);
        const double right = squared(way(here.angle_rad + step, level).off_m);
        const double bend = left - 2 * squared(here.off_m) + right, downhill = left - right;
        if (!(bend > 0)) return here.angle_rad + std::copysign(2 * step, downhill);
        return here.angle_rad + step * std::clamp(0.5 * downhill / bend, -2.0, 2.0);
    }

    /// The softest stroke that still reaches the rim: from the stroke that would rest on it if
    /// lengths were as level rolls.
    double softest() {
        const double distance = putt_.distance_m();
        const Vec2 rest = roller_.rest(angle_, level_) - putt_.ball;
        const double went = std::max(distance, rest.dot(putt_.line().normalized()));
        follow_from(angle_, level_);
        const auto short_of_rim = [&](double level) { return follow(level).off_m - hole_radius_m; };
        double a = level_ * (distance - hole_radius_m) / went;
        double fa = short_of_rim(a), b = a, fb = fa;
        for (double share = 0.01; share < 1 && (fa < 0) == (fb < 0); share *= 2) {
            a = b;
            fa = fb;
            b *= fb > 0 ? 1 + share : 1 - share;
            fb = short_of_rim(b);
        }
        if ((fa < 0) == (fb < 0)) b = a = fa < 0 ? a : level_;
        const double level = a < b   ? root(short_of_rim, a, b, fa, fb, ends_.level_m)
                             : b < a ? root(short_of_rim, b, a, fb, fa, ends_.level_m)
                                     : a;
        soft_angle_ = followed_;
        return level;
    }

    double firmest() {
        follow_from(angle_, level_);
        const auto margin = [&](double level) {
            return roller_.margin(follow(level).angle_rad, level);
        };
        double soft = level_, firm = level_ + 0.3, at_soft = margin(soft), at_firm = margin(firm);
        for (int i = 0; i < 40 && at_firm > 0; ++i) {
            soft = firm;
            at_soft = at_firm;
            firm += 0.3 * (1 + i);
            at_firm = margin(firm);
        }
        const double level =
            at_soft > 0 ? root(margin, soft, firm, at_soft, at_firm, ends_.level_m) : soft;
        firm_angle_ = followed_;
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
        const double last = 0.5 * (before.back().lo + before.back().hi);
        return edges.around(middle(level, last).angle_rad, level);
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
    EndFineness ends_ = fine_ends;
    double angle_ = 0, level_ = 0;            ///< a stroke that drops
    double followed_ = 0, followed_to_ = 0;   ///< the middle line: start angle, level roll
    double turn_ = 0;                         ///< and how that turns with this
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
