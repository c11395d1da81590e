#pragma once

#include <optional>
#include <string>
#include <vector>

namespace dewtrail {

/// The word among these that somebody most likely meant: at most one letter in three wrong, left
/// out, added, or two of them swapped. None where nothing is near.
std::optional<std::string> nearest(const std::string& typed, const std::vector<std::string>& words);

}  // namespace dewtrail
