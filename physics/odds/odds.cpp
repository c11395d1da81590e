#include "physics/odds/odds.hpp"

#include <algorithm>
#include <cmath>

#include "physics/odds/misses.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double three_feet_m = 3 * metres_per_foot;

/// Share of a step of level roll, from one value of a threshold to another, that lies below 0.
double share_below(double at_start, double at_end) {
    if ((at_start < 0) == (at_end < 0)) return at_start < 0 ? 1 : 0;
    const double crossing = at_start / (at_start - at_end);
    return at_start < 0 ? crossing : 1 - crossing;
}

/// A miss stands for a step of level roll, and leaves something between these.
struct Leave {
    double shorter_m, longer_m, weight;
};

double weight_below(const std::vector<Leave>& leaves, double distance_m) {
    double sum = 0;
    for (const Leave& leave : leaves)
        sum +=
            leave.weight * share_below(leave.shorter_m - distance_m, leave.longer_m - distance_m);
    return sum;
}

double median(const std::vector<Leave>& leaves) {
    constexpr double resolution_m = 1e-3;
    double lo = 0, hi = 0, total = 0;
    for (const Leave& leave : leaves) {
        total += leave.weight;
        hi = std::max({hi, leave.shorter_m, leave.longer_m});
    }
    while (hi - lo > resolution_m) {
        const double middle = 0.5 * (lo + hi);
        (weight_below(leaves, middle) < 0.5 * total ? lo : hi) = middle;
    }
    return 0.5 * (lo + hi);
}

bool has_odds(const Putt& putt) {
    return putt.conditions.plain() && putt.holds_a_ball();
}

std::optional<StrokeSpread> spread_of(const Putt& putt, const Read& read, const Scatter& scatter) {
    const auto sensitivity = read_slope_sensitivity(putt, read.stroke);
    if (!sensitivity) return std::nullopt;
    return stroke_spread(read.stroke.angle_rad, read.level_roll_m, scatter, *sensitivity);
}

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

/// Calls `missed(weight, rest)`, the place from the hole, for every step of every miss.
template <class Missed>
StrokeOdds over_strokes(const StrokeMap& map, const StrokeSpread& spread, Missed missed) {
    const Putt& putt = map.putt();
    const Vec2 line = putt.line().normalized();
    StrokeOdds result;
    std::vector<Leave> leaves;
    for (const Column& column : columns_of(map, spread, fine)) {
        const double half = 0.5 * column.spacing_m, level = column.level_roll_m;
        const auto miss = [&](double weight, double angle) {
            const Vec2 rest = map.rest(angle, level) - putt.hole;
            missed(weight, rest);
            const Vec2 by_roll = (rest + putt.line()) * (half / level);
            const Vec2 shorter = rest - by_roll, longer = rest + by_roll;
            leaves.push_back({shorter.norm(), longer.norm(), weight});
            result.short_of_hole += weight * share_below(line.dot(shorter), line.dot(longer));
        };
        result.holed += through_column(map, column, fine, miss);
    }
    result.inside_3ft = result.holed + weight_below(leaves, three_feet_m);
    result.usual_leave_m = median(leaves);
    return result;
}

}  // namespace

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

StrokeWindow window_of(const StrokeSpread& spread) {
    constexpr double tail = 5;
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
    const auto surround =
        HoleSurround::make(putt.surface, putt.resistance, putt.hole, reach_m(m->map, m->spread));
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
