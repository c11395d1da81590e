#pragma once

#include "viewer/paper/sheet.hpp"
#include "viewer/putt/solved.hpp"

namespace dewtrail {

/// One read: the plan drawn to scale, uphill up the page (on a green: up its plan), the note's
/// words below it, and boxes to tally ten putts. `words`: the putt, as the command line describes
/// it. The putt must have a read, else std::invalid_argument.
Picture read_page(const Solved& solved, const std::string& words, Paper paper, const Units& units);

}  // namespace dewtrail
