#pragma once

#include <cmath>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "viewer/picture/camera.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/putt/solved.hpp"

/// The ground of the plan: grass, hill-shade, contours with their heights, dew.
namespace dewtrail {

/// One dot of dew: a place in the pane (0 to 1 both ways), radius in units, opacity share.
struct DewDot {
    double x, y, radius_u, share;
};
/// The same dots every time.
const std::vector<DewDot>& dew_dots();

/// Lines where a measure of the ground has one value: bold ones with a figure, thin ones halfway.
struct GroundLines {
    const Surface& measure;
    double base, apart;  ///< bold lines at base ± 1, 2, 3 … times `apart`
    std::function<std::string(double above_base)> figure;
    int cells = 112;
    double thin_from = -HUGE_VAL;  ///< no thin line of a smaller value
};

/// The ground of a plan; heights count from the hole.
struct PlanGround {
    const Surface& surface;
    const Outline* outline;  ///< none: the ground goes on
    Vec2 hole;
    double slope;                        ///< at the hole, rise over run
    Picture veil{};                      ///< lies on the grass, under contours and heights
    double lines_apart_u = 90;           ///< of bold contours where the slope is the usual one
    bool figures_anywhere = false;       ///< not in columns alone: loops have theirs as well
    std::optional<GroundLines> lines{};  ///< instead of contours
    bool has_lines = true;
};

/// The lines that plan_ground draws there; none on ground as good as level.
std::optional<GroundLines> lines_of(const PlanGround& ground, const PlanCamera& camera,
                                    const Rect& pane, const Look& look);

/// Grass, shade, contours and heights of the pane: what stands still while a ball is dragged.
/// Heights are set in gaps of their lines, in one column, and yield to `taken` and `words`; lines
/// stop at `words`, which they would seem to strike out.
Picture plan_ground(const PlanGround& ground, const PlanCamera& camera, const Rect& pane,
                    const std::vector<Rect>& taken, const Look& look,
                    const std::vector<Rect>& words = {});
Picture plan_ground(const Solved& solved, const PlanCamera& camera, const Rect& pane,
                    const std::vector<Rect>& taken, const Look& look,
                    const std::vector<Rect>& words = {}, bool contours = true);

/// Boxes of the upright texts of a picture: where contours stop under it.
std::vector<Rect> boxes_of_words(const Picture& picture, const Look& look);

/// The dew of a pane, without the dots that lie within `half_width` of the wiped line or in a dry
/// place.
void add_dew(Picture& picture, const Rect& pane, const std::vector<Vec2>& wiped, double half_width,
             const std::vector<Rect>& dry, const Look& look);

/// Shade of a slope lit from the upper right: lightness to add, -0.09 to 0.09; 0 on the level.
double hill_shade(const Vec2& gradient);

/// Grass at a place of the pane, lightest toward the upper right.
Colour grass_at(double x_share, double y_share, const Palette& colours);

}  // namespace dewtrail
