#pragma once

#include <string>

#include "greens/green.hpp"
#include "greens/units.hpp"

namespace dewtrail {

struct GreenPictureOptions {
    Units units;
    std::string hole;  ///< heights count from it; empty: the first by name
};

/// A green from above, up the plan upward, in the colours of a dewy morning: hill-shade, contours
/// with heights from a hole, holes with the way they fall, ball spots, a scale. 1280 units wide;
/// the picture has two pixels to a unit. The whole file's bytes; nothing is written.
/// std::invalid_argument if the hole is not on the green; std::runtime_error if cairo fails.
std::string green_png(const Green& green, const GreenPictureOptions& options);
std::string green_svg(const Green& green, const GreenPictureOptions& options);

}  // namespace dewtrail
