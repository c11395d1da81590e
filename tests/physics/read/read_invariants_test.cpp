/// What must hold of every read whatever its numbers.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/read.hpp"
#include "support/as_eigen.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::bare_putt;
using oracle::inches_past;
using oracle::line_only;
using oracle::read_of;

void check_mirrored(double a, double b) {
    CHECK_THAT(a, WithinAbs(-b, 1e-12));
}
void check_same(double a, double b) {
    CHECK_THAT(a, WithinAbs(b, 1e-12));
}

TEST_CASE("clock c and 12 - c differ in signs and nothing else", "[read][invariant]") {
    // All arithmetic is the same but for signs; 1e-12 is left for sums in another order.
    const double clock = GENERATE(0.7, 2.0, 3.0, 5.2);
    const Finish finish = GENERATE(Finish::past(0.3), Finish::hole_speed(0.7));
    ReadOptions options = line_only();
    options.room = options.costs = true;
    Putt putt = bare_putt(10, 0.03, 12, clock, finish);
    const Read right = read_of(putt, options);
    putt.ball.x() *= -1;
    const Read left = read_of(putt, options);
    check_mirrored(right.stroke.angle_rad, left.stroke.angle_rad);
    check_mirrored(*right.aim_offset_m, *left.aim_offset_m);
    check_mirrored(right.apex->offset_m, left.apex->offset_m);
    check_mirrored(*right.arrival_angle_rad, *left.arrival_angle_rad);
    check_mirrored(right.entry.offset_m, left.entry.offset_m);
    check_mirrored(right.entry.clock_rad - M_PI, left.entry.clock_rad - M_PI);
    check_mirrored(*right.costs.aim_m_per_slope, *left.costs.aim_m_per_slope);
    check_same(right.stroke.speed_m_s, left.stroke.speed_m_s);
    check_same(right.apex->along_m, left.apex->along_m);
    check_same(*right.line_above_apex_m, *left.line_above_apex_m);
    check_same(right.arrival_time_s, left.arrival_time_s);
    check_same(right.entry.speed_m_s, left.entry.speed_m_s);
    check_same(right.entry.limit_m_s, left.entry.limit_m_s);
    check_same(*right.costs.level_putt_m_per_slope, *left.costs.level_putt_m_per_slope);
    REQUIRE((right.room && left.room));
    // Edges of the room are found to 1e-7.
    CHECK_THAT(right.room->angle_lo_rad, WithinAbs(-left.room->angle_hi_rad, 2e-7));
    CHECK_THAT(right.room->pace_lo, WithinAbs(left.room->pace_lo, 2e-7));
}

TEST_CASE("only where the putt lies on the plan differs when the scene is turned",
          "[read][invariant]") {
    const double turn = GENERATE(0.4, 2.0, -1.1);
    const Putt putt = bare_putt(10, 0.03, 15, 2, inches_past(9));
    Putt there_putt = putt;
    there_putt.surface = std::make_shared<Plane>(turned({0, 0.03}, turn));
    there_putt.hole = Vec2(5, -3);
    there_putt.ball = there_putt.hole + turned(putt.ball, turn);
    const Read here = read_of(putt), there = read_of(there_putt);
    CHECK_THAT(there.stroke.angle_rad, WithinAbs(here.stroke.angle_rad, 1e-12));
    CHECK_THAT(there.stroke.speed_m_s, WithinAbs(here.stroke.speed_m_s, 1e-12));
    // From here on rolls at 1e-9 a step that need not fall alike.
    CHECK_THAT(there.arrival_time_s, WithinAbs(here.arrival_time_s, 1e-6));
    CHECK_THAT(there.apex->offset_m, WithinAbs(here.apex->offset_m, 1e-7));
    CHECK_THAT(there.entry.clock_rad, WithinAbs(here.entry.clock_rad, 1e-6));
}

}  // namespace
}  // namespace dewtrail
