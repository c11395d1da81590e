#pragma once

#include "viewer/putt/solved.hpp"

namespace dewtrail {

/// A bare putt at stimp 10, a foot past.
inline Solved solved_putt(double distance_ft, double slope, double clock_h) {
    Setup setup;
    setup.distance_m = distance_ft * metres_per_foot;
    setup.slope = slope;
    setup.clock_h = clock_h;
    return solve(setup, usual_past_m, Effort::settled);
}

}  // namespace dewtrail
