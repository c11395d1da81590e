#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "physics/odds/scatter.hpp"
#include "viewer/text/outcome.hpp"

namespace dewtrail {

/// One stroke of many at the same putt.
struct PlayedStroke {
    PlayerPoint end;  ///< where it ends, from the hole: along past it, offset to its right
    Outcome outcome;
};

/// The same putt played many times by one player.
struct PlayedPutts {
    std::string name;
    double share_of_break = 1;  ///< what the player sees of it
    std::vector<PlayedStroke> strokes;

    int holed() const;
    int missed() const { return static_cast<int>(strokes.size()) - holed(); }
    int missed_low() const;
    int missed_high() const;
    int over_the_hole() const;  ///< reached the rim, too fast to drop
    int stopped_short() const;  ///< of all, on whichever side
};

/// Strokes drawn from a spread (its misread of the slope left out: the share is the misread) round
/// the read's pace, aimed at this share of its break. The same strokes for the same seed, whatever
/// the share. `read` must have an aim spot, else std::invalid_argument.
PlayedPutts play_putts(const Putt& putt, const Read& read, double share_of_break,
                       const Scatter& scatter, int count, std::uint64_t seed);

}  // namespace dewtrail
