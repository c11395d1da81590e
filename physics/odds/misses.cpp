#include "physics/odds/misses.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

/// Adds the nodes of a piece of level rolls, dense at both ends: there the share that drops begins
/// like a square root.
template <class Add>
void add_panel(double a, double b, double deviation, double fineness, Add add) {
    if (!(a < b)) return;
    // Rounded, so that lengths which are whole numbers of deviations give no other number of nodes
    // in other units or mirrored.
    const int nodes =
        4 + static_cast<int>(std::lround(fineness * std::min(20.0, (b - a) / deviation)));
    for (const auto& [x, weight] : gauss_legendre(nodes)) {
        const double phase = 0.5 * M_PI * (1 + x);
        add(a + (b - a) * 0.5 * (1 - std::cos(phase)),
            (b - a) * 0.25 * M_PI * std::sin(phase) * weight);
    }
}

}  // namespace

std::vector<Column> columns_of(const StrokeMap& map, const StrokeSpread& spread,
                               const Fineness& fineness) {
    const double tail = fineness.tail;
    const auto& C = spread.covariance;
    const double deviation = std::sqrt(C(1, 1)), slant = C(0, 1) / C(1, 1);
    const double across = std::sqrt(C(0, 0) - slant * C(0, 1));
    const double mean = spread.level_roll_m;
    const double least = least_pace * mean;
    std::vector<Column> columns;
    const auto add = [&](double level, double length) {
        const double z = (level - mean) / deviation;
        columns.push_back({level, length, normal_density(z) / deviation * length,
                           spread.angle_rad + slant * (level - mean), across});
    };
    const double from = std::max(least, mean - tail * deviation), to = mean + tail * deviation;
    double done = from;
    const auto go_on = [&](double level) {
        const double next = std::clamp(level, done, to);
        add_panel(done, next, deviation, fineness.level_rolls, add);
        done = next;
    };
    for (const StrokePanel& panel : map.panels()) {
        go_on(panel.level_rolls.lo);
        go_on(panel.level_rolls.hi);
    }
    go_on(to);
    double total = 0;
    for (const Column& c : columns) total += c.weight;
    const double held = normal_below((least - mean) / deviation);
    for (Column& c : columns) c.weight *= (1 - held) / total;
    if (held > 1e-9)
        columns.push_back({least, 0, held, spread.angle_rad + slant * (least - mean), across});
    return columns;
}

Prospect play(const StrokeMap& map, const StrokeSpread& spread, const ProspectTable& next,
              const Fineness& fineness) {
    Prospect result{1, 0};
    for (const Column& column : columns_of(map, spread, fineness)) {
        const auto miss = [&](double weight, double angle) {
            result.putts += weight * next.putts_from(map.rest(angle, column.level_roll_m));
        };
        result.holed += through_column(map, column, fineness, miss);
    }
    return result;
}

}  // namespace dewtrail
