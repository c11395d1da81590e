#pragma once

#include <cstdint>

#include "physics/odds/next_putts.hpp"

namespace dewtrail::oracle {

/// Putts until holed, rolled out: mean, and its standard error.
struct RolledOut {
    double putts = 0, error = 0;
};

/// Plays one stroke's spread again and again until the ball is in. After a miss the putt from where
/// it lies is read anew on the ground as it is, for the finish and aim that the table chose at the
/// spot nearest to there, and struck with the player's spread. Shares with the table its choices
/// and nothing else: no map, no plane in place of the green, no interpolation of what is expected.
RolledOut roll_out(const Putt& putt, const StrokeSpread& first, const NextPutts& next,
                   const Scatter& scatter, int sequences, std::uint64_t seed);

}  // namespace dewtrail::oracle
