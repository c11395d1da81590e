#pragma once

#include <string>

#include "greens/green.hpp"
#include "physics/odds/next_putts.hpp"
#include "viewer/paper/paper.hpp"

/// Greens from above, up the plan upward, in the colours of a dewy morning: hill-shade, lines,
/// holes with the way they fall, a scale. 1280 units wide.
namespace dewtrail {

/// Contours with their heights from a hole, all holes and ball spots. std::invalid_argument if the
/// hole is not on the green.
Sheet green_picture(const Green& green, const std::string& hole, const Units& units);

/// One hole with lines of equal expected putts: where to leave the ball.
struct PuttsMap {
    const Surface& surface;
    const Outline& outline;
    Vec2 hole;
    const NextPutts& next;
    std::string title, below;  ///< `below`: whose spread it is
};
Sheet putts_picture(const PuttsMap& map, const Units& units);

}  // namespace dewtrail
