#pragma once

#include <utility>
#include <vector>

#include "viewer/practice/habits/bias.hpp"

namespace dewtrail {

/// Values and their weights, which need not add up to 1.
using Weighted = std::vector<std::pair<double, double>>;

/// Mean and the middle 90 %; between two values the weight is spread evenly.
Credible credible_of(Weighted values);

}  // namespace dewtrail
