#pragma once

#include "physics/roll/putt.hpp"

namespace dewtrail {

/// Mean of what `at` says of nine places from the ball to the hole.
template <class At>
Vec2 mean_on_line(const Putt& putt, At at) {
    constexpr int steps = 8;
    Vec2 sum = Vec2::Zero();
    for (int i = 0; i <= steps; ++i) sum += at(putt.ball + putt.line() * (double(i) / steps));
    return sum / (steps + 1);
}

}  // namespace dewtrail
