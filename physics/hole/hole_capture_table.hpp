#pragma once

#include <array>

namespace dewtrail::hole {

/// One offset of the capture table: standard ball and hole, friction 0.4.
struct CaptureRow {
    double over_chord;  ///< level limit / sqrt(1 - (offset/R)^2), m/s: finite at the edge
    double per_along;   ///< change of the limit per unit slope along the arrival, m/s
    double per_side;   ///< the same per unit slope s rising toward the ball's side of the hole, ...
    double side_bend;  ///< ... which changes the limit by per_side s / (1 + side_bend s)
};

/// Rows for offset/R = 0, 0.01 ... 1.
inline constexpr int capture_rows = 101;
extern const std::array<CaptureRow, capture_rows> capture_table;

}  // namespace dewtrail::hole
