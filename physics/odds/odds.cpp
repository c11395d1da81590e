#include "physics/odds/odds.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "physics/numbers/root.hpp"
#include "physics/odds/misses.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double three_feet_m = 3 * metres_per_foot;

/// Share of a triangle in which what is linear between its corners lies below 0.
double share_below(double a, double b, double c) {
    const int below = (a < 0) + (b < 0) + (c < 0);
    if (below == 0 || below == 3) return below == 0 ? 0 : 1;
    const bool one = below == 1;
    if ((b < 0) == one) std::swap(a, b);
    if ((c < 0) == one) std::swap(a, c);
    const double corner = a / (a - b) * (a / (a - c));
    return one ? corner : 1 - corner;
}

/// How all misses of a spread lie about the hole: cells of start angle and level roll between whose
/// corners places are taken as linear. What is asked of the places is integrated, not counted, so
/// that it has no steps.
class Misses {
  public:
    explicit Misses(const StrokeMap& map)
        : map_(map), line_(map.putt().line()), ahead_(line_.normalized()) {}

    void add(const Column& column, double from, double to) {
        const double by_level = 0.5 * column.spacing_m / column.level_roll_m;
        const int steps = 2 + static_cast<int>(std::lround(angles_per_deviation * (to - from) /
                                                           column.deviation_rad));
        for (int i = 0; i <= steps; ++i) {
            const double angle = from + (to - from) * i / steps;
            const Vec2 rest = map_.rest(angle, column.level_roll_m) - map_.putt().hole;
            // A roll grows as its level roll does; on a plane exactly.
            const Vec2 more = by_level * (rest + line_), shorter = rest - more,
                       longer = rest + more;
            const double below = column.weight * column.below(angle);
            rows_.push_back({i > 0, below, shorter.norm(), longer.norm(), ahead_.dot(shorter),
                             ahead_.dot(longer)});
            if (i == 0) total_ -= below;
            if (i == steps) total_ += below;
        }
    }

    double short_of_hole() const { return where(&Row::shorter_ahead_m, &Row::longer_ahead_m, 0); }

    double within(double distance_m) const {
        return where(&Row::shorter_away_m, &Row::longer_away_m, distance_m);
    }

    /// Of how far they rest from the hole; 0 where there are none.
    double median_m() const {
        constexpr double none = 1e-9, close_m = 1e-9;
        if (total_ < none) return 0;
        const auto f = [&](double distance) { return within(distance) - 0.5 * total_; };
        double far = 1;
        while (f(far) < 0) far *= 2;
        return root(f, 0.0, far, -0.5 * total_, f(far), close_m);
    }

  private:
    static constexpr double angles_per_deviation = 4;

    /// One start angle at one level roll, and the ends of the step of level roll about it.
    struct Row {
        bool goes_on;  ///< from the row before
        double below;  ///< weight of the column's strokes left of it
        double shorter_away_m, longer_away_m, shorter_ahead_m, longer_ahead_m;
    };

    /// The weight of those with less than `limit`.
    double where(double Row::*shorter, double Row::*longer, double limit) const {
        double sum = 0;
        for (std::size_t i = 1; i < rows_.size(); ++i) {
            const Row &a = rows_[i - 1], &b = rows_[i];
            if (!b.goes_on) continue;
            const double a_short = a.*shorter - limit, a_long = a.*longer - limit;
            const double b_short = b.*shorter - limit, b_long = b.*longer - limit;
            const auto [least, most] = std::minmax({a_short, a_long, b_short, b_long});
            if (least >= 0) continue;
            if (most < 0) {
                sum += b.below - a.below;
                continue;
            }
            // Both ways across the cell, so that a mirrored one has the same share.
            sum += (b.below - a.below) * 0.25 *
                   (share_below(a_short, a_long, b_short) + share_below(b_long, b_short, a_long) +
                    share_below(b_short, b_long, a_short) + share_below(a_long, a_short, b_long));
        }
        return sum;
    }

    const StrokeMap& map_;
    Vec2 line_, ahead_;
    std::vector<Row> rows_;
    double total_ = 0;
};

/// A stroke and the map of where it may end.
struct Mapped {
    StrokeMap map;
    StrokeSpread spread;
};

std::optional<Mapped> mapped(const Putt& putt, const Read& read, const Scatter& scatter) {
    if (!has_odds(putt)) return std::nullopt;
    const auto spread = spread_of(putt, read, scatter);
    if (!spread) return std::nullopt;
    auto map = StrokeMap::make(putt, read.stroke, window_of(*spread));
    if (!map) return std::nullopt;
    return Mapped{std::move(*map), *spread};
}

/// Calls `missed(weight, rest)`, the place from the hole, for the nodes of every miss.
template <class Missed>
StrokeOdds over_strokes(const StrokeMap& map, const StrokeSpread& spread, Missed missed) {
    StrokeOdds result;
    Misses misses(map);
    for (const Column& column : columns_of(map, spread, fine)) {
        const auto miss = [&](double weight, double angle) {
            missed(weight, map.rest(angle, column.level_roll_m) - map.putt().hole);
        };
        result.holed += through_column(map, column, fine, miss);
        through_gaps(map, column, fine,
                     [&](double from, double to) { misses.add(column, from, to); });
    }
    result.inside_3ft = result.holed + misses.within(three_feet_m);
    result.short_of_hole = misses.short_of_hole();
    result.usual_leave_m = misses.median_m();
    return result;
}

}  // namespace

bool has_odds(const Putt& putt) {
    return putt.holds_a_ball();
}

std::optional<StrokeSpread> spread_of(const Putt& putt, const Read& read, const Scatter& scatter) {
    const auto sensitivity = read_slope_sensitivity(putt, read.stroke);
    if (!sensitivity) return std::nullopt;
    return stroke_spread(read.stroke.angle_rad, read.level_roll_m, scatter, *sensitivity);
}

Odds odds(const StrokeMap& map, const StrokeSpread& spread, const NextPutts& next) {
    double putts = 1, holed_next = 0, missed = 0;
    Odds result{over_strokes(map, spread, [&](double weight, const Vec2& rest) {
        const Prospect prospect = next.from(rest + map.putt().hole);
        missed += weight;
        putts += weight * prospect.putts;
        holed_next += weight * prospect.holed;
    })};
    result.putts = putts;
    result.three_putt = std::max(0.0, missed - holed_next);
    return result;
}

StrokeOdds stroke_odds(const StrokeMap& map, const StrokeSpread& spread) {
    return over_strokes(map, spread, [](double, const Vec2&) {});
}

double chance_to_hole(const StrokeMap& map, const StrokeSpread& spread) {
    double holed = 0;
    for (const Column& column : columns_of(map, spread, fine))
        for (const Interval& drop : map.drops(column.level_roll_m))
            holed += column.weight * (column.below(drop.hi) - column.below(drop.lo));
    return holed;
}

StrokeWindow window_of(const StrokeSpread& spread, double tail) {
    const double angle = tail * std::sqrt(spread.covariance(0, 0));
    const double level = tail * std::sqrt(spread.covariance(1, 1));
    const double mean = spread.level_roll_m;
    return {{spread.angle_rad - angle, spread.angle_rad + angle},
            {std::max(least_pace * mean, mean - level), mean + level}};
}

double reach_m(const StrokeMap& map, const StrokeSpread& spread) {
    constexpr double deviations = 3;
    const double angle = deviations * std::sqrt(spread.covariance(0, 0));
    const double level = deviations * std::sqrt(spread.covariance(1, 1));
    double reach = 0;
    for (const double a : {-angle, 0.0, angle})
        for (const double l : {-level, level}) {
            const double rolls =
                std::max(least_pace * spread.level_roll_m, spread.level_roll_m + l);
            const Vec2 rest = map.rest(spread.angle_rad + a, rolls);
            reach = std::max(reach, (rest - map.putt().hole).norm());
        }
    return reach;
}

std::optional<Odds> odds_of(const Putt& putt, const Read& read, const Scatter& scatter) {
    const auto m = mapped(putt, read, scatter);
    if (!m) return std::nullopt;
    const auto surround = HoleSurround::make(putt, reach_m(m->map, m->spread));
    if (!surround) return std::nullopt;
    return odds(m->map, m->spread, NextPutts(*surround, scatter));
}

std::optional<Odds> odds_of(const Putt& putt, const Read& read, const Scatter& scatter,
                            const NextPutts& next) {
    const auto m = mapped(putt, read, scatter);
    if (!m) return std::nullopt;
    return odds(m->map, m->spread, next);
}

std::optional<StrokeOdds> stroke_odds_of(const Putt& putt, const Read& read,
                                         const Scatter& scatter) {
    const auto m = mapped(putt, read, scatter);
    if (!m) return std::nullopt;
    return stroke_odds(m->map, m->spread);
}

}  // namespace dewtrail
