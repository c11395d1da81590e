#pragma once

#include "viewer/picture/camera.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/putt/solved.hpp"

namespace dewtrail {

/// Sky, trees, rough, the green with its contours: what stands still while a ball rolls.
Picture eye_ground(const Solved& solved, const EyeCamera& eye, const Rect& pane, const Look& look);

}  // namespace dewtrail
