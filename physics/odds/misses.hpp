#pragma once

#include <array>
#include <cmath>
#include <vector>

#include "physics/numbers/normal.hpp"
#include "physics/odds/prospect_table.hpp"
#include "physics/odds/scatter.hpp"

#include "physics/odds/stroke_map.hpp"

namespace dewtrail {

/// How finely the strokes of a spread are sampled.
struct Fineness {
    double level_rolls = 5;  ///< nodes per standard deviation
    double angles = 3;
    double tail = 5.5;  ///< standard deviations; beyond 5.5 are 4e-8 of the strokes, beyond 4 6e-5
};
inline constexpr Fineness fine{8, 4, 5.5}, coarse{1.6, 1.0, 4}, rough{1.0, 0.7, 3.5};

/// The strokes of a spread at one level roll: their weight, and the start angle given that.
struct Column {
    double level_roll_m;
    double spacing_m;  ///< to the next column
    double weight;
    double middle_rad, deviation_rad;

    /// Share of the column with a start angle below this.
    double below(double angle) const { return normal_below((angle - middle_rad) / deviation_rad); }
};

std::vector<Column> columns_of(const StrokeMap& map, const StrokeSpread& spread,
                               const Fineness& fineness);

/// Calls gap(from, to) for every interval of start angle in which one column's strokes do not drop,
/// in order. Returns the weight of those that do.
template <class Gap>
double through_gaps(const StrokeMap& map, const Column& column, const Fineness& fineness, Gap gap) {
    const double least = column.middle_rad - fineness.tail * column.deviation_rad;
    const double most = column.middle_rad + fineness.tail * column.deviation_rad;
    double from = least, holed = 0;
    for (const Interval& drop : map.drops(column.level_roll_m)) {
        if (drop.hi < least || drop.lo > most) continue;
        if (from < drop.lo) gap(from, drop.lo);
        from = drop.hi;
        holed += column.below(drop.hi) - column.below(drop.lo);
    }
    if (from < most) gap(from, most);
    return column.weight * holed;
}

/// Visits one column's strokes that do not drop: miss(weight, angle). Returns the weight of
/// those that do.
template <class Miss>
double through_column(const StrokeMap& map, const Column& column, const Fineness& fineness,
                      Miss miss) {
    constexpr double nothing = 1e-9;
    return through_gaps(map, column, fineness, [&](double a, double b) {
        const double length = (b - a) / column.deviation_rad;
        const double share = column.below(b) - column.below(a);
        if (column.weight * share < nothing) return;
        const auto rule =
            gauss_legendre(3 + static_cast<int>(std::lround(fineness.angles * length)));
        double sum = 0;
        std::array<double, 48> density;
        for (std::size_t i = 0; i < rule.size(); ++i) {
            const double x = 0.5 * (a + b + (b - a) * rule[i].x);
            density[i] =
                rule[i].weight * normal_density((x - column.middle_rad) / column.deviation_rad);
            sum += density[i];
        }
        if (!(sum > 0)) return;
        for (std::size_t i = 0; i < rule.size(); ++i)
            miss(column.weight * share * density[i] / sum, 0.5 * (a + b + (b - a) * rule[i].x));
    });
}

/// Expected putts and the chance to hole, no more: some ten microseconds when coarse.
Prospect play(const StrokeMap& map, const StrokeSpread& spread, const ProspectTable& next,
              const Fineness& fineness);

}  // namespace dewtrail
