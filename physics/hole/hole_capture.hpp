#pragma once

#include <optional>

#include "physics/hole/capture.hpp"  // Penner's parabola, for comparison
#include "physics/hole/hole.hpp"

namespace dewtrail {

/// The lowest speed at the rim (m/s) at which a ball at this offset escapes, found by rolling it:
/// speeds are tried from slow to fast, 0.01 m/s apart, and the first change from holed to not holed
/// is narrowed to 1e-6 m/s. Balls that roll back over the edge they came by, being too slow for an
/// upward slope, do not count as escapes. None if no speed up to 3 m/s is holed and then escapes.
/// `arrival.speed_m_s` is not used. A few milliseconds a call. Throws as roll_into_hole does.
std::optional<double> simulated_capture_limit_m_s(RimArrival arrival, const HoleModel& model = {});

/// The same limit for the standard ball and hole at friction 0.4, from a table made by that search.
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
inline constexpr double capture_limit_error_tilted_m_s =
    0.012;  ///< slope to 0.05, offset to 0.95 R
/// Slope to 0.05, beyond 0.95 R: a green that falls away to the ball's side turns every slow ball
/// back, so that none drops, at an offset where the table still gives this much.
inline constexpr double capture_limit_error_edge_m_s = 0.17;

}  // namespace dewtrail
