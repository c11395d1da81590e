#pragma once

#include <string>
#include <vector>

#include "greens/green.hpp"
#include "greens/units.hpp"

namespace dewtrail {

/// A green in letters, up the plan upward.
struct ContourText {
    std::vector<std::string> lines;  ///< UTF-8, without ends; at most `columns` wide
    double step_m = 0;               ///< height from one contour to the next
};

/// Edge in dots, contours in - / | \, each with its height above `base_m` in the player's units
/// (in or cm) without the unit; holes as O and balls as o, named where there is room. A letter is
/// taken as twice as high as wide. At most 44 lines; columns 20 to 400, else
/// std::invalid_argument.
ContourText contour_text(const Green& green, double base_m, const Units& units, int columns = 78);

}  // namespace dewtrail
