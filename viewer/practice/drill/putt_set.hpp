#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "greens/toml_section.hpp"
#include "viewer/practice/drill/dealt_putt.hpp"

/// Fixed sets of putts to practise again, or to give to a pupil: a TOML file.
///
///     format = 1
///     [[putt]]                 # on a plane that rises toward +y, the hole at the origin
///     ball = [3.0, -1.5]       # metres
///     slope_percent = 2
///     stimp = 10               # feet, 3-18
///     past_m = 0.3048          # may be left out
///     [[putt]]                 # on a green file
///     green = "meadow"
///     ball = [4.0, 7.5]
///     hole = [9.0, 8.0]
///     stimp = 10
namespace dewtrail {

/// InputError for a green that is a path: a set comes from anybody and may not choose which file is
/// opened.
void check_names_green(const std::string& green);

/// InputError with file, line and column for anything that is not such a file.
std::vector<DealtPutt> load_putt_set(const std::filesystem::path& path);

/// Every [[putt]] of a file that holds more than a set, and such lines to write into one.
std::vector<DealtPutt> read_putts(const TomlSection& file);
std::string putt_set_text(const std::vector<DealtPutt>& putts);

/// The whole file of a set.
std::string putt_set_file(const std::vector<DealtPutt>& putts);
/// Writes the whole file or nothing; OutsideError if that fails.
void save_putt_set(const std::filesystem::path& path, const std::vector<DealtPutt>& putts);

}  // namespace dewtrail
