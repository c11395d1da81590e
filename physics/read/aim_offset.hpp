#pragma once

#include <optional>

#include "physics/roll/putt.hpp"

namespace dewtrail {

/// Where a start line passes level with the hole, from its centre, right positive; none from 90
/// degrees on, or beyond ten distances.
std::optional<double> aim_offset_m(const Putt& putt, double start_angle_rad);

}  // namespace dewtrail
