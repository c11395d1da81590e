#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <type_traits>

namespace dewtrail {

/// Weights of a cubic through four neighbours (Catmull & Rom), at t between the middle two.
inline std::array<double, 4> cubic_weights(double t) {
    return {-0.5 * t * (1 - t) * (1 - t), 1 - t * t * (2.5 - 1.5 * t),
            t * (0.5 + t * (2 - 1.5 * t)), -0.5 * t * t * (1 - t)};
}

/// Four neighbouring rows of a table, and what they weigh at a place between the middle two.
struct CubicCell {
    int first;  ///< of four; may be -1
    std::array<double, 4> weights;

    CubicCell(double place, int rows)
        : first(std::clamp(static_cast<int>(std::floor(place)), 0, rows - 2) - 1),
          weights(cubic_weights(place - (first + 1))) {}
};

/// The table at a cell, `at(row)` being its rows; beyond either end extrapolated by a parabola.
template <class At>
auto blend(At at, const CubicCell& cell, int rows) {
    using Row = std::decay_t<decltype(at(0))>;
    const auto row = [&](int i) {
        if (i < 0) return Row(3 * at(0) - 3 * at(1) + at(2));
        if (i >= rows) return Row(3 * at(rows - 1) - 3 * at(rows - 2) + at(rows - 3));
        return Row(at(i));
    };
    Row sum = cell.weights[0] * row(cell.first);
    for (int k = 1; k < 4; ++k) sum += cell.weights[k] * row(cell.first + k);
    return sum;
}

}  // namespace dewtrail
