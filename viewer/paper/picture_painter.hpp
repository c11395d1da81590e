#pragma once

#include <cairo.h>

#include "viewer/picture/picture.hpp"

/// The one place that draws with cairo.
namespace dewtrail {

/// On paper meshes are left out: they are grass, and ink.
enum class Meshes { drawn, left_out };

/// Draws the shapes of a picture one after the other. OutsideError where no font can be read.
void paint(cairo_t* context, const Picture& picture, Meshes meshes);

/// Measures with the fonts that pages are set in, unhinted.
TextWidth paper_width();

}  // namespace dewtrail
