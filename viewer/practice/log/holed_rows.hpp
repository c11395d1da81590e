#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "physics/odds/spread_fit.hpp"
#include "viewer/practice/log/logged_putt.hpp"

namespace dewtrail {

/// Putts tried and holed by distance, from a table with a header of `distance_ft` or `distance_m`,
/// and either `tries,holed` (one row a distance) or `holed` (one row a putt: 1, 0, yes, no). Single
/// putts are gathered to the half foot: as near as distances are paced. Lines that begin with # are
/// left out. InputError with file, line and column for a bad row, and for a table without putts.
std::vector<HoledRow> read_holed_rows(const std::string& name, std::string_view text);

/// The same from logged putts.
std::vector<HoledRow> holed_rows(const std::vector<LoggedPutt>& putts);

}  // namespace dewtrail
