#pragma once

#include <cstdint>
#include <vector>

#include "viewer/picture/picture.hpp"

namespace dewtrail {

/// Triangles as pixels, since a canvas has none: RGBA, alpha not premultiplied, at this place of
/// the device. Empty where nothing of them is seen.
struct Raster {
    int x = 0, y = 0, w = 0, h = 0;
    std::vector<std::uint8_t> pixels;
};

/// What lies in `clip` of triangles, colours blended between their corners, later ones over earlier
/// ones; `scale` device pixels to one of the picture.
Raster rasterised(const std::vector<Mesh::Vertex>& triangles, const Rect& clip, double scale);

}  // namespace dewtrail
