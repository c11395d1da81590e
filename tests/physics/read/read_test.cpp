#include "physics/read/read.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::bare_putt;
using oracle::inches_past;
using oracle::line_only;
using oracle::read_of;

constexpr double degree = M_PI / 180;

TEST_CASE("a read in the words of the glossary", "[read]") {
    const Putt putt = bare_putt(10, 0.02, 12, 3, inches_past(12));
    const Read line = read_of(putt);
    const double distance = 12 * metres_per_foot, angle = line.stroke.angle_rad;
    // From 3:00 the ball rolls toward -x with downhill on the left: it is started to the right.
    CHECK(angle > 0);
    constexpr double rounding = 1e-12;
    CHECK_THAT(*line.aim_offset_m, WithinAbs(distance * std::tan(angle), rounding));
    CHECK_THAT(line.start_spot.along_m, WithinAbs(0.3048 * std::cos(angle), rounding));
    CHECK_THAT(line.start_spot.offset_m, WithinAbs(0.3048 * std::sin(angle), rounding));
    CHECK_THAT(line.level_roll_m,
               WithinAbs(level_roll_m(line.stroke.speed_m_s, putt.resistance), rounding));
    CHECK_THAT(line.level_putt_m, WithinAbs(line.level_roll_m - 0.3048, rounding));
    REQUIRE(line.stand_in_hole);
    CHECK_THAT(line.stand_in_hole->along_m,
               WithinAbs(line.level_putt_m * std::cos(angle), rounding));
    CHECK_THAT(line.stand_in_hole->offset_m,
               WithinAbs(line.level_putt_m * std::sin(angle), rounding));
    REQUIRE(line.apex);
    CHECK_THAT(*line.line_above_apex_m,
               WithinAbs(line.apex->along_m * std::tan(angle) - line.apex->offset_m, rounding));
    CHECK(line.arrival_angle_rad.value() < 0);  // it comes in falling to the left
    CHECK_THAT(line.past_m.value(), WithinAbs(0.3048, 1e-6));
    // In over the front, right of the middle.
    CHECK(line.entry.holed);
    CHECK(line.entry.clock_rad < M_PI);
    CHECK(line.entry.clock_rad > M_PI / 2);
    CHECK(line.entry.time_s < line.arrival_time_s);
    CHECK(line.entry.speed_m_s > line.arrival_speed_m_s);
    // Within the hole the path bends by R^2 over twice its radius v^2/g', 2.6 m here.
    CHECK_THAT(line.entry.offset_m, WithinAbs(0, 1e-3));
}

TEST_CASE("a start spot lies no farther than halfway", "[read]") {
    const Read line = read_of(bare_putt(10, 0, 1, 6, inches_past(6)));
    CHECK_THAT(line.start_spot.along_m, WithinAbs(0.5 * 0.3048, 1e-12));
}

TEST_CASE("the player's frame and the green's are each other's inverse", "[read]") {
    Putt putt = bare_putt(10, 0.02, 12, 4, inches_past(12));
    putt.ball += Vec2(3, 4);
    putt.hole += Vec2(3, 4);
    const Vec2 p(2.2, 5.1);
    CHECK_THAT((on_green(putt, in_player_frame(putt, p)) - p).norm(), WithinAbs(0, 1e-14));
    const PlayerPoint hole = in_player_frame(putt, putt.hole);
    CHECK_THAT(hole.along_m, WithinAbs(putt.distance_m(), 1e-14));
    CHECK_THAT(hole.offset_m, WithinAbs(0, 1e-14));
    // Right is clockwise of the line as seen from above.
    const Vec2 e = putt.line().normalized();
    CHECK(in_player_frame(putt, putt.ball + Vec2(e.y(), -e.x())).offset_m > 0);
}

TEST_CASE("a straight putt has no apex and no sign", "[read]") {
    const double clock = GENERATE(0.0, 6.0);
    const Read line = read_of(bare_putt(10, 0.02, 12, clock, inches_past(12)));
    CHECK_THAT(line.stroke.angle_rad, WithinAbs(0, 1e-14));
    CHECK_FALSE(std::signbit(line.stroke.angle_rad));
    CHECK_FALSE(line.apex);
    CHECK_FALSE(line.line_above_apex_m);
    CHECK_THAT(line.entry.clock_rad, WithinAbs(M_PI, 1e-6));
}

TEST_CASE("dead weight dies at the hole: no heading, no speed", "[read]") {
    const double k = GENERATE(1.03, 1.5, 4.0, 40.0), clock = GENERATE(1.5, 3.0, 5.0);
    const Read line = read_of(bare_putt(10, oracle::resistance(10) / k, 8, clock, Finish::past(0)));
    CHECK_FALSE(line.arrival_angle_rad);
    // As much speed as 1e-9 m of roll, what the check errs by, would take.
    CHECK_THAT(line.arrival_speed_m_s, WithinAbs(0, 1e-4));
    CHECK_THAT(line.past_m.value(), WithinAbs(0, 1e-6));
    CHECK(line.check.miss_m <= most_miss_m);
}

TEST_CASE("hole speed 0 is dead weight", "[read]") {
    const double k = GENERATE(1.03, 1.5, 4.0);
    const double slope = oracle::resistance(10) / k;
    const Read died = read_of(bare_putt(10, slope, 8, 3, Finish::past(0)));
    const Read still = read_of(bare_putt(10, slope, 8, 3, Finish::hole_speed(0)));
    CHECK_THAT(still.stroke.angle_rad, WithinAbs(died.stroke.angle_rad, 1e-9));
    CHECK_THAT(still.stroke.speed_m_s, WithinAbs(died.stroke.speed_m_s, 1e-9));
}

TEST_CASE("hole speed 0 is read on a green too", "[read]") {
    const Green green = oracle::shipped_green("turtle");
    for (const auto& [ball, at] : green.balls) {
        INFO(ball);
        const Putt putt = oracle::putt_on(green, ball, "crest", Finish::hole_speed(0));
        CHECK_FALSE(read(putt, line_only()).lines.empty());
    }
}

TEST_CASE("a start angle beyond 90 degrees has a start spot and no aim spot", "[read]") {
    // All but no hold (k = 1.01), a little beside straight above: it is sent up the slope to die
    // back.
    const Putt putt = bare_putt(10, oracle::resistance(10) / 1.01, 6, 0.6, Finish::past(0));
    const Read line = read_of(putt);
    CHECK(line.stroke.angle_rad > 90 * degree);
    CHECK(line.stroke.angle_rad < 180 * degree);
    CHECK_FALSE(line.aim_offset_m);
    CHECK_FALSE(line.line_above_apex_m);
    CHECK(line.start_spot.along_m < 0);
    CHECK(line.start_spot.offset_m > 0);
}

TEST_CASE("an aim spot farther off than ten distances is none", "[read]") {
    const Putt putt = bare_putt(10, 0.02, 6, 3, inches_past(12));
    CHECK(describe_stroke(putt, {84 * degree, 2}, line_only()).aim_offset_m);  // tan = 9.5
    CHECK_FALSE(describe_stroke(putt, {85 * degree, 2}, line_only()).aim_offset_m);
}

TEST_CASE("a stroke is described as it is, whatever was asked", "[read]") {
    const Putt putt = bare_putt(10, 0, 10, 6, inches_past(12));
    const Read short_one = describe_stroke(putt, {0, 1}, line_only());
    CHECK_FALSE(short_one.entry.holed);
    CHECK_THAT(short_one.roll.last.arc_m, WithinAbs(level_roll_m(1, putt.resistance), 1e-7));
    const Read too_fast = describe_stroke(putt, {0, 4}, line_only());
    CHECK_FALSE(too_fast.entry.holed);
    CHECK(too_fast.entry.speed_m_s > too_fast.entry.limit_m_s);
    const Read wide = describe_stroke(putt, {0.3, 2}, line_only());
    CHECK_FALSE(wide.entry.holed);
    CHECK_THAT(describe_stroke(putt, {2 * M_PI - 0.1, 2}, line_only()).stroke.angle_rad,
               WithinAbs(-0.1, 1e-12));
}

TEST_CASE("a putt that is none is refused", "[nan][read]") {
    using refused = std::invalid_argument;
    const Putt good = bare_putt(10, 0.02, 10, 3, inches_past(12));
    const auto refuses = [&](auto spoil) {
        Putt putt = good;
        spoil(putt);
        CHECK_THROWS_AS(read(putt), refused);
        CHECK_THROWS_AS(describe_stroke(putt, {0, 1}), refused);
    };
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    refuses([](Putt& p) { p.surface = nullptr; });
    refuses([](Putt& p) { p.resistance = 0; });
    refuses([](Putt& p) { p.resistance = nan; });
    refuses([](Putt& p) { p.finish = Finish::past(-0.1); });
    refuses([](Putt& p) { p.finish = Finish::hole_speed(nan); });
    refuses([](Putt& p) { p.ball = p.hole + Vec2(0.05, 0); });
    refuses([](Putt& p) { p.ball = p.hole; });
    refuses([](Putt& p) { p.ball.x() = nan; });
    CHECK_NOTHROW(read(good));
}

}  // namespace
}  // namespace dewtrail
