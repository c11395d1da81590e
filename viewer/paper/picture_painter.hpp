#pragma once

#include "viewer/paper/pen.hpp"

namespace dewtrail {

/// Draws the shapes of a picture one after the other. On paper meshes are left out: they are grass,
/// and ink.
enum class Meshes { drawn, left_out };
void paint(Pen& pen, const Picture& picture, Meshes meshes);

/// Measures with the fonts that pages are set in, unhinted.
TextWidth paper_width();

}  // namespace dewtrail
