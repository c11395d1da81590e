#pragma once

#include <optional>
#include <string_view>

#include "greens/level_value.hpp"
#include "greens/measure.hpp"
#include "greens/units.hpp"

/// What is read off a level, as typed. Errors as in quantity.hpp.
namespace dewtrail {

/// A level laid down on the ball-hole line.
struct PlacedReading {
    std::optional<double> at_m;  ///< from the ball; none: at the hole
    double up = 0.0;             ///< rise over run along the line, positive uphill toward the hole
    double falls_left = 0.0;  ///< rise over run across, positive when it falls to the player's left
    std::optional<double> instrument_error;  ///< the larger of the two, where pairs were given
};

/// 'up 1%, left 2%': up or down and left or right (the way it falls) in either order; a missing one
/// is 0. No place.
PlacedReading parse_along_across(std::string_view text, const Subject& subject);

/// '0,up 1%,left 2%', '5paces,down 0.5%,right 1%', 'hole,...': a place (a length from the ball,
/// 'ball' or 'hole'), then up or down and left or right (the way it falls) in either order; a
/// missing one is 0, 'level' is 0 for both. Place bare: ft or m, 0 to 40 m.
PlacedReading parse_line_reading(std::string_view text, const Units& units,
                                 std::string_view what = "reading");

}  // namespace dewtrail
