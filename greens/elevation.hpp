#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "physics/survey/survey_fit.hpp"

namespace dewtrail {

/// What to take out of an elevation file, in the file's own coordinates.
struct ElevationCut {
    struct Window {
        Vec2 least, most;
    };
    std::optional<Window> window{};     ///< none: the whole file
    std::vector<Vec2> polygon{};        ///< only what lies inside, if it has corners
    std::optional<double> spacing_m{};  ///< heights are averaged over squares of this size
};

/// Heights from an elevation file, in a green frame of their own: metres, origin at the south-west
/// corner of what was taken, y north, heights above the lowest.
struct Elevation {
    std::vector<HeightReading> heights;  ///< `sd_m`: the noise that is left after averaging
    std::vector<Vec2> outline;           ///< the polygon of the cut, in this frame
    double cell_m = 0;                   ///< of the file
    double spacing_m = 0;                ///< of the heights here
    double noise_m = 0;                  ///< of one cell, from fourth differences along rows
    std::size_t empty = 0;               ///< cells without a height, left out
    std::vector<std::string> notes;      ///< what was assumed of units and projection
};

/// Whether this program can read GeoTIFF and grids: it was built with GDAL, and its GDAL module is
/// installed. The module is loaded by the first `read_elevation`.
bool can_read_elevation();

/// GeoTIFF, ASCII grids and a few more that hold their cells themselves; projected in any linear
/// unit, or geographic, which is laid flat on the tangent plane of its middle (true to a few parts
/// in a million over a green). At most 4,000,000 cells and, averaged, 10,000 heights.
///
/// InputError naming the file: cannot be read, cut off, no heights inside, a grid that is turned, a
/// coordinate system whose unit is unknown, too many cells without a window, spacing finer than the
/// file's. Never throws OutsideError. GDAL's own messages are silenced.
Elevation read_elevation(const std::filesystem::path& path, const ElevationCut& cut = {});

/// Heights given line by line, `x y z` in metres, separated by spaces, tabs or commas, in any
/// order; no header. Coordinates may be those of a projection: the smallest x, y and z are
/// subtracted. InputError with file and line. At most 200,000 rows and 32 MiB.
std::vector<HeightReading> read_heights_xyz(const std::filesystem::path& path, double sd_m);

}  // namespace dewtrail
