#pragma once

#include "viewer/picture/camera.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/putt/solved.hpp"

namespace dewtrail {

/// The bottom right, where the eye's picture has its fall line: no height stands there.
Rect corner_of_fall_line(const Rect& pane, const Look& look);

/// Sky, trees, rough, the green and its contours: what stands still while a ball rolls. How it
/// tilts is seen without contours too: the horizon is level, the green is mown in squares that lie
/// on it, and what is lower than the hole is darker.
Picture eye_ground(const Solved& solved, const EyeCamera& eye, const Rect& pane, const Look& look,
                   bool contours = true);

}  // namespace dewtrail
