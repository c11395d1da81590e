#include "physics/hole/hole_capture.hpp"

#include <algorithm>
#include <cmath>

#include "physics/hole/hole_capture_table.hpp"

namespace dewtrail {

namespace {

constexpr double edge_fall_m_s = 100;

using hole::capture_rows;
using hole::capture_table;
using hole::CaptureRow;

/// Mirrored at the centre, where a slope across changes sides; extrapolated linearly at the edge.
CaptureRow row(int i) {
    if (i < 0) {
        CaptureRow mirrored = capture_table[-i];
        mirrored.per_side = -mirrored.per_side;
        return mirrored;
    }
    if (i < capture_rows) return capture_table[i];
    const CaptureRow &last = capture_table[capture_rows - 1],
                     &before = capture_table[capture_rows - 2];
    return {2 * last.over_chord - before.over_chord, 2 * last.per_along - before.per_along,
            2 * last.per_side - before.per_side, 2 * last.side_bend - before.side_bend};
}

/// Cubic through neighbouring rows with their central differences as slopes: once differentiable.
CaptureRow table_row(double q) {
    const double place = q * (capture_rows - 1);
    const int i = std::min(static_cast<int>(place), capture_rows - 2);
    const double t = place - i;
    const double w0 = -0.5 * t * (1 - t) * (1 - t), w3 = -0.5 * t * t * (1 - t);
    const double w1 = 1 - t * t * (2.5 - 1.5 * t), w2 = t * (0.5 + t * (2 - 1.5 * t));
    const CaptureRow a = row(i - 1), b = row(i), c = row(i + 1), d = row(i + 2);
    const auto blend = [&](double CaptureRow::*x) {
        return w0 * a.*x + w1 * b.*x + w2 * c.*x + w3 * d.*x;
    };
    return {blend(&CaptureRow::over_chord), blend(&CaptureRow::per_along),
            blend(&CaptureRow::per_side), blend(&CaptureRow::side_bend)};
}

/// Past the pole of the table's form no speed is captured at all.
double side_effect(const CaptureRow& at, double slope) {
    return at.per_side * slope / std::max(1 + at.side_bend * slope, 1e-3);
}

}  // namespace

double capture_limit_m_s(double offset_m, double slope_along, double slope_right) {
    const double q = std::abs(offset_m) / hole_radius_m;
    if (!(q < 1)) return 0;
    const double along = std::clamp(slope_along, -0.2, 0.2);
    const double to_ball_side = std::clamp(std::copysign(1.0, offset_m) * slope_right, -0.1, 0.1);
    const CaptureRow at = table_row(q);
    const double limit =
        at.over_chord * std::sqrt(1 - q * q) + at.per_along * along + side_effect(at, to_ball_side);
    // With a slope some limit would be left at the rim's very edge; it ends there without a step.
    return std::max(0.0, std::min(limit, edge_fall_m_s * (1 - q)));
}

}  // namespace dewtrail
