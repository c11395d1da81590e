#pragma once

#include <optional>

#include "physics/hole/hole.hpp"

/// Limits of capture to judge the table by: rolled, and as published.
namespace dewtrail {

/// The lowest speed at the rim (m/s) at which a ball at this offset escapes, found by rolling it:
/// speeds are tried from slow to fast, 0.01 m/s apart, and the first change from holed to not holed
/// is narrowed to 1e-6 m/s. Balls that roll back over the edge they came by, being too slow for an
/// upward slope, do not count as escapes. None if no speed up to 3 m/s is holed and then escapes.
/// `arrival.speed_m_s` is not used. A few milliseconds a call. Throws as roll_into_hole does.
std::optional<double> simulated_capture_limit_m_s(RimArrival arrival, const HoleModel& model = {});

/// Penner's parabola: the fastest a ball may be at the rim and still drop,
/// 1.63 (1 - (offset/R)^2) m/s; 0 from the rim's edge outward (A. R. Penner, Can. J. Phys. 80,
/// 83-96, 2002; from memory). Level green; made for the middle of the hole, too strict at its edge.
///
/// `offset_m`: how far the ball's line at the rim passes from the hole centre; its sign is ignored.
double penner_limit_m_s(double offset_m);

}  // namespace dewtrail
