#pragma once

#include <optional>
#include <string_view>

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

}  // namespace dewtrail
