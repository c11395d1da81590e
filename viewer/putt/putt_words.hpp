#pragma once

#include <string>

#include "viewer/putt/putt_request.hpp"

namespace dewtrail {

/// Whether the finish is a distance past the hole; else it is a speed at the hole.
bool asks_past(const PlacedPutt& plan);

/// '12 ft, 2 %, ball at 3:00, stimp 10, a foot past'.
std::string putt_words(const PlacedPutt& plan, const Units& units);

/// Why there is no line, in one sentence.
std::string no_line_words(const PlacedPutt& plan, const NoLine& none, const Units& units);

}  // namespace dewtrail
