#pragma once

#include "physics/hole/hole.hpp"

namespace dewtrail {

/// The lowest speed at the rim (m/s) at which the standard ball, at friction 0.4, escapes the hole,
/// from a table made by rolling it at one speed after the other (tests/support/capture_limits).
///
/// offset_m: of the ball's line from the hole's centre, at the rim, right positive.
/// slope_along, slope_right: rise over run of the green along the arrival and to its right, as in
/// RimArrival; sizes beyond 0.2 and 0.1 count as those. The limit is linear in the first; in the
/// second nearly so, except toward the edge.
/// Once differentiable in |offset|/R < 1 but where it meets 0; falling with |offset_m| (a slope
/// across moves its top a few hundredths of R off the centre); even on a level cross slope; 0 from
/// the rim's radius on, never negative. 20 to 30 ns. Throws nothing; what is not a number gives 0.
///
/// Accuracy: the largest differences from the search are the constants below.
double capture_limit_m_s(double offset_m, double slope_along = 0, double slope_right = 0);

inline constexpr double capture_limit_error_level_m_s = 0.003;  ///< every offset
inline constexpr double capture_limit_error_gentle_m_s =
    0.005;  ///< slope to 0.02, offset to 0.97 R
/// Slope to 0.05, offset to 0.95 R, but for the kink.
inline constexpr double capture_limit_error_tilted_m_s = 0.006;
/// Slope to 0.05 there, 0.71 to 0.75 R, where the flight takes over from the rim: a slope across
/// moves the kink by up to 0.01 R, which the table's rows cannot follow.
inline constexpr double capture_limit_error_kink_m_s = 0.014;
/// Slope to 0.05, beyond 0.95 R: a green that falls away to the ball's side turns every slow ball
/// back, so that none drops, at an offset where the table still gives this much.
inline constexpr double capture_limit_error_edge_m_s = 0.17;

}  // namespace dewtrail
