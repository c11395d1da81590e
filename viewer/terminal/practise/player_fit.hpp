#pragma once

#include <string>

#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// `player fit FILE.csv`: line and pace spread from putts made and missed. The file has a header
/// with `distance_ft` or `distance_m`, and either `tries,holed` (one row a distance) or `holed`
/// (one row a putt: 1, 0, yes, no); lines that begin with # are left out. Prints what was found
/// with its standard errors; changes nothing. Throws InputError with file, line and column for a
/// bad row.
Exit run_player_fit(Session& session, const std::string& path);

/// `player fit --from-log`: the same from logged putts, and the reading habits: from the sides of
/// their misses, and from practice.
Exit run_player_fit_from_log(Session& session);

}  // namespace dewtrail
