#pragma once

#include <string>

#include "viewer/paper/paper.hpp"

namespace dewtrail {

/// A page of the sheet as an SVG element, to be put into the page's own document and printed: its
/// texts are set in that document's fonts. As large on paper as the sheet is. Meshes are left out.
std::string svg_of(const Sheet& sheet, std::size_t page);

}  // namespace dewtrail
