#pragma once

#include <optional>
#include <vector>

#include "physics/read/plane_line.hpp"

/// A second way to the putts on a plane: the classical hodograph in u = tan(psi/2), psi the heading
/// from straight downhill, in extended precision and solved by bisection over u at the launch.
/// It shares no formula and no root finder with physics/read/plane_line.cpp, which runs over how
/// far the heading has turned. Everything here is in the slope plane, SI: across and downhill.
namespace dewtrail::oracle {

using Real = long double;

/// One roll: pull s = (5/7) g sin(theta), k = friction over pull, launch speed and u0 =
/// tan(psi0/2).
struct PlaneRoll {
    Real pull, k, speed, u0;

    struct Point {
        Real across, downhill, time, arc, speed;
    };

    /// Where the heading has turned to u, 0 < u <= u0. k not 1/2 or 1.
    Point at(Real u) const;
    /// At rest; k > 1.
    Point rest() const;
    /// v sin(psi) / u^k, which keeps its value all along a path.
    Real constant() const;
};

/// A putt on a plane, as asked of lines_on_plane.
struct PlanePutt {
    Vec2 gradient;
    double resistance;
    Vec2 hole_from_ball;
    Finish finish;
};

/// One line of it, in plan coordinates, right of the ball-hole line positive.
struct PlaneLine {
    Real angle_rad, speed_m_s;
    Real time_s, hole_speed_m_s;  ///< at the hole centre
    std::optional<Real> past_m;   ///< none where k <= 1
    Real apex_along_m, apex_offset_m;
};

struct PlaneAnswer {
    std::vector<PlaneLine> lines;  ///< smallest angle first
    std::optional<Real> least_arrival_m_s;
};

/// Exact to about 1e-14, except within 1e-6 of the least arrival, where two lines merge.
PlaneAnswer solve(const PlanePutt& putt);

}  // namespace dewtrail::oracle
