#pragma once

#include "greens/contours.hpp"
#include "physics/surface/surface.hpp"
#include "viewer/paper/pen.hpp"

namespace dewtrail {

/// Paints grass with its hill-shade, as the window does, from a box of the green over
/// one of the page. Clip before.
void paint_shade(Pen& pen, const Surface& surface, const Box& green_m, const Box& page,
                 const Palette& colours);

}  // namespace dewtrail
