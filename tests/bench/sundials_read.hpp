#pragma once

#include "tests/bench/plain_read.hpp"

namespace dewtrail::bench {

/// A read as a skilled user of SUNDIALS would write it: CVODES (Adams) with forward sensitivities
/// of x, y and their rates to launch angle and speed, roots for the closest pass and for the end,
/// and Newton's method. `tolerance` of the integrator, relative and absolute.
PlainRead sundials_read(const Putt& putt, double tolerance = 1e-10);

}  // namespace dewtrail::bench
