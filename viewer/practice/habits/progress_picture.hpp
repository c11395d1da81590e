#pragma once

#include "viewer/picture/layout.hpp"
#include "viewer/picture/picture.hpp"
#include "viewer/practice/habits/progress.hpp"

namespace dewtrail {

/// How practice goes, in a box of the window or of a page: putts lost over time, the weekly tests,
/// and what there is to say, as far as there is room.
void draw_progress(Picture& picture, const Progress& progress, const Rect& box, const Look& look);

}  // namespace dewtrail
