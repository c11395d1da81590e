#include "viewer/putt/ring.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace dewtrail {
namespace {

/// The start line's crossing with the fall line through the hole; none for balls on or near it.
std::optional<double> crossing_m(const Putt& putt, const Read& read) {
    constexpr double least_crossing = 0.17;  // about 10 degrees: flatter crossings say nothing
    const auto uphill = uphill_at_hole(putt);
    if (!uphill) return std::nullopt;
    const Vec2 start = along_bearing(putt.launch(read.stroke).bearing_rad);
    const auto cross = [](const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); };
    const double crossing = cross(*uphill, start);
    if (std::abs(crossing) < least_crossing) return std::nullopt;
    return cross(putt.ball - putt.hole, start) / crossing;
}

}  // namespace

std::vector<RingRow> read_ring(const PlacedPutt& plan, double distance_m, int balls,
                               const ReadOptions& options) {
    std::vector<RingRow> rows;
    for (int i = 1; i <= balls; ++i) {
        const double clock_h = 12.0 * i / balls;
        Setup setup = plan.setup;
        set_distance_and_clock(setup, distance_m, clock_h);
        RingRow row{.plan = placed(std::move(setup), plan.notes), .clock_h = clock_h};
        const Putt& putt = row.plan.putt;
        row.off_green = putt.outline && putt.outline->inside_by(putt.ball) <= 0;
        if (row.off_green)
            row.result.none = NoLine{};
        else
            row.result = read(putt, options);
        if (!row.result.lines.empty()) row.spot_m = crossing_m(putt, row.result.lines.front());
        rows.push_back(std::move(row));
    }
    return rows;
}

std::optional<SharedSpot> shared_spot(const std::vector<RingRow>& rows) {
    std::vector<double> spots;
    for (const RingRow& row : rows)
        if (row.spot_m) spots.push_back(*row.spot_m);
    if (spots.empty()) return std::nullopt;
    std::sort(spots.begin(), spots.end());
    return SharedSpot{spots[spots.size() / 2], spots.front(), spots.back()};
}

}  // namespace dewtrail
