#pragma once

#include "viewer/picture/camera.hpp"
#include "viewer/picture/map/plan_picture.hpp"

namespace dewtrail {

/// The eye of a putt, with the ground's heights under ball and hole.
EyeCamera eye_of(const Solved& solved, EyePlace place, const Rect& pane);

/// The eye view of a read, all but the ground. `bar` and `drop` are those of the small fall line.
PlanPicture eye_picture(const Solved& solved, const Trail& trail, const EyeCamera& eye,
                        EyePlace place, const Rect& pane, const MapView& view, const Look& look,
                        std::vector<Label>& wishes);

/// The top of the flagstick, pixels: it is plumb however the ground tilts, 0.95 m high, and shorter
/// where it would leave the pane. None behind the eye.
std::optional<Vec2> flag_top(const Putt& putt, const EyeCamera& eye, const Rect& pane,
                             const Look& look);

/// A place of the green with its height.
EyeCamera::Point on_ground(const Putt& putt, const Vec2& at, double above_m = 0);

}  // namespace dewtrail
