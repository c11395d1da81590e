/// A putt between what was typed and the physics: one account of it, however it came about.

#include "viewer/putt/setup.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/read.hpp"
#include "tests/support/tolerances.hpp"
#include "tests/support/units.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/putt/solved.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::foot;
using oracle::inch;
using oracle::round_off;

PuttRequest of_length(const char* distance) {
    PuttRequest request;
    request.distance = distance;
    return request;
}

double rise_m(const Putt& putt, double along_m) {
    const Vec2 at = on_green(putt, {along_m, 0});
    return putt.surface->at(at.x(), at.y()).h - putt.surface->at(putt.ball.x(), putt.ball.y()).h;
}

double first_angle(const Putt& putt) {
    return read(putt).lines.at(0).stroke.angle_rad;
}

TEST_CASE("A step stays where it was typed when the putt is edited, drawn or printed") {
    PuttRequest request = of_length("20ft");
    request.rise = "4in";
    request.step_at = "12ft";
    Setup setup = set_up(request, {}).setup;
    set_stimp(setup, 12);
    const Putt putt = putt_of(setup);
    CHECK_THAT(rise_m(putt, 10 * foot), WithinAbs(0, 1e-9));
    CHECK_THAT(rise_m(putt, 12 * foot), WithinAbs(2 * inch, 1e-9));
    CHECK_THAT(rise_m(putt, 14 * foot), WithinAbs(4 * inch, 1e-9));
    CHECK_THAT(putt.mean_rise(), WithinAbs(4 * inch / (20 * foot), 1e-9));
}

TEST_CASE("All readings of a line are kept, not three of them") {
    PuttRequest request = of_length("20ft");
    request.readings = {"0,up 1%", "5ft,up 4%", "15ft,down 3%,left 1%", "hole,left 2%"};
    const Putt putt = set_up(request, {}).putt;
    const auto grade = [&](double along_m) {
        const Vec2 at = on_green(putt, {along_m, 0});
        return putt.surface->at(at.x(), at.y()).gradient().dot(putt.line().normalized());
    };
    CHECK_THAT(grade(5 * foot), WithinAbs(0.04, round_off));
    CHECK_THAT(grade(15 * foot), WithinAbs(-0.03, round_off));
}

TEST_CASE("A cross slope too small for a clock still breaks the way it falls") {
    PuttRequest request = of_length("30ft");
    request.falls_left = "0.08%";
    const PlacedPutt plan = set_up(request, {});
    CHECK(first_angle(plan.putt) > 1e-3);
    CHECK_FALSE(clock_of(plan.setup));
}

TEST_CASE("Clock and gradient are inverse; quarters are exact") {
    for (double clock_h = 0.25; clock_h <= 12; clock_h += 0.25) {
        const AlongAcross seen = along_across(0.03, clock_h);
        CHECK_THAT(seen.slope(), WithinAbs(0.03, round_off));
        CHECK_THAT(clock_of(seen), WithinAbs(clock_h, 1e-9));
        CHECK_THAT(clock_of_direction(clock_direction(clock_h)), WithinAbs(clock_h, 1e-9));
    }
    CHECK(along_across(0.02, 12).falls_left == 0);
    CHECK(along_across(0.02, 3).up == 0);
    CHECK(along_across(0.02, 3).falls_left == 0.02);  // the ball right of the hole: falls left
    CHECK(along_across(0.02, 6).up == 0.02);          // below it: uphill
}

TEST_CASE("On the level there is no clock to be told, whatever was typed") {
    PuttRequest request = of_length("12ft");
    request.slope = "0%";
    request.clock = "3";
    CHECK_FALSE(clock_of(set_up(request, {}).setup));
}

TEST_CASE("Wind, grain and skid are part of the putt that is edited") {
    PuttRequest request = of_length("12ft");
    request.slope = "2%";
    request.clock = "3";
    request.conditions = {.launch_spin = "0", .wind = "6m/s", .wind_from = "left"};
    Setup setup = set_up(request, {}).setup;
    set_distance(setup, 5);
    const Conditions& kept = putt_of(setup).conditions;
    CHECK(kept.launch_spin == 0.0);
    CHECK(kept.wind_m_s.norm() > 2);
}

TEST_CASE("A slope that is read anew leaves the wind in the player's face") {
    PuttRequest request = of_length("12ft");
    request.up = "2%";
    request.conditions = {.wind = "6m/s", .wind_from = "hole"};
    Setup setup = set_up(request, {}).setup;
    const auto into_face = [&] {
        const Putt putt = putt_of(setup);
        return -putt.conditions.wind_m_s.dot(putt.line().normalized());
    };
    const double before = into_face();
    CHECK_THAT(before, WithinAbs(setup.conditions.wind_m_s.norm(), round_off));
    set_along_across(setup, {0.01, 0.02});
    CHECK_THAT(into_face(), WithinAbs(before, round_off));
    set_face(setup, SlopeFace::three_rows);
    set_row(setup, 2, {-0.01, -0.03});
    CHECK_THAT(into_face(), WithinAbs(before, 1e-9));
}

TEST_CASE("A mirrored putt mirrors its wind: the same read to the other side") {
    PuttRequest request = of_length("12ft");
    request.slope = "2%";
    request.clock = "2";
    request.conditions = {.wind = "8m/s", .wind_from = "left"};
    Setup setup = set_up(request, {}).setup;
    const double angle = first_angle(putt_of(setup));
    mirror(setup);
    CHECK_THAT(first_angle(putt_of(setup)), WithinAbs(-angle, 1e-6));
}

TEST_CASE("the three faces of the slope are the same ground") {
    Setup setup;
    setup.distance_m = 12 * foot;
    setup.slope = 0.02;
    setup.clock_h = 4;
    const double angle = solve(setup, usual_past_m, Effort::settled).read->stroke.angle_rad;
    const AlongAcross values = along_across(setup);
    set_along_across(setup, values);
    REQUIRE_THAT(setup.slope, WithinAbs(0.02, 1e-9));
    REQUIRE_THAT(setup.clock_h, WithinAbs(4, 1e-9));
    set_face(setup, SlopeFace::three_rows);
    REQUIRE_THAT(row(setup, 1).up, WithinAbs(values.up, 1e-9));
    // Solved by shooting there, in closed form before: the solver promises 1e-6 degrees.
    REQUIRE_THAT(solve(setup, usual_past_m, Effort::settled).read->stroke.angle_rad,
                 WithinAbs(angle, 2e-8));
    set_row(setup, 2, {0.01, 0.03});
    REQUIRE_THAT(setup.slope, WithinAbs(std::hypot(0.01, 0.03), 1e-9));
    set_face(setup, SlopeFace::total);
    REQUIRE(setup.readings.empty());
}

}  // namespace
}  // namespace dewtrail
