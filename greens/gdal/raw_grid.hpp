#pragma once

#include <string>
#include <vector>

/// What passes between the program and the part of it that holds GDAL, which is loaded only when an
/// elevation file is read.
namespace dewtrail {

struct GridQuestion {
    std::string path;
    bool windowed = false;
    double least_x = 0, least_y = 0, most_x = 0, most_y = 0;  ///< file coordinates
    long long most_cells = 0;
};

/// Cells by row from north to south, west to east; NaN where there is no height.
struct RawGrid {
    int columns = 0, rows = 0;
    double west = 0, north = 0;    ///< file coordinates of the outer corner
    double width = 0, height = 0;  ///< of a cell, file coordinates, positive
    bool geographic = false;       ///< degrees of longitude and latitude
    bool known_unit = false;       ///< the file says what its coordinates are
    double unit_m = 1;             ///< of projected coordinates
    double height_unit_m = 1;
    std::vector<double> heights;
    std::string problem, remedy;  ///< empty if all is well
};

using ReadGrid = void(const GridQuestion&, RawGrid&);
inline constexpr const char* read_grid_name = "dewtrail_read_grid";

}  // namespace dewtrail
