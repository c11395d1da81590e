#pragma once

#include "viewer/paper/paper.hpp"
#include "viewer/putt/solved.hpp"

namespace dewtrail {

/// One read: the plan drawn to scale, uphill up the page (on a green: up its plan), the note's
/// account below it, and boxes to tally ten putts. std::invalid_argument if `solved`, which is
/// the set-up solved, has no read.
Picture read_page(const Setup& setup, const Solved& solved, Paper paper, const Units& units);

}  // namespace dewtrail
