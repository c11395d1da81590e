#pragma once

#include "viewer/picture/camera.hpp"
#include "viewer/picture/map/read_labels.hpp"

namespace dewtrail {

/// The plan of a read, all but the ground, and where its parts came to lie.
struct PlanPicture {
    Picture picture;
    Marks marks;
    Vec2 bar = Vec2::Zero(), drop = Vec2::Zero();  ///< ends of the fall line
    Rect fall_line, slope_figure;                  ///< it and its figure, for the wheel
    std::vector<PlacedLabel> labels;
    std::vector<Rect> taken;  ///< what the heights of the ground keep clear of
};

/// `labels_kept`: label ids and boxes refer to `wishes`, kept here so that placed labels stay
/// valid.
PlanPicture plan_picture(const Solved& solved, const Trail& trail, const PlanCamera& camera,
                         const Rect& pane, const MapView& view, const Look& look,
                         std::vector<Label>& wishes);

/// What the plan has to show: ball, hole, aim spot, stand-in hole, apex and rest.
std::vector<Vec2> to_be_seen(const Solved& solved);

/// How far the green is turned for the plan: uphill is up, but in portrait the hole is, as the
/// player stands.
double plan_turn(const Layout& layout, const Putt& putt);

/// Which way the player's right is on the plan, a unit on the screen; none where the player faces
/// up the picture, more or less, and it is the picture's own.
std::optional<Vec2> right_where_turned(const PlanCamera& camera, const Putt& putt);

/// Colour that outlines marks and texts: the grass in the middle.
Colour surface_colour(const Palette& colours);

}  // namespace dewtrail
