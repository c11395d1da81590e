#pragma once

#include <string>

#include "greens/units.hpp"
#include "physics/odds/next_putts.hpp"
#include "physics/surface/outline.hpp"

namespace dewtrail {

/// A green and one hole on it, seen from above, with lines of equal expected putts: where to leave
/// the ball. `below` goes under the title: whose spread it is. Looks and size as green_picture.
/// std::runtime_error if cairo fails.
struct PuttsPictureOptions {
    Units units;
    std::string title, below;
};
std::string putts_png(const Surface& surface, const Outline& outline, const Vec2& hole,
                      const NextPutts& next, const PuttsPictureOptions& options);
std::string putts_svg(const Surface& surface, const Outline& outline, const Vec2& hole,
                      const NextPutts& next, const PuttsPictureOptions& options);

}  // namespace dewtrail
