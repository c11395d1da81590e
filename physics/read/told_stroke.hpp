#pragma once

#include "physics/roll/putt.hpp"

/// A stroke as players tell it: where it is aimed, and how far it would roll on the level.
namespace dewtrail {

/// The start angle of a ball that is aimed so far right of the hole's centre; `aim_offset_m` is its
/// inverse.
double start_angle_rad(const Putt& putt, double aim_offset_m);

/// The launch speed that rolls this far on the level, in the putt's conditions, m/s.
double launch_speed_m_s(const Putt& putt, double level_roll_m);

Stroke told_stroke(const Putt& putt, double aim_offset_m, double level_roll_m);

/// The level roll of a stroke hit like this level putt, which runs the usual past; an inch at the
/// least, so that the ball moves.
double level_roll_of_putt_m(double level_putt_m, double usual_past_m);

}  // namespace dewtrail
