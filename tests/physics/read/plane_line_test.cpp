#include "physics/read/plane_line.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "support/as_eigen.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

const double rho = oracle::resistance(10);

PlaneLines lines_of(double slope, double clock_h, double metres, Finish finish) {
    return lines_on_plane({0, slope}, rho, -metres * along_bearing(clock_h * M_PI / 6), finish);
}

Stroke only_line(double slope, double clock_h, double metres, Finish finish) {
    const auto lines = lines_of(slope, clock_h, metres, finish);
    REQUIRE(lines.strokes.size() == 1);
    return lines.strokes[0];
}

TEST_CASE("a ball across the hole's fall line plays the mirrored stroke",
          "[plane_line][invariant]") {
    // Bit for bit: the mirror changes signs only.
    const Finish finish = GENERATE(Finish::past(0), Finish::past(0.4), Finish::hole_speed(0.6));
    const Vec2 line = 3 * along_bearing(GENERATE(0.3, 1.2, 1.9, 3.0));
    for (const double slope : {0.0, 0.02, 0.06}) {
        const auto here = lines_on_plane({0, slope}, rho, line, finish);
        const auto there = lines_on_plane({0, slope}, rho, {-line.x(), line.y()}, finish);
        REQUIRE(here.strokes.size() == 1);
        REQUIRE(there.strokes.size() == 1);
        CHECK(here.strokes[0].angle_rad == -there.strokes[0].angle_rad);
        CHECK(here.strokes[0].speed_m_s == there.strokes[0].speed_m_s);
    }
}

TEST_CASE("only the angle between slope and putt matters", "[plane_line][invariant]") {
    const double turn = GENERATE(0.1, 1.0, 2.2, -3.0);
    const Vec2 gradient(0.01, 0.025), line(2, 3);
    const auto here = lines_on_plane(gradient, rho, line, Finish::past(0.3));
    const auto there =
        lines_on_plane(turned(gradient, turn), rho, turned(line, turn), Finish::past(0.3));
    CHECK_THAT(there.strokes.at(0).angle_rad, WithinAbs(here.strokes.at(0).angle_rad, 1e-13));
    CHECK_THAT(there.strokes.at(0).speed_m_s, WithinAbs(here.strokes.at(0).speed_m_s, 1e-13));
}

TEST_CASE("a putt twice as long with twice the past plays the same line",
          "[plane_line][invariant]") {
    const Stroke one = only_line(0.03, 2, 2, Finish::past(0.2));
    const Stroke four = only_line(0.03, 2, 8, Finish::past(0.8));
    CHECK_THAT(four.angle_rad, WithinAbs(one.angle_rad, 1e-13));
    CHECK_THAT(four.speed_m_s, WithinAbs(2 * one.speed_m_s, 1e-13));
}

TEST_CASE("straight putts are straight and one-dimensional", "[plane_line]") {
    const double slope = 0.03, cosine = 1 / std::sqrt(1 + slope * slope);
    const double up = 5.0 / 7 * gravity_m_s2 * (rho + slope) * cosine;
    const double down = 5.0 / 7 * gravity_m_s2 * (rho - slope) * cosine;
    // 4 m of plan are 4/cosine m of slope.
    const Stroke uphill = only_line(slope, 6, 4, Finish::past(0.5));
    CHECK(uphill.angle_rad == 0);
    CHECK_FALSE(std::signbit(uphill.angle_rad));
    CHECK_THAT(uphill.speed_m_s, WithinAbs(std::sqrt(2 * up * (4 / cosine + 0.5)), 1e-13));
    const Stroke downhill = only_line(slope, 0, 4, Finish::past(0.5));
    CHECK(downhill.angle_rad == 0);
    CHECK_THAT(downhill.speed_m_s, WithinAbs(std::sqrt(2 * down * (4 / cosine + 0.5)), 1e-13));
    const Stroke level = only_line(0, 3, 4, Finish::hole_speed(1));
    CHECK(level.angle_rad == 0);
    CHECK_THAT(level.speed_m_s, WithinAbs(std::sqrt(1 + 8 * level_deceleration_m_s2(rho)), 1e-13));
}

TEST_CASE("lines run smoothly into the straight and level ones", "[plane_line]") {
    // A thousandth of a degree off the fall line, a millionth of a slope: all but straight.
    for (const double clock : {6.0, 0.0}) {
        const Stroke straight = only_line(0.03, clock, 4, Finish::past(0.5));
        const Stroke beside = only_line(0.03, clock + 3e-5, 4, Finish::past(0.5));
        CHECK_THAT(beside.angle_rad, WithinAbs(0, 3e-5));
        CHECK_THAT(beside.speed_m_s, WithinAbs(straight.speed_m_s, 1e-8));
    }
    for (const double slope : {1e-6, 1e-9, 1.1e-10, 0.9e-10}) {
        const Stroke level = only_line(0, 3, 4, Finish::past(0.5));
        const Stroke sloped = only_line(slope, 3, 4, Finish::past(0.5));
        // The aim of a slight slope goes as slope over 2 rho.
        CHECK_THAT(sloped.angle_rad, WithinAbs(0, 10 * slope));
        CHECK_THAT(sloped.speed_m_s, WithinAbs(level.speed_m_s, 1e-9));
    }
}

TEST_CASE("k just above one has one line, just below none that stops", "[plane_line]") {
    const double above = 1 + GENERATE(1e-3, 1e-6, 1e-9);
    const auto stops = lines_of(rho / above, 3, 2, Finish::past(0.3));
    REQUIRE(stops.strokes.size() == 1);
    CHECK(std::isfinite(stops.strokes[0].speed_m_s));
    CHECK_FALSE(stops.least_arrival_m_s);
    const auto runs = lines_of(rho * above, 3, 2, Finish::past(0.3));
    CHECK(runs.strokes.empty());
    REQUIRE(runs.least_arrival_m_s);
    CHECK(std::isfinite(*runs.least_arrival_m_s));
}

TEST_CASE("the least arrival straight down is the roll from rest", "[plane_line]") {
    const double slope = 0.12, cosine = 1 / std::sqrt(1 + slope * slope);
    const auto lines = lines_of(slope, 0, 3, Finish::past(0.3));
    REQUIRE(lines.least_arrival_m_s);
    const double gain = 5.0 / 7 * gravity_m_s2 * (slope - rho) * cosine;
    CHECK_THAT(*lines.least_arrival_m_s, WithinAbs(std::sqrt(2 * gain * 3 / cosine), 1e-12));
    CHECK(lines.strokes.empty());
    CHECK(
        lines_of(slope, 0, 3, Finish::hole_speed(*lines.least_arrival_m_s - 1e-6)).strokes.empty());
    CHECK(
        lines_of(slope, 0, 3, Finish::hole_speed(*lines.least_arrival_m_s + 1e-6)).strokes.size() ==
        1);
}

TEST_CASE("beside the fall line a hole speed above the least arrival has two lines",
          "[plane_line]") {
    const double clock = GENERATE(1.0, 3.0, 5.0);
    const auto least = lines_of(0.12, clock, 2, Finish::past(0.3)).least_arrival_m_s;
    REQUIRE(least);
    CHECK(lines_of(0.12, clock, 2, Finish::hole_speed(0.99 * *least)).strokes.empty());
    const auto lines = lines_of(0.12, clock, 2, Finish::hole_speed(1.2 * *least));
    REQUIRE(lines.strokes.size() == 2);
    // The direct one first; the other sets off higher and harder.
    CHECK(std::abs(lines.strokes[0].angle_rad) < std::abs(lines.strokes[1].angle_rad));
}

TEST_CASE("what the plane tells about itself", "[plane_line]") {
    const auto lines = lines_of(0.02, 3, 2, Finish::past(0.3));
    CHECK(lines.holds_up_to_slope == rho);
    CHECK_THAT(lines.friction_over_slope, WithinAbs(rho / 0.02, 1e-14));
    CHECK(std::isinf(lines_of(0, 3, 2, Finish::past(0.3)).friction_over_slope));
}

TEST_CASE("a plane putt that is none is refused", "[nan][plane_line]") {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    using refused = std::invalid_argument;
    const Finish past = Finish::past(0.3);
    CHECK_THROWS_AS(lines_on_plane({0, 0.02}, rho, {0, 0}, past), refused);
    CHECK_THROWS_AS(lines_on_plane({0, 0.02}, rho, {nan, 1}, past), refused);
    CHECK_THROWS_AS(lines_on_plane({0, nan}, rho, {1, 1}, past), refused);
    CHECK_THROWS_AS(lines_on_plane({0, 0.02}, 0, {1, 1}, past), refused);
    CHECK_THROWS_AS(lines_on_plane({0, 0.02}, nan, {1, 1}, past), refused);
    CHECK_THROWS_AS(lines_on_plane({0, 0.02}, rho, {1, 1}, Finish::past(-0.1)), refused);
    CHECK_THROWS_AS(lines_on_plane({0, 0.02}, rho, {1, 1}, Finish::hole_speed(nan)), refused);
}

}  // namespace
}  // namespace dewtrail
