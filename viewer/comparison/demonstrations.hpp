#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "viewer/comparison/comparison.hpp"
#include "viewer/comparison/played_putts.hpp"

/// Ready demonstrations for a coach: the putts to show, and two sentences to say, true of the
/// numbers that were worked out. Invented putts; the same for every player.
namespace dewtrail {

struct DemonstrationName {
    std::string_view key;    ///< one word, for the command line
    std::string_view title;  ///< 'uphill and downhill'
};
const std::vector<DemonstrationName>& demonstration_names();

struct Demonstration {
    std::string title;
    Comparison comparison;
    std::array<std::string, 2> say;
    std::vector<PlayedPutts> played;  ///< of 'most misses are low' only
};

/// By key or title. Throws InputError for another name. Some milliseconds.
Demonstration demonstrate(std::string_view name, const Units& units);

/// Throws the same InputError, and shows nothing.
void check_demonstration(std::string_view name);

}  // namespace dewtrail
