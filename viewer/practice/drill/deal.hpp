#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/dealt_putt.hpp"
#include "viewer/practice/drill/random_stream.hpp"

namespace dewtrail {

/// Where dealt putts come from. Planes, unless greens are named.
struct DealRanges {
    double least_m = 3 * metres_per_foot, most_m = 35 * metres_per_foot;
    double most_slope = 0.03;  ///< at most 0.06
    double least_stimp_ft = 9, most_stimp_ft = 11;
    double past_m = 12 * metres_per_inch;  ///< up to 30 ft; beyond, 3 in
    std::vector<std::string> greens;
};

/// A putt of this kind, the same for the same stream. On a plane it is shown in round figures
/// (distance to ½ ft, slope to ¼ %, clock to a quarter hour), and the slope is a little more or
/// less than shown, so that numbers are not learned by heart. On a green a ball is put down at
/// random until the kind is right; a green that has none such gives the kind it has. Every putt
/// dealt has a read. None if the ranges hold no putt of the kind.
std::optional<DealtPutt> deal(const Category& kind, const DealRanges& ranges, RandomStream& random,
                              Greenkeeper& keeper);

/// Whether the putt has an aim, and its ball reaches the hole and stops.
bool has_read(const PlacedPutt& plan);

/// The kinds that the ranges can hold on planes.
std::vector<Category> kinds_within(const DealRanges& ranges);

}  // namespace dewtrail
