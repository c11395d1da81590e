#pragma once

#include <filesystem>
#include <vector>

#include "physics/survey_fit.hpp"

namespace dewtrail {

/// Survey tables, comma separated, with a header line that names the columns exactly:
///     x_m,y_m,slope_percent,falls_toward_deg      levels; slope 0-20 %, bearing clockwise from +y
///     x_m,y_m,z_m                                 heights above any one datum
/// Positions in the green frame within +-200 m, heights and bearings within +-1000 and +-360.
/// Decimal points, whatever the locale. Blank lines and lines starting with # are skipped; CRLF
/// and a UTF-8 byte order mark are fine. At most 200,000 rows and 32 MiB.
/// InputError with file, line and column (in bytes) of the first thing that is wrong.
std::vector<LevelReading> read_levels_csv(const std::filesystem::path& path, double sd);
std::vector<HeightReading> read_heights_csv(const std::filesystem::path& path, double sd_m);

/// Corners of a polygon, header `x,y`, in any coordinates within +-1e9; at least three.
std::vector<Vec2> read_corners_csv(const std::filesystem::path& path);

}  // namespace dewtrail
