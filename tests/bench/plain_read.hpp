#pragma once

#include <optional>

#include "physics/read/read.hpp"

/// The read as a careful user of Odeint would write it without this library: Cartesian state in
/// plain time, dopri5 with dense output, the pass found by bisection on it, Newton by finite
/// differences.
namespace dewtrail::bench {

struct PlainRead {
    std::optional<Stroke> stroke;  ///< none if Newton gave up
    long evaluations = 0;          ///< of the right-hand side
};

/// For a distance past above zero. Tolerance of the integration: per step, absolute and relative.
PlainRead plain_read(const Putt& putt, double tolerance = 1e-9);

/// One roll of the same kind to rest; where it ends.
Vec2 plain_roll(const Putt& putt, const Stroke& stroke, double tolerance = 1e-9);

}  // namespace dewtrail::bench
