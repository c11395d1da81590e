#pragma once

#include <cstdint>
#include <vector>

#include "viewer/web/drawing.hpp"

namespace dewtrail {

/// Triangles as pixels, for a browser without WebGL, whose canvas has none: RGBA, alpha not
/// premultiplied, at this place of the device. Empty where nothing of them is seen.
struct Raster {
    int x = 0, y = 0, w = 0, h = 0;
    std::vector<std::uint8_t> pixels;
};

/// What lies in `clip` of so many corners' triangles, colours blended between them, later ones over
/// earlier ones; `scale` device pixels to one of the picture.
Raster rasterised(const Drawing::Corner* corners, std::size_t count, const Rect& clip,
                  double scale);

}  // namespace dewtrail
