#pragma once

#include <cstdint>

#include "physics/odds/odds.hpp"

namespace dewtrail {

struct MonteCarloOptions {
    int strokes = 1'000'000;
    std::uint64_t seed = 1;
    int threads = 1;
    /// Balls that strike the rim too fast leave it as the rigid body does, not as if the hole were
    /// covered. Tens of microseconds for each of them.
    bool through_the_hole = false;
};

/// The same odds by rolling strokes drawn from the spread, each on its own by closed form or
/// integration: no map, no edges. The same bits for the same seed whatever the number of threads.
/// usual_leave_m is exact to 5 mm.
Odds monte_carlo_odds(const Putt& putt, const StrokeSpread& spread, const NextPutts& next,
                      const MonteCarloOptions& options = {});

}  // namespace dewtrail
