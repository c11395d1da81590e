#pragma once

#include <vector>

#include "physics/read/read.hpp"

/// The putts that everything is timed on, and what is exact about them.
namespace dewtrail::bench {

/// Bare planes: stimp 8 to 12, 1 to 4 %, 6 to 30 ft, round the clock, 12 in past.
const std::vector<Putt>& plane_putts();

/// Between named balls and holes of a shipped fitted green, 12 in past, as far as they have a line.
const std::vector<Putt>& green_putts();

/// How far from the hole centre, and from the finish asked, a stroke really is: GSL at 1e-13.
struct Accuracy {
    double miss_m = 0, finish_m = 0;
};
Accuracy worst_of(const std::vector<Putt>& putts, const std::vector<Stroke>& strokes);

}  // namespace dewtrail::bench
