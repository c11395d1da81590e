#pragma once

#include <optional>
#include <string_view>

#include "viewer/scene/units.hpp"

/// What is read off a level, as typed. Errors as in quantity.hpp.
namespace dewtrail {

/// One reading of a level.
struct SlopeReading {
    double slope = 0.0;  ///< rise over run; negative only for a pair that averages so
    /// The level's own error as rise over run: what it shows too much on level ground. Only for a
    /// pair.
    std::optional<double> instrument_error;
};

/// 2%, 1.1deg, 1:40 (rise:run), 6mm/60cm (a shim of 6 mm makes a 60 cm level show level), or a pair
/// of readings, the second with the level turned end for end: 1.6deg/-0.9deg. With a the first and
/// b the second as the level shows them, a = slope + error and b = -slope + error, so slope = (a -
/// b)/2 and error = (a + b)/2, averaged in the unit read. Both readings of a pair with the same
/// sign are refused: more likely the sign was not written down. Bare: percent. |slope| up to 0.20.
SlopeReading parse_level_reading(std::string_view text, std::string_view what = "slope");

/// A level laid down on the ball-hole line.
struct PlacedReading {
    std::optional<double> at_m;  ///< from the ball; none: at the hole
    double up = 0.0;             ///< rise over run along the line, positive uphill toward the hole
    double falls_left = 0.0;  ///< rise over run across, positive when it falls to the player's left
    std::optional<double> instrument_error;  ///< the larger of the two, where pairs were given
};

/// '0,up 1%,left 2%', '5paces,down 0.5%,right 1%', 'hole,...': a place (a length from the ball,
/// 'ball' or 'hole'), then up or down and left or right (the way it falls) in either order; a
/// missing one is 0, 'level' is 0 for both. Place bare: ft or m, 0 to 40 m.
PlacedReading parse_line_reading(std::string_view text, const Units& units,
                                 std::string_view what = "reading");

}  // namespace dewtrail
