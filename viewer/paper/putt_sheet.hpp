#pragma once

#include <string>

#include "viewer/paper/paper.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {

/// The pages that go with a putt as it is set up: "read", "green", "today" (the green with this
/// ball), "ladder" (1 to 4 % at its stimp and finish); and forms: "survey", "results", "measure".
/// std::invalid_argument for another name, or for a read or a green where there is none.
Sheet putt_sheet(const std::string& page, const Setup& setup, const Units& units, double past_m);

}  // namespace dewtrail
