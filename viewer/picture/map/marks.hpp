#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "viewer/picture/picture.hpp"
#include "viewer/putt/solved.hpp"
#include "viewer/putt/trail.hpp"

namespace dewtrail {

/// From a place of the green (metres) to the window; none where it cannot be seen.
using Projection = std::function<std::optional<Vec2>(const Vec2&)>;

/// Radius of the triangle at an apex that no other mark is near, in units of the design.
inline constexpr double usual_apex_u = 12;

/// Where the marks of a read stand in the window, pixels. The same for plan and eye.
struct Marks {
    std::optional<Vec2> ball, hole, aim, stand_in, start_spot, apex;
    std::optional<Vec2> turn;     ///< of a path that breaks both ways: the one that is not the apex
    std::optional<Vec2> rolling;  ///< the ball on its way
    struct Finish {
        std::string name;
        Vec2 at;
    };
    std::vector<Finish> finishes;                           ///< aims of those not picked
    Vec2 line_from = Vec2::Zero(), line_to = Vec2::Zero();  ///< the start line as drawn
    bool line_seen = false;
    double hole_px = 10, ball_px = 7;                     ///< radii as drawn
    double apex_u = usual_apex_u, turn_u = usual_apex_u;  ///< the same, in units of the design
    bool together = false;  ///< aim spot and stand-in hole nearer than `nearest_px`: one label
    Vec2 high_side = Vec2(0, -1);  ///< unit, on the screen: from the ball-hole line to the aim
    Vec2 apex_side = Vec2(0, -1);  ///< and to the apex: the same but on some paths that turn
    bool upright = false;          ///< the eye's: apex and turn stand on their feet

    Vec2 turn_side() const { return upright ? apex_side : Vec2(-apex_side); }
};

Marks marks_of(const Solved& solved, const Projection& project, double nearest_px);

/// On the way from a to b: what only one of them has stands where b has it.
Marks between(const Marks& a, const Marks& b, double t);

/// Aim of one of the finishes offered, as a place of the green.
Vec2 place_of_aim(const Putt& putt, double aim_offset_m);

}  // namespace dewtrail
