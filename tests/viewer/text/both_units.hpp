#pragma once

#include <limits>

#include "greens/units.hpp"

/// How the tests of words and figures call the units and a number that is not known.
namespace dewtrail {

inline constexpr Units imperial{};
inline constexpr Units metric{.metric = true};
inline constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

}  // namespace dewtrail
