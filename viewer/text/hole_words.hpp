#pragma once

#include <string>

#include "physics/read/read.hpp"

/// What happened to a ball at the hole, in the words of the trade.
namespace dewtrail {

/// 'drops', 'drops off the back', 'drops off the low side', 'rides the rim and drops', 'lips out',
/// 'hops over'. A ball that never reached the hole 'passes'.
std::string how_words(const Putt& putt, const HoleMeeting& meeting);
std::string how_words(const Putt& putt, const OpenRoll& roll);

/// How it ended, for a line of its own: 'in the hole, over the front, right of centre', and if it
/// did not simply drop 'in the hole, over the front: rides the rim and drops'; 'lipped out, low
/// side'; 'hopped over the hole'; 'lipped out, low side, and came back in';
/// 'burned the edge, low side' of a ball that the rim turned by less than 3°. Empty if it never
/// reached the hole.
std::string verdict_at_hole(const Putt& putt, const OpenRoll& roll);

/// Where on the rim it came, hours of clock as the player faces the hole: 6 nearest, 3 right.
double entry_clock_h(const Putt& putt, const PathPoint& rim);

}  // namespace dewtrail
