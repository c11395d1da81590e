#pragma once

#include <optional>
#include <string>

#include "greens/units.hpp"
#include "physics/read/read.hpp"

namespace dewtrail {

/// How a stroke ended.
struct Outcome {
    bool holed = false;
    bool too_fast = false;    ///< reached the rim and did not drop
    bool short_of = false;    ///< came to rest before the hole
    double offset_m = 0;      ///< where it passes nearest the hole, or rests: right positive
    double miss_m = 0;        ///< distance from the hole centre there
    double leave_m = 0;       ///< and where it ends
    std::optional<bool> low;  ///< on the low side; none where the green is level across the line
};

Outcome outcome_of(const Putt& putt, const Read& rolled);

/// Whether that side (right positive) is the low one: toward which the ground at the hole falls
/// across the ball-hole line. None under 0.1 %.
std::optional<bool> is_low_side(const Putt& putt, double offset_m);

/// 'holed', '6 in low', '3 in high', '2 in right', 'over the hole', 'short', '4 in low, short'.
std::string outcome_words(const Outcome& outcome, const Units& units);

/// The same as the end of a sentence about a ball: 'drops', 'misses 6 in low', 'comes up short'.
std::string outcome_phrase(const Outcome& outcome, const Units& units);

}  // namespace dewtrail
