#include "physics/roll/green_speed.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "physics/base/ball_and_hole.hpp"

using Catch::WithinRel;

namespace dewtrail {
namespace {

constexpr double rounding = 1e-14;

TEST_CASE("stimp and resistance are each other's inverse", "[green_speed]") {
    const double stimp_m = GENERATE(0.9, 3.048, 5.5);
    CHECK_THAT(stimp_of_resistance(resistance_of_stimp(stimp_m)), WithinRel(stimp_m, rounding));
}

TEST_CASE("the release speed rolls the stimp", "[green_speed]") {
    const double stimp_m = GENERATE(1.0, 3.0, 5.0), rho = resistance_of_stimp(stimp_m);
    CHECK_THAT(level_roll_m(stimp_release_speed_m_s, rho), WithinRel(stimp_m, rounding));
    CHECK_THAT(speed_of_level_roll_m_s(stimp_m, rho), WithinRel(stimp_release_speed_m_s, rounding));
    CHECK(level_roll_m(0, rho) == 0);
}

TEST_CASE("a timed roll and a stimpmeter agree", "[green_speed]") {
    // The stimpmeter's own roll: S takes 2 S / v_s.
    CHECK_THAT(stimp_from_timed_roll_m(3, 6 / stimp_release_speed_m_s), WithinRel(3.0, rounding));
    // 4 m in 4 s slow by 0.5 m/s^2.
    CHECK_THAT(stimp_from_timed_roll_m(4, 4),
               WithinRel(stimp_release_speed_m_s * stimp_release_speed_m_s, rounding));
}

TEST_CASE("two ways on the level are one", "[green_speed]") {
    const TwoWayReading r = stimp_from_up_and_down(3, 3);
    CHECK_THAT(r.stimp_m, WithinRel(3.0, rounding));
    CHECK(r.slope_over_resistance == 0);
    CHECK(stimp_from_up_and_down(4, 2).slope_over_resistance < 0);
}

TEST_CASE("lengths, times and resistances must be positive numbers", "[nan][green_speed]") {
    const double bad = GENERATE(0.0, -1.0, std::numeric_limits<double>::infinity(),
                                std::numeric_limits<double>::quiet_NaN());
    using refused = std::invalid_argument;
    CHECK_THROWS_AS(resistance_of_stimp(bad), refused);
    CHECK_THROWS_AS(stimp_of_resistance(bad), refused);
    CHECK_THROWS_AS(level_deceleration_m_s2(bad), refused);
    CHECK_THROWS_AS(level_roll_m(1, bad), refused);
    CHECK_THROWS_AS(speed_of_level_roll_m_s(bad, 0.1), refused);
    CHECK_THROWS_AS(stimp_from_up_and_down(bad, 2), refused);
    CHECK_THROWS_AS(stimp_from_up_and_down(2, bad), refused);
    CHECK_THROWS_AS(stimp_from_timed_roll_m(bad, 2), refused);
    CHECK_THROWS_AS(stimp_from_timed_roll_m(2, bad), refused);
}

}  // namespace
}  // namespace dewtrail
