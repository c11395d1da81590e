#pragma once

#include <optional>
#include <vector>

#include "physics/odds/odds.hpp"
#include "viewer/putt/putt_request.hpp"

namespace dewtrail {

/// One ball of a ring round the hole.
struct RingRow {
    PlacedPutt plan;
    double clock_h = 0;
    bool off_green = false;      ///< the ball would lie off the green
    ReadResult result;           ///< without lines there, too
    std::optional<Odds> odds{};  ///< where they were worked out
    std::optional<double>
        spot_m{};  ///< its start line crosses the fall line this far above the hole
};

/// Reads for balls all round the hole at one distance, evenly by the clock, the last at 12.
std::vector<RingRow> read_ring(const PlacedPutt& plan, double distance_m, int balls,
                               const ReadOptions& options);

/// Where on the fall line the start lines of a ring nearly all pass, metres above the hole.
struct SharedSpot {
    double median_m, least_m, most_m;
};
/// None where no line crosses the fall line at more than about 10 degrees.
std::optional<SharedSpot> shared_spot(const std::vector<RingRow>& rows);

}  // namespace dewtrail
