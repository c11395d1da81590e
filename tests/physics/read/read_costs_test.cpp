/// Costs of a misread: derivatives of the read, against differences of reads.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/read.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::bare_putt;
using oracle::inches_past;
using oracle::line_only;
using oracle::NamedPutt;
using oracle::read_of;

std::vector<NamedPutt> putts_with_costs() {
    const Green saddle = oracle::shipped_green("saddle");
    return {{"plane", bare_putt(10, 0.02, 12, 2, inches_past(12))},
            {"plane at a hole speed", bare_putt(9, 0.03, 10, 4.5, Finish::hole_speed(0.6))},
            {"plane, straight down", bare_putt(10, 0.03, 8, 12, inches_past(12))},
            {"plane, dead weight", bare_putt(9, 0.03, 10, 3, Finish::past(0))},
            {"saddle", oracle::putt_on(saddle, "low", "seat", inches_past(12))}};
}

/// The surface with `slope` more up the fall line at the hole, and `cross` more to its right.
std::shared_ptr<const Surface> tilted(const Putt& putt, double slope, double cross) {
    const Vec2 up = uphill_at_hole(putt).value_or(putt.line().normalized());
    return oracle::tilted(putt.surface, slope * up + cross * Vec2(up.y(), -up.x()));
}

TEST_CASE("costs are what reads of other slopes and speeds differ by", "[read][sensitivity]") {
    const NamedPutt known = GENERATE(from_range(putts_with_costs()));
    INFO(known.name);
    const Putt& putt = known.putt;
    ReadOptions options = line_only();
    options.costs = true;
    const Costs costs = read_of(putt, options).costs;
    const double stimp_m = stimp_of_resistance(putt.resistance);
    const auto read_at = [&](double d_slope, double d_cross, double d_stimp_m) {
        Putt other = putt;
        other.surface = tilted(putt, d_slope, d_cross);
        other.resistance = resistance_of_stimp(stimp_m + d_stimp_m);
        return read_of(other);
    };
    const auto differs = [](const Read& a, const Read& b, double width) {
        return std::pair((*b.aim_offset_m - *a.aim_offset_m) / width,
                         (b.level_putt_m - a.level_putt_m) / width);
    };
    // Steps of 1e-3 slope and 1 cm of stimp: their square times third derivatives, and reads good
    // to 2e-6 m over the step, are both well under half a percent of what an aim costs (some 15 m
    // and 0.1).
    const auto by_slope = differs(read_at(-1e-3, 0, 0), read_at(1e-3, 0, 0), 2e-3);
    const auto by_cross = differs(read_at(0, -1e-3, 0), read_at(0, 1e-3, 0), 2e-3);
    const auto by_stimp = differs(read_at(0, 0, -0.01), read_at(0, 0, 0.01), 0.02);
    CHECK_THAT(costs.aim_m_per_slope.value(), WithinAbs(by_slope.first, 0.08));
    CHECK_THAT(costs.level_putt_m_per_slope.value(), WithinAbs(by_slope.second, 0.08));
    CHECK_THAT(costs.aim_m_per_cross_slope.value(), WithinAbs(by_cross.first, 0.08));
    CHECK_THAT(costs.level_putt_m_per_cross_slope.value(), WithinAbs(by_cross.second, 0.08));
    CHECK_THAT(costs.aim_m_per_stimp_m.value(), WithinAbs(by_stimp.first, 1e-3));
    CHECK_THAT(costs.level_putt_m_per_stimp_m.value(), WithinAbs(by_stimp.second, 1e-3));
}

TEST_CASE("on the level a misread costs along and across the putt", "[read]") {
    const Putt putt = bare_putt(10, 0, 10, 3, inches_past(12));
    CHECK_FALSE(uphill_at_hole(putt));
    ReadOptions options = line_only();
    options.costs = true;
    const Costs costs = read_of(putt, options).costs;
    CHECK_THAT(costs.aim_m_per_slope.value(), WithinAbs(0, 1e-6));
    CHECK_THAT(costs.level_putt_m_per_cross_slope.value(), WithinAbs(0, 1e-6));
    // Higher on the right of the line, it breaks left and is aimed right; the other way, pace.
    CHECK(costs.aim_m_per_cross_slope.value() > 0);
    CHECK(costs.level_putt_m_per_slope.value() > 0);
}

}  // namespace
}  // namespace dewtrail
