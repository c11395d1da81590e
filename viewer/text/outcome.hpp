#pragma once

#include <string>
#include <string_view>

#include "greens/units.hpp"
#include "physics/read/read.hpp"

namespace dewtrail {

/// A side of the hole: the low one, toward which the green falls across the line, and the high one.
/// Where it is level across, under 0.1 %, the player's own left and right.
enum class HoleSide { left, right, low, high };

/// `offset_m`: right of the hole positive; `rises_right`: rise over run of the green to the right.
HoleSide side_of(double offset_m, double rises_right);
/// By the ground at the hole, across the ball-hole line.
HoleSide side_of(const Putt& putt, double offset_m);

/// 'low', 'left'.
std::string_view side_word(HoleSide side);
/// 'low side', 'left'.
std::string side_words(HoleSide side);

/// How a stroke ended.
struct Outcome {
    bool holed = false;
    bool too_fast = false;  ///< reached the rim and did not drop
    bool short_of = false;  ///< turned back or came to rest before the hole
    double offset_m = 0;    ///< where it passes nearest the hole, or rests: right positive
    double before_m = 0;    ///< how far before the hole that is, along the ball-hole line
    double miss_m = 0;      ///< distance from the hole centre there
    double leave_m = 0;     ///< and where it ends
    HoleSide side = HoleSide::left;

    /// Nothing but short: on a line over the hole.
    bool plainly_short() const;
};

Outcome outcome_of(const Putt& putt, const Read& rolled);

/// 'holed', '6 in low', '3 in high', '2 in right', 'over the hole', 'short', '4 in low, short'.
std::string outcome_words(const Outcome& outcome, const Units& units);

/// The same as the end of a sentence about a ball: 'drops', 'misses 6 in low', 'comes up short'.
std::string outcome_phrase(const Outcome& outcome, const Units& units);

}  // namespace dewtrail
