#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/comparison/comparison.hpp"

namespace dewtrail {

/// A putt as a person types it for a comparison: the putt, and an aim that is not the read's own.
struct ComparedRequest {
    PuttRequest putt;
    std::optional<std::string> aim{};  ///< see `aim_of`
};

/// The first putt with a change made to it. What the change says about the slope, the ball's place
/// or the finish replaces everything that the first putt said about it: `up 1%` after
/// `slope 2%, clock 3` drops both of those.
ComparedRequest changed(const ComparedRequest& first, const ComparedRequest& change);

/// Plans, reads and names all putts and rolls those with an aim of their own. Throws InputError for
/// what cannot be understood, naming the putt.
Comparison compare(const std::vector<ComparedRequest>& requests, const PuttDefaults& defaults);

}  // namespace dewtrail
