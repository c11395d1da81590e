#include "physics/stroke_map.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>

#include "physics/green_speed.hpp"
#include "physics/hole_capture.hpp"

namespace dewtrail {
namespace {

constexpr double roll_tolerance = 1e-8;
constexpr int grid_angles = 25, grid_rolls = 17;
constexpr double edge_error = 2e-4;  ///< of the hole's radius
constexpr double no_drop = -0.5;

const Plane* plane_of(const Putt& putt) {
    return dynamic_cast<const Plane*>(putt.surface.get());
}

/// The root of f between a and b to `close`; f may jump.
template <class F>
double root(F f, double a, double b, double fa, double fb, double close) {
    std::uintmax_t most = 60;
    const auto near = [close](double x, double y) { return std::abs(x - y) < close; };
    const auto found = boost::math::tools::toms748_solve(f, a, b, fa, fb, near, most);
    return 0.5 * (found.first + found.second);
}

/// Weights of a cubic through four neighbours, at t between the middle two.
std::array<double, 4> cubic_weights(double t) {
    return {-0.5 * t * (1 - t) * (1 - t), 1 - t * t * (2.5 - 1.5 * t),
            t * (0.5 + t * (2 - 1.5 * t)), -0.5 * t * t * (1 - t)};
}

/// What the hole needs to know of a ball at its rim.
RimArrival arrival_at(const Putt& putt, const PathPoint& rim) {
    const Vec2 e = along_bearing(rim.bearing_rad), right(e.y(), -e.x());
    const Vec2 gradient = putt.surface->at(rim.at.x(), rim.at.y()).gradient();
    return {rim.speed_m_s, right.dot(rim.at - putt.hole), gradient.dot(e), gradient.dot(right)};
}

struct Cell {
    int first;  ///< of four; may be -1
    std::array<double, 4> weights;
};

Cell cell(double place, int rows) {
    const int i = std::clamp(static_cast<int>(std::floor(place)), 0, rows - 2);
    return {i - 1, cubic_weights(place - i)};
}

/// Row i; beyond either end carried on by a parabola.
template <class At>
auto beyond_ends(At at, int i, int rows) {
    using Row = std::decay_t<decltype(at(0))>;
    if (i < 0) return Row(3 * at(0) - 3 * at(1) + at(2));
    if (i >= rows) return Row(3 * at(rows - 1) - 3 * at(rows - 2) + at(rows - 3));
    return Row(at(i));
}

template <class At>
auto blend(At at, const Cell& c, int rows) {
    using Row = std::decay_t<decltype(at(0))>;
    Row sum = c.weights[0] * beyond_ends(at, c.first, rows);
    for (int k = 1; k < 4; ++k) sum += c.weights[k] * beyond_ends(at, c.first + k, rows);
    return sum;
}

}  // namespace

StrokeRoller::StrokeRoller(const Putt& putt)
    : putt_(putt), level_slowing_(level_deceleration_m_s2(putt.resistance)) {
    if (const Plane* plane = plane_of(putt)) ground_.emplace(plane->gradient(), putt.resistance);
}

Launch StrokeRoller::launch(double angle_rad, double level_roll_m) const {
    return putt_.launch({angle_rad, std::sqrt(2 * level_slowing_ * level_roll_m)});
}

std::optional<PathPoint> StrokeRoller::rim(double angle_rad, double level_roll_m) const {
    if (ground_) return PlaneRoll(*ground_, launch(angle_rad, level_roll_m)).rim(putt_.hole);
    RollOptions options;
    options.tolerance = roll_tolerance;
    options.hole = putt_.hole;
    options.outline = putt_.outline.get();
    options.until_rim = true;
    const Roll rolled =
        roll(*putt_.surface, putt_.resistance, launch(angle_rad, level_roll_m), options);
    const bool off = rolled.rim && rolled.off_green && rolled.off_green->arc_m < rolled.rim->arc_m;
    return off ? std::nullopt : rolled.rim;
}

double StrokeRoller::margin(double angle_rad, double level_roll_m) const {
    const auto at = rim(angle_rad, level_roll_m);
    if (!at) return no_drop;
    const RimArrival arrival = arrival_at(putt_, *at);
    return capture_limit_m_s(arrival.offset_m, arrival.slope_along, arrival.slope_right) -
           arrival.speed_m_s;
}

Vec2 StrokeRoller::nearest(double angle_rad, double level_roll_m) const {
    if (ground_) {
        const PlaneRoll rolled(*ground_, launch(angle_rad, level_roll_m));
        const auto pass = rolled.pass(putt_.hole);
        return pass ? pass->at : rolled.rest_at();
    }
    RollOptions options;
    options.tolerance = roll_tolerance;
    options.hole = putt_.hole;
    options.outline = putt_.outline.get();
    const Roll rolled =
        roll(*putt_.surface, putt_.resistance, launch(angle_rad, level_roll_m), options);
    return rolled.pass.value_or(rolled.last).at;
}

Vec2 StrokeRoller::rest(double angle_rad, double level_roll_m) const {
    return rest_from(launch(angle_rad, level_roll_m));
}

Vec2 StrokeRoller::rest_from(const Launch& launch) const {
    if (ground_) return PlaneRoll(*ground_, launch).rest_at();
    RollOptions options;
    options.tolerance = roll_tolerance;
    options.outline = putt_.outline.get();
    return roll(*putt_.surface, putt_.resistance, launch, options).last.at;
}

Vec2 StrokeRoller::rest_through_hole(double angle_rad, double level_roll_m) const {
    const auto at = rim(angle_rad, level_roll_m);
    if (!at) return rest(angle_rad, level_roll_m);
    const HoleOutcome outcome = roll_into_hole(arrival_at(putt_, *at));
    if (outcome.holed) return putt_.hole;
    if (!(outcome.exit_speed_m_s > 0)) return at->at;
    const Vec2 e = along_bearing(at->bearing_rad), right(e.y(), -e.x());
    const Vec2 exit = outcome.exit_position_m.x() * right + outcome.exit_position_m.y() * e;
    return rest_from(
        {putt_.hole + exit, at->bearing_rad + outcome.turn_rad, outcome.exit_speed_m_s});
}

/// Walks the strokes that drop from soft to firm along the middle line, the start angle that leads
/// over the hole's centre (or lets the ball rest on the ball-hole line).
class MapBuilder {
  public:
    explicit MapBuilder(const Putt& putt)
        : putt_(putt), roller_(putt), radius_rad_(hole_radius_m / putt.distance_m()) {}

    std::optional<StrokeMap> build(const std::optional<Stroke>& around, const StrokeWindow& window,
                                   int edge_rows) {
        StrokeMap map(putt_);
        map.level_slowing_ = level_deceleration_m_s2(putt_.resistance);
        if (const Plane* plane = plane_of(putt_))
            map.ground_.emplace(plane->gradient(), putt_.resistance);
        if (!start(around)) return std::nullopt;
        map.level_rolls_ = {softest(), firmest()};
        walk_edges(map, edge_rows);
        if (!roller_.on_plane()) fill_grid(map, window);
        return map;
    }

  private:
    /// A first stroke that drops.
    bool start(const std::optional<Stroke>& around) {
        if (roller_.on_plane()) return start_on_plane();
        if (!around) return false;
        angle_ = around->angle_rad;
        level_ = level_roll_m(around->speed_m_s, putt_.resistance);
        return roller_.margin(angle_, level_) > 0;
    }

    bool start_on_plane() {
        const Finish easy = Finish::past(0.15);
        const Stroke stroke =
            lines_on_plane(plane_of(putt_)->gradient(), putt_.resistance, putt_.line(), easy)
                .strokes.front();
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
        for (int i = 0; i < 12 && std::abs(fb) > 1e-4 && fb != fa; ++i) {
            const double step = std::clamp(-fb * (b - a) / (fb - fa), -0.3, 0.3);
            a = b;
            fa = fb;
            b += step;
            fb = miss(b, level);
        }
        if (off(b, level) < 0.3 * hole_radius_m) return b;
        std::uintmax_t most = 20;
        const auto distance = [&](double angle) { return off(angle, level); };
        return boost::math::tools::brent_find_minima(distance, b - radius_rad_, b + radius_rad_, 18,
                                                     most)
            .first;
    }

    /// The softest stroke that still reaches the rim.
    double softest() {
        const double start = angle_;
        const auto stops_short = [&](double level) {
            angle_ = middle(level, angle_);
            return off(angle_, level) > hole_radius_m ? 1.0 : -1.0;
        };
        double reaches = level_, stops = level_;
        for (int i = 0; i < 60 && stops_short(stops) < 0; ++i) {
            reaches = stops;
            stops *= 0.93;
        }
        const double level = root(stops_short, stops, reaches, 1, -1, 0.005 * hole_radius_m);
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
        const double level = at_soft > 0 ? root(margin, soft, firm, at_soft, at_firm, 1e-4) : soft;
        angle_ = start;
        return level;
    }

    /// From inside outward until the ball no longer drops.
    double edge(double inside, double level, double step) const {
        const auto f = [&](double angle) { return roller_.margin(angle, level); };
        double f_inside = f(inside);
        if (f_inside <= 0) return inside;
        for (int i = 0; i < 40; ++i) {
            const double next = inside + step, f_next = f(next);
            if (f_next <= 0) {
                const double lo = std::min(inside, next), hi = std::max(inside, next);
                return root(f, lo, hi, step > 0 ? f_inside : f_next, step > 0 ? f_next : f_inside,
                            edge_error * radius_rad_);
            }
            inside = next;
            f_inside = f_next;
            step *= 1.5;
        }
        return inside;
    }

    void walk_edges(StrokeMap& map, int edge_rows) const {
        const auto [soft, firm] = map.level_rolls_;
        double angle = soft_angle_;
        for (int i = 0; i < edge_rows; ++i) {
            const double share = 0.5 * (1 - std::cos(M_PI * i / (edge_rows - 1)));
            const double level = soft + share * (firm - soft);
            angle = middle(level, angle);
            const bool end = i == 0 || i == edge_rows - 1;
            map.edges_.push_back(end ? Interval{angle, angle}
                                     : Interval{edge(angle, level, -0.7 * radius_rad_),
                                                edge(angle, level, 0.7 * radius_rad_)});
        }
    }

    void fill_grid(StrokeMap& map, const StrokeWindow& window) const {
        map.window_ = window;
        const auto [a0, a1] = window.angle_rad;
        const auto [l0, l1] = window.level_roll_m;
        for (int j = 0; j < grid_rolls; ++j)
            for (int i = 0; i < grid_angles; ++i)
                map.rests_.push_back(roller_.rest(a0 + (a1 - a0) * i / (grid_angles - 1),
                                                  l0 + (l1 - l0) * j / (grid_rolls - 1)));
    }

    const Putt& putt_;
    StrokeRoller roller_;
    double radius_rad_;
    double angle_ = 0, level_ = 0;  ///< a stroke that drops
    double soft_angle_ = 0;         ///< of the softest
};

std::optional<StrokeMap> StrokeMap::make(const Putt& putt, const std::optional<Stroke>& around,
                                         const StrokeWindow& window, int edge_rows) {
    return MapBuilder(putt).build(around, window, edge_rows);
}

std::optional<Interval> StrokeMap::drops(double level_roll_m) const {
    if (!level_rolls_.holds(level_roll_m)) return std::nullopt;
    const int edge_rows = static_cast<int>(edges_.size());
    const double share = (level_roll_m - level_rolls_.lo) / (level_rolls_.hi - level_rolls_.lo);
    const Cell c = cell(std::acos(1 - 2 * share) / M_PI * (edge_rows - 1), edge_rows);
    const double lo = blend([&](int i) { return edges_[i].lo; }, c, edge_rows);
    const double hi = blend([&](int i) { return edges_[i].hi; }, c, edge_rows);
    if (!(lo < hi)) return std::nullopt;
    return Interval{lo, hi};
}

Vec2 StrokeMap::rest(double angle_rad, double level_roll_m) const {
    if (!ground_) return rest_on_grid(angle_rad, level_roll_m);
    const double speed = std::sqrt(2 * level_slowing_ * level_roll_m);
    return PlaneRoll(*ground_, putt_.launch({angle_rad, speed})).rest_at();
}

Vec2 StrokeMap::rest_on_grid(double angle_rad, double level_roll_m) const {
    const auto place = [](double x, const Interval& range, int rows) {
        const double share = (x - range.lo) / (range.hi - range.lo);
        return std::clamp(share, 0.0, 1.0) * (rows - 1);
    };
    const Cell across = cell(place(angle_rad, window_.angle_rad, grid_angles), grid_angles);
    const Cell along = cell(place(level_roll_m, window_.level_roll_m, grid_rolls), grid_rolls);
    const auto row = [&](int j) -> Vec2 {
        return blend([&](int i) -> Vec2 { return rests_[j * grid_angles + i]; }, across,
                     grid_angles);
    };
    return blend(row, along, grid_rolls);
}

}  // namespace dewtrail
