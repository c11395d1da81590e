/// How many lines a putt has, that each holds when rolled, and why there is none.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/read.hpp"
#include "physics/surface/line_profile.hpp"
#include "tests/support/gsl_roll.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::bare_putt;
using oracle::inches_past;
using oracle::line_only;
using oracle::read_of;

NoLine no_line_of(const Putt& putt, const ReadOptions& options = line_only()) {
    const ReadResult result = read(putt, options);
    CHECK(result.lines.empty());
    REQUIRE(result.none);
    return *result.none;
}

TEST_CASE("no line: where nothing stops", "[read]") {
    const Putt putt = bare_putt(12, 0.09, 35, 0, inches_past(12));
    const NoLine none = no_line_of(putt);
    CHECK(none.why == NoLine::Why::never_stops);
    CHECK_THAT(none.holds_up_to_slope, WithinAbs(putt.resistance, 1e-15));
    CHECK_THAT(none.friction_over_slope.value(), WithinAbs(putt.resistance / 0.09, 1e-12));
    REQUIRE(none.least_arrival_m_s);
    const double cosine = 1 / std::hypot(1, 0.09);
    const double gain = 5.0 / 7 * gravity_m_s2 * (0.09 - putt.resistance) * cosine;
    CHECK_THAT(*none.least_arrival_m_s,
               WithinAbs(std::sqrt(2 * gain * putt.distance_m() / cosine), 1e-9));
}

TEST_CASE("no line: always faster than asked", "[read]") {
    Putt putt = bare_putt(12, 0.12, 20, 2, Finish::hole_speed(0.1));
    const NoLine none = no_line_of(putt);
    CHECK(none.why == NoLine::Why::always_faster);
    REQUIRE(none.least_arrival_m_s);
    CHECK(*none.least_arrival_m_s > 0.1);
    putt.finish = Finish::hole_speed(1.01 * *none.least_arrival_m_s);
    CHECK_THAT(read_of(putt).arrival_speed_m_s,
               WithinAbs(putt.finish.value, most_finish_error_m_s));
}

TEST_CASE("where friction does not hold there are two lines, and both are told", "[read]") {
    const Putt putt = bare_putt(11, 0.12, 6, 2, Finish::hole_speed(1.5));
    ReadOptions options = line_only();
    const ReadResult first = read(putt, options);
    REQUIRE(first.lines.size() == 1);
    CHECK(first.other_lines == 1);
    options.every_line = true;
    const ReadResult both = read(putt, options);
    REQUIRE(both.lines.size() == 2);
    CHECK(both.other_lines == 1);
    CHECK(both.lines[0].stroke.angle_rad == first.lines[0].stroke.angle_rad);
    CHECK(std::abs(both.lines[1].stroke.angle_rad) > std::abs(both.lines[0].stroke.angle_rad));
    for (const Read& line : both.lines) {
        CHECK_THAT(line.arrival_speed_m_s, WithinAbs(1.5, most_finish_error_m_s));
        CHECK_FALSE(line.past_m);
    }
}

TEST_CASE("several lines on a curved green are found and each holds", "[read]") {
    // Invented stairs, quick, along the riser: by the lower tier, or up the riser and down again.
    const Green green = oracle::shipped_green("stairs");
    Putt putt = oracle::putt_on(green, "foot", "front", Finish::past(0.3));
    putt.resistance = oracle::resistance(13);
    putt.ball = Vec2(14.40, 5.15);
    putt.hole = Vec2(17.43, 8.34);
    ReadOptions options = line_only();
    options.every_line = true;
    const ReadResult result = read(putt, options);
    REQUIRE(result.lines.size() >= 2);
    CHECK(result.lines[1].stroke.angle_rad < result.lines[0].stroke.angle_rad - 0.1);
    for (const Read& line : result.lines) {
        oracle::GslOptions gsl;
        gsl.hole = putt.hole;
        const auto rolled =
            oracle::gsl_roll(*putt.surface, putt.resistance, putt.launch(line.stroke), gsl);
        REQUIRE((rolled.pass && rolled.rested));
        CHECK_THAT((rolled.pass->at - putt.hole).norm(), WithinAbs(0, most_miss_m));
        CHECK_THAT(rolled.last.arc_m - rolled.pass->arc_m, WithinAbs(0.3, most_finish_error_m));
    }
}

TEST_CASE("long putts over the riser are read", "[read]") {
    // Slow stairs, from the lower tier to the upper one: nothing turns back, so there is a line.
    struct Known {
        Vec2 ball, hole;
        double past_m;
    };
    const auto known = GENERATE(values<Known>({{{8.36059, 6.24416}, {13.4265, 19.4252}, 0},
                                               {{8.4, 6.2}, {13.4, 19.4}, 0},
                                               {{9, 4.5}, {10.5, 20.5}, 0.3},
                                               {{14, 10}, {10.5, 20.5}, 0}}));
    Putt putt = oracle::putt_on(oracle::shipped_green("stairs"), "foot", "back",
                                Finish::past(known.past_m));
    putt.resistance = oracle::resistance(4.15);
    putt.ball = known.ball;
    putt.hole = known.hole;
    CHECK_FALSE(read(putt, line_only()).lines.empty());
}

TEST_CASE("a slow arrival on a slow green is read", "[read]") {
    // 0.05 m/s at the centre after 17 m at 7 m/s: an error of a micrometre in place is one of
    // 1e-4 m/s in speed, all that a read may err, so the solver must roll finer than elsewhere.
    Putt putt = oracle::putt_on(oracle::shipped_green("turtle"), "north", "crest",
                                Finish::hole_speed(0.05));
    putt.resistance = oracle::resistance(3.5);
    putt.ball = Vec2(4.56079, 17.08508);
    putt.hole = Vec2(22.05870, 16.30942);
    CHECK_FALSE(read(putt, line_only()).lines.empty());
}

TEST_CASE("a ball that the slope all but keeps going is checked finely enough", "[read]") {
    // k = 1.018: rolled at the usual tolerance the check errs by a tenth of a millimetre, all that
    // the right line may.
    Putt putt = bare_putt(10, 0.1291337814031504, 30, 3, Finish::past(1.9494032607319436));
    putt.resistance = 0.13146498894699082;
    putt.ball = Vec2(10.704480113182226, 7.2668736960230564);
    CHECK_FALSE(read(putt, line_only()).lines.empty());
}

TEST_CASE("too delicate to check is told in finite numbers", "[read]") {
    // Friction a few parts in 10^5 above the slope: the roll of the check does not come to an end.
    Putt putt = bare_putt(10, 0.12204325707507782, 30, 3, Finish::past(2.1511280109695825));
    putt.resistance = 0.12204499968380712;
    putt.ball = Vec2(3.5289819348829794, 9.9341414443652134);
    const ReadResult result = read(putt, line_only());
    if (!result.none) return;
    CHECK(result.none->why == NoLine::Why::check_failed);
    if (result.none->check_miss_m) CHECK(std::isfinite(*result.none->check_miss_m));
}

TEST_CASE("a line that runs off the green is told as such", "[read]") {
    Putt putt = bare_putt(10, 0.04, 20, 3, inches_past(12));
    // A lane that holds ball and hole, but not the bow above them.
    putt.outline =
        std::make_shared<Outline>(std::vector<Vec2>{{-1, -2}, {7, -2}, {7, 0.3}, {-1, 0.3}});
    CHECK(no_line_of(putt).why == NoLine::Why::leaves_the_green);
    putt.outline = std::make_shared<Outline>(std::vector<Vec2>{{-1, -2}, {7, -2}, {7, 3}, {-1, 3}});
    CHECK_FALSE(read(putt, line_only()).lines.empty());
}

TEST_CASE("past the hole the surface goes on for a metre beyond the edge", "[read]") {
    Putt putt = bare_putt(10, 0, 6, 6, Finish::past(1.2));
    const auto edge_behind = [&](double m) {
        putt.outline =
            std::make_shared<Outline>(std::vector<Vec2>{{-2, -3}, {2, -3}, {2, m}, {-2, m}});
    };
    edge_behind(0.3);
    CHECK_THAT(read_of(putt).past_m.value(), WithinAbs(1.2, 1e-6));
    edge_behind(0.1);
    CHECK(no_line_of(putt).why == NoLine::Why::leaves_the_green);
}

TEST_CASE("solve, then roll: readings along the line", "[read]") {
    const Vec2 ball(2, 1), hole(4, 5);
    const std::vector<LineReading> readings{
        {0, 0.01, 0.03}, {1.5, -0.02, 0.02}, {3, 0.02, -0.02}, {4.5, 0.0, 0.01}};
    Putt putt;
    putt.surface = std::make_shared<LineProfile>(ball, hole, readings);
    putt.resistance = oracle::resistance(10);
    putt.ball = ball;
    putt.hole = hole;
    putt.finish = GENERATE(Finish::past(0), Finish::past(0.45), Finish::hole_speed(1.2));
    const Read line = read_of(putt);
    oracle::GslOptions gsl;
    gsl.hole = hole;
    const auto rolled =
        oracle::gsl_roll(*putt.surface, putt.resistance, putt.launch(line.stroke), gsl);
    REQUIRE(rolled.rested);
    if (putt.finish.value == 0) {
        CHECK_THAT((rolled.last.at - hole).norm(), WithinAbs(0, most_miss_m));
        return;
    }
    REQUIRE(rolled.pass);
    CHECK_THAT((rolled.pass->at - hole).norm(), WithinAbs(0, most_miss_m));
    if (putt.finish.kind == Finish::Kind::past)
        CHECK_THAT(rolled.last.arc_m - rolled.pass->arc_m, WithinAbs(0.45, most_finish_error_m));
    else
        CHECK_THAT(rolled.pass->speed_m_s, WithinAbs(1.2, most_finish_error_m_s));
}

TEST_CASE("a plane given as a curved surface is read as the plane it is", "[read]") {
    // One reading makes a plane; shooting must come to what the closed form gives.
    const double clock = GENERATE(1.0, 3.0, 5.0);
    const Putt plane = bare_putt(10, 0.03, 14, clock, GENERATE(Finish::past(0), Finish::past(0.3)));
    Putt profile = plane;
    const Vec2 e = plane.line().normalized();
    profile.surface = std::make_shared<LineProfile>(
        plane.ball, plane.hole, std::vector<LineReading>{{0, 0.03 * e.y(), 0.03 * -e.x()}});
    const Read exact = read_of(plane), shot = read_of(profile);
    // Newton ends within 1e-6 m of its targets over 4 m.
    CHECK_THAT(shot.stroke.angle_rad, WithinAbs(exact.stroke.angle_rad, 2e-6));
    CHECK_THAT(shot.stroke.speed_m_s, WithinAbs(exact.stroke.speed_m_s, 2e-6));
}

}  // namespace
}  // namespace dewtrail
