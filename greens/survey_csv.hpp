#pragma once

#include <filesystem>
#include <vector>

#include "physics/survey/survey_fit.hpp"

namespace dewtrail {

/// What a table of levels holds.
struct LevelTable {
    std::vector<LevelReading> readings;
    /// The level's own error, rise over run, from each reading that was turned end for end.
    std::vector<double> instrument_errors;
    bool on_foot = false;  ///< its places were paced
};

/// Survey tables, comma separated, with a header line that names the columns exactly:
///     x_m,y_m,slope_percent,falls_toward_deg      levels; slope 0-20 %, bearing clockwise from +y
///     x_m,y_m,up_percent,falls_left_percent       levels read along and across, facing +y
///     paces,walked_deg,slope_percent,falls_toward_deg    levels on a walk: paces and bearing from
///     paces,walked_deg,up_percent,falls_left_percent     the spot before, the first from (0, 0);
///                                                 along and across the way walked
///     x_m,y_m,z_m                                 heights above any one datum
/// Positions in the green frame within +-200 m, heights and bearings within +-1000 and +-360.
/// A slope may carry a unit in place of percent: 1.1deg, 6mm/60cm (a shim under a level), or be a
/// pair, the level turned end for end: 1.6deg/-0.9deg. Slopes along and across may be negative.
/// Decimal points, whatever the locale. Blank lines and lines starting with # are skipped; CRLF
/// and a UTF-8 byte order mark are fine. At most 200,000 rows and 32 MiB.
/// InputError with file, line and column (in bytes) of the first thing that is wrong.
LevelTable read_levels_csv(const std::filesystem::path& path, double sd, double pace_m);
std::vector<HeightReading> read_heights_csv(const std::filesystem::path& path, double sd_m);

/// Corners of a polygon, header `x,y`, in any coordinates within +-1e9; at least three.
std::vector<Vec2> read_corners_csv(const std::filesystem::path& path);

}  // namespace dewtrail
