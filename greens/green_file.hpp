#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "greens/green.hpp"

namespace dewtrail {

/// Reads a green file (TOML) and, for a fitted green, the survey beside it, and fits it.
///
///     name = "Orchard"
///     stimp = 10.5                                # feet, 3-18
///     outline = [[0, 0], [24, 0], [24, 20]]       # metres, within +-200, 3 to 1000 corners
///     [holes]                                     # at least one
///     front = [12, 5]
///     [balls]                                     # may be left out
///     left = [4, 4]
///     [surface]
///     kind = "plane"
///     slope_percent = 2                           # 0-20
///     falls_toward_deg = 180                      # bearing
/// or  kind = "fitted"
///     levels = "orchard-levels.csv"               # in the green's folder; this, heights or both
///     heights = "orchard-heights.csv"
///     spacing_m = 1.0                             # these four may be left out
///     level_sd_percent = 0.2
///     height_sd_m = 0.003
///     pace_m = 0.9                                # of levels on a walk
///
/// Keys not listed here are refused, and so is a fitted surface that anywhere inside the outline
/// is steeper than 20 %. InputError with file, line and column of what is wrong. Writes nothing.
Green load_green(const std::filesystem::path& path);

/// The same for a green named on the command line: a name with a folder or with .toml is taken as
/// a path if there is such a file; otherwise the first NAME or NAME.toml in `folders` is. If there
/// is none, the InputError lists the greens that the folders hold.
Green load_green(const std::string& name, const std::vector<std::filesystem::path>& folders);

/// Names (without .toml) of the greens in the folders, sorted, each once.
std::vector<std::string> known_greens(const std::vector<std::filesystem::path>& folders);

}  // namespace dewtrail
