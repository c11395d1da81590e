#include "physics/read/told_stroke.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/aim_offset.hpp"
#include "support/putts.hpp"

using namespace dewtrail;
using Catch::WithinRel;

namespace {

constexpr double round_off = 1e-12;  // of a tangent taken back, and of a root squared

}  // namespace

TEST_CASE("a stroke that is told starts at its aim and rolls its length on the level",
          "[told_stroke]") {
    Putt putt = oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12));
    for (const bool skids : {false, true}) {
        if (skids) putt.conditions.launch_spin = 0;
        for (const double aim_m : {-2.0, -0.1, 0.3})
            for (const double roll_m : {0.5, 4.0}) {
                const Stroke stroke = told_stroke(putt, aim_m, roll_m);
                CHECK_THAT(*aim_offset_m(putt, stroke.angle_rad), WithinRel(aim_m, round_off));
                CHECK_THAT(level_roll_m(stroke.speed_m_s, putt.resistance, putt.conditions),
                           WithinRel(roll_m, 10 * round_off));  // the inverse is good to 1e-12
                CHECK(stroke.angle_rad == start_angle_rad(putt, aim_m));
                CHECK(stroke.speed_m_s == launch_speed_m_s(putt, roll_m));
            }
    }
}

TEST_CASE("a putt told as a level one runs the usual past, and always moves", "[told_stroke]") {
    CHECK(level_roll_of_putt_m(3, 0.25) == 3.25);
    CHECK(level_roll_of_putt_m(0.01, 0) == metres_per_inch);
    CHECK(level_roll_of_putt_m(-2, 0.3) == metres_per_inch);
}
