#pragma once

#include <optional>

#include "physics/roll/putt.hpp"

/// Clocks round the hole and gradients, each made from the other here and nowhere else. A ball at
/// 12 lies straight above the hole, at 3 to the right of it as seen from below.
namespace dewtrail {

/// Clock hours brought into (0, 12].
double on_the_dial(double hours);

/// From the hole toward a clock, where up the slope is +y. Quarters are exact, so that a ball at
/// 12 rolls straight downhill.
Vec2 clock_direction(double clock_h);
double clock_of_direction(const Vec2& from_hole);
/// Clockwise by so many hours.
Vec2 turned(const Vec2& v, double hours);

/// Grade along the ball-hole line and across it (falls left positive), rise over run.
struct AlongAcross {
    double up = 0, falls_left = 0;

    double slope() const;
};
/// Of a slope as seen by the player at a clock.
AlongAcross along_across(double slope, double clock_h);
/// Where the ball lies that sees the slope so; 6 on level ground.
double clock_of(const AlongAcross& at_hole);

/// Clock of a place round the hole; none where the slope at the hole is under 0.1 %.
std::optional<double> clock_of(const Putt& putt, const Vec2& place);
/// Of the ball.
std::optional<double> clock_of(const Putt& putt);

}  // namespace dewtrail
