#pragma once

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {

/// Between these lengths the tests of measures call putts.
inline constexpr double least_called_m = 6 * metres_per_foot, most_called_m = 20 * metres_per_foot;

}  // namespace dewtrail
