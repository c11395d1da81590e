#pragma once

#include <cairo.h>

#include "viewer/paper/paper.hpp"

/// The one place that draws with cairo.
namespace dewtrail {

/// Draws the shapes of a picture one after the other. OutsideError where no font can be read.
void paint(cairo_t* context, const Picture& picture, Meshes meshes);

}  // namespace dewtrail
