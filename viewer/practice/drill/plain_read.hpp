#pragma once

#include <optional>
#include <string_view>

#include "physics/read/read.hpp"

/// The read that practice and review measure against.
namespace dewtrail {

/// The read with the finish that the putt asks for, without room and costs; none if there is none.
std::optional<Read> plain_read(const Putt& putt, double player_past_m);

/// The start line on which a ball hit this hard passes over the hole's centre.
struct FittingLine {
    double angle_rad = 0;  ///< from the ball-hole line, right positive
    bool reaches = true;   ///< false: too short to get there; the line is that of a dying ball
};

/// Good to 1e-6 rad. None where no ball dies at the hole, or the ball leaves the green first.
std::optional<FittingLine> line_for_pace(const Putt& putt, double level_roll_m);

/// The side of the hole that a ball is on, seen from the ball, by an offset that is right positive:
/// "low" toward which the ground at the hole falls across the line, "high"; under 0.1 % of cross
/// slope "left" and "right".
std::string_view miss_side(const Putt& putt, double offset_m);

}  // namespace dewtrail
