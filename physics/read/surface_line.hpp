#pragma once

#include <optional>
#include <vector>

#include "physics/roll/putt.hpp"

namespace dewtrail {

struct SurfaceLines {
    std::vector<Stroke> strokes;           ///< smallest angle first
    std::optional<double> nearest_finish;  ///< if none: the nearest finish that has a line
};

/// Lines on any surface by Newton's method from the plane that acts as it does, then by
/// continuation from that plane, then from a coarse fan of strokes. `every_line` always searches
/// the fan.
SurfaceLines lines_on_surface(const Putt& putt, double tolerance, bool every_line);

/// Only the first two of these ways: the line next to that of the plane. No fan, so that where
/// there is none, that is soon known.
std::optional<Stroke> direct_line_on_surface(const Putt& putt, double tolerance);

}  // namespace dewtrail
