#pragma once

#include "physics/odds/next_putts.hpp"
#include "support/putts.hpp"
#include "support/units.hpp"

/// Players, and what they do next, for the tests of odds.
namespace dewtrail {

using oracle::degree;

inline const Scatter tour{1.06 * degree, 0.088, 0.061, 0.002, 8 * degree},
    middle{1.65 * degree, 0.14, 0.091, 0.005, 6 * degree},
    high{2.02 * degree, 0.172, 0.11, 0.0075, 5.3 * degree};

/// As if the green had no edge and the day no conditions.
inline NextPutts next_at(const Putt& putt, const Scatter& scatter) {
    return {*HoleSurround::make(putt.surface, putt.resistance, putt.hole), scatter};
}

inline Stroke line_of(const Putt& putt) {
    return read(putt, oracle::line_only()).lines.front().stroke;
}

}  // namespace dewtrail
