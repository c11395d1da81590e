#pragma once

#include <cmath>

#include "physics/base/ball_and_hole.hpp"

/// Units in which tests write their numbers: 12 * foot, 3 * degree.
namespace dewtrail::oracle {

inline constexpr double inch = metres_per_inch, foot = metres_per_foot;
inline constexpr double degree = M_PI / 180;

}  // namespace dewtrail::oracle
