#pragma once

#include <vector>

#include "physics/read/room.hpp"

namespace dewtrail {

/// The edge of the connected region of strokes round `stroke` that drop: a closed polygon,
/// counter-clockwise with angle to the right and pace up, its last corner joined to the first.
/// Empty where the stroke does not drop.
///
/// Followed by steps that shorten where it bends; each corner is found on the margin between the
/// hole's limit and the speed at the rim, to 1e-6 of the step's unit (the angle that the hole's
/// radius spans, a tenth of the level roll between dying and the fastest that drops). Between
/// corners the edge bows by less than 0.02 units. The ends of `room` are corners. Angles beyond
/// 90 degrees and paces beyond those of Room count as no drop; so do holes in the region.
///
/// About a thousand rolls to the rim: some milliseconds on a plane that holds a ball, tens on a
/// green.
std::vector<StrokeOff> room_outline(const Putt& putt, const Stroke& stroke, const Room& room);

}  // namespace dewtrail
