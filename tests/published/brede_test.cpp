/// A. D. Brede, "Measuring green speed on sloped putting greens", USGA Green Section Record 28(6),
/// 10-12 (1990), and M. Woods, "The Brede equation" (2021), whose field numbers these are.

#include <catch2/catch.hpp>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/roll/roll.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

TEST_CASE("published: 981 cm down and 185 cm up are 10.2 ft, not 19.1", "[published]") {
    const TwoWayReading reading = stimp_from_up_and_down(1.85, 9.81);
    const double stimp_ft = reading.stimp_m / metres_per_foot;
    const double mean_ft = (1.85 + 9.81) / 2 / metres_per_foot;
    // One decimal was published; the second ones are derived here.
    CHECK_THAT(stimp_ft, WithinAbs(10.213, 0.001));
    CHECK_THAT(mean_ft - stimp_ft, WithinAbs(8.914, 0.001));
    CHECK_THAT(reading.slope_over_resistance, WithinAbs(0.6827, 1e-4));
}

TEST_CASE("published: 18 inches between the ways cost less than an inch", "[published]") {
    // Published: under 1 in. Exactly d^2 / (4 mean), derived here.
    const double half = 9 * metres_per_inch;
    const auto over_reads_in = [&](double mean_ft) {
        const double mean = mean_ft * metres_per_foot;
        const auto reading = stimp_from_up_and_down(mean - half, mean + half);
        return (mean - reading.stimp_m) / metres_per_inch;
    };
    CHECK_THAT(over_reads_in(10), WithinAbs(0.675, 1e-9));
    CHECK_THAT(over_reads_in(8), WithinAbs(0.84375, 1e-9));
}

TEST_CASE("published: the equation undoes the slope that balls were really rolled on",
          "[published]") {
    // Rolls to 1e-8 m; the equation is exact for constant resistance on a plane.
    const double slope = GENERATE(0.01, 0.04);
    const double stimp_m = 9 * metres_per_foot, rho = resistance_of_stimp(stimp_m);
    const auto reading_m = [&](double bearing) {
        return roll(Plane({0, slope}), rho, {{0, 0}, bearing, stimp_release_speed_m_s}).last.arc_m;
    };
    const TwoWayReading found = stimp_from_up_and_down(reading_m(0), reading_m(M_PI));
    CHECK_THAT(found.slope_over_resistance, WithinAbs(slope / rho, 1e-7));
    // Along a slope friction has the factor cos(theta): the slope's own stimp is that much longer.
    CHECK_THAT(found.stimp_m, WithinAbs(stimp_m * std::sqrt(1 + slope * slope), 1e-7));
}

}  // namespace
}  // namespace dewtrail
