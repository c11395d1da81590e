#pragma once

#include <optional>

#include "viewer/picture/map/plan_picture.hpp"

/// The ball clock of the plan: a hairline circle at the ball's distance, 12 up the slope.
namespace dewtrail {

struct ClockRing {
    Vec2 hole;          ///< its middle, pixels
    double radius = 0;  ///< pixels
    double ball_h = 0;  ///< where the ball lies, hours
    Vec2 up;            ///< toward 12 on the screen, unit

    Vec2 at(double hours) const;
    std::vector<Vec2> circle() const;
};

/// None where the ground is level, or so nearly level that the clock says nothing.
std::optional<ClockRing> ring_of(const Solved& solved, const PlanCamera& camera,
                                 const Marks& marks);

/// A tick for every five minutes, a long one for each half hour.
void draw_clock_ring(Picture& picture, const ClockRing& ring, const Rect& pane, const Look& look);

/// Times of the dial where nothing else is; they are added to `out.taken`.
void write_hours(PlanPicture& out, const ClockRing& ring, std::vector<Rect> obstacles,
                 const Rect& pane, const Look& look, Colour surface);

}  // namespace dewtrail
