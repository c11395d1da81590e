/// How far a putt skids before it rolls.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/read.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

constexpr double mu = 0.4;  // ball on green; from memory (Penner, Daish)

Roll level_roll_off_the_face(double speed_m_s, double spin) {
    RollOptions options;
    options.conditions.launch_spin = spin;
    return roll(Plane({0, 0}), oracle::resistance(10), {{0, 0}, 0, speed_m_s}, options);
}

TEST_CASE("published: a ball without spin rolls at 5/7 of its speed", "[published]") {
    // A textbook result, from memory: 5/7, after 12 v^2/(49 mu g) and 2 v/(7 mu g).
    for (const double v : {0.7, 1.5, 2.5, 4.0}) {
        const auto rolls = level_roll_off_the_face(v, 0).rolls_from;
        REQUIRE(rolls);
        CHECK_THAT(rolls->speed_m_s, WithinAbs(5.0 / 7 * v, 1e-6));
        CHECK_THAT(rolls->arc_m, WithinAbs(12 * v * v / (49 * mu * gravity_m_s2), 1e-6));
        CHECK_THAT(rolls->time_s, WithinAbs(2 * v / (7 * mu * gravity_m_s2), 1e-6));
    }
    // 0.390 m and 0.182 s at 2.5 m/s, derived here.
    CHECK_THAT(level_roll_off_the_face(2.5, 0).rolls_from->arc_m, WithinAbs(0.390, 5e-4));
}

TEST_CASE("published: any spin ends at (5 v + 2 r w)/7", "[published]") {
    // Angular momentum about the contact point is kept while the ball slides.
    for (const double spin : {-1.0, -0.3, 0.4, 0.9, 1.3, 2.0}) {
        INFO("spin " << spin);
        const auto rolls = level_roll_off_the_face(2, spin).rolls_from;
        REQUIRE(rolls);
        CHECK_THAT(rolls->speed_m_s, WithinAbs(2 * (5 + 2 * spin) / 7, 1e-6));
    }
    CHECK_FALSE(level_roll_off_the_face(2, 1).rolls_from);
}

TEST_CASE("published: a 10-ft putt skids 10 to 20 % of its length", "[published]") {
    // 13-15 % (F. Thomas, once technical director of the USGA; of which 3-4 % in the air), 15-20 %
    // (Cochran & Stobbs 1968, as quoted elsewhere).
    for (const double stimp : {8.0, 10.0, 12.0}) {
        Putt putt = oracle::bare_putt(stimp, 0, 10, 6, Finish::past(0));
        putt.conditions.launch_spin = 0;
        const ReadResult result = read(putt, oracle::line_only());
        REQUIRE(result.lines.size() == 1);
        const double share = result.lines[0].rolls_from->arc_m / putt.distance_m();
        INFO("stimp " << stimp << " share " << share);
        CHECK(share > 0.10);
        CHECK(share < 0.20);
    }
}

}  // namespace
}  // namespace dewtrail
