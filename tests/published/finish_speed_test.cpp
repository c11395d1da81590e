/// Pelz: 17 in past the hole, from roller tests at 12 ft (as quoted elsewhere). Speeds at the hole
/// for that roll on the level derived here.

#include <catch2/catch.hpp>

#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

TEST_CASE("published: the speed at the hole that runs 17 inches past", "[published]") {
    const auto [stimp_ft, speed] =
        GENERATE(table<double, double>({{8, 0.770}, {10, 0.6883}, {11, 0.656}, {12, 0.628}}));
    const Putt putt = oracle::bare_putt(stimp_ft, 0, 12, 6, oracle::inches_past(17));
    const ReadResult result = read(putt, oracle::line_only());
    REQUIRE(result.lines.size() == 1);
    CHECK_THAT(result.lines[0].arrival_speed_m_s, WithinAbs(speed, 5e-4));  // three decimals
}

TEST_CASE("published: the speed at the hole that runs 3 ft past at stimp 10", "[published]") {
    const Putt putt = oracle::bare_putt(10, 0, 20, 6, oracle::inches_past(36));
    // 1.002 m/s, derived here.
    CHECK_THAT(read(putt, oracle::line_only()).lines.at(0).arrival_speed_m_s,
               WithinAbs(1.002, 5e-4));
}

}  // namespace
}  // namespace dewtrail
