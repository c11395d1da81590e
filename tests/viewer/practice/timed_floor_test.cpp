#include "viewer/practice/measure/timed_floor.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "greens/input_error.hpp"
#include "greens/units.hpp"
#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/green_speed.hpp"
#include "tests/support/gsl_roll.hpp"
#include "viewer/practice/drill/random_stream.hpp"
#include "viewer/practice/measure/measure_words.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace {

/// GSL's roll over a level floor toward +y: how far, and when it passed a place.
struct OnFloor {
    double stimp_ft, speed_m_s;

    oracle::GslRoll roll(const oracle::GslOptions& options = {}) const {
        const double resistance = resistance_of_stimp(stimp_ft * metres_per_foot);
        return oracle::gsl_roll(Plane(Vec2(0, 0)), resistance, {Vec2(0, 0), 0, speed_m_s}, options);
    }
    double rolls_m() const { return roll().last.arc_m; }
    /// The rim's near edge lies there.
    double time_s(double along_m) const {
        if (along_m == 0) return 0;
        return roll({.hole = Vec2(0, along_m + hole_radius_m)}).rim.value().time_s;
    }
};

/// By a stroke of this tempo, on a green of stimp 10.
Player with_table(double backswing_s, std::initializer_list<double> off) {
    const double resistance = resistance_of_stimp(10 * metres_per_foot);
    Player player;
    player.stimp_ft = 10;
    double roll_m = 1;
    for (const double share : off) {
        player.stroke_table.push_back(
            {share * backswing_s * speed_of_level_roll_m_s(roll_m, resistance), roll_m});
        roll_m += 1.5;
    }
    return player;
}

}  // namespace

TEST_CASE("the time over a stretch tells the roll that a longer floor would have seen",
          "[measure]") {
    RandomStream random(5);
    for (int i = 0; i < 40; ++i) {
        const OnFloor ball{random.between(7, 15), random.between(1.5, 3)};
        const double rolls_m = ball.rolls_m();
        Stretch stretch{i % 2 == 0 ? 0 : random.between(0.2, 0.3) * rolls_m, 0};
        stretch.to_m = stretch.from_m + random.between(0.2, 0.6) * rolls_m;
        const double time_s = ball.time_s(stretch.to_m) - ball.time_s(stretch.from_m);
        INFO("stimp " << ball.stimp_ft << ", " << ball.speed_m_s << " m/s, timed from "
                      << stretch.from_m << " to " << stretch.to_m << " m in " << time_s);
        // GSL's times are good to 1e-8 s; a metre of roll hangs on them some ten times over.
        CHECK_THAT(roll_by_time_m(stretch, time_s, ball.stimp_ft).value(),
                   WithinAbs(rolls_m, 1e-6));
        CHECK_THAT(time_of_roll_s(stretch, rolls_m, ball.stimp_ft).value(),
                   WithinAbs(time_s, 1e-6));
    }
    CHECK_FALSE(roll_by_time_m({0, 2}, 60, 10));
    CHECK_FALSE(roll_by_time_m({1, 2}, 60, 10));
    CHECK_FALSE(time_of_roll_s({1, 2}, 1.5, 10));
}

TEST_CASE("balls that say how far the putter went back tell the floor's stimp", "[measure]") {
    constexpr double backswing_s = 0.14, floor_ft = 13;
    const Player player = with_table(backswing_s, {1, 1, 1, 1});
    const auto drawn = [&](double speed_m_s) {
        return BallStop{OnFloor{floor_ft, speed_m_s}.rolls_m(), backswing_s * speed_m_s};
    };
    const auto found = floor_stimp_ft({drawn(1.6), {4, {}}, drawn(2), drawn(2.6)}, player);
    REQUIRE(found);
    CHECK_THAT(found->mean, WithinAbs(floor_ft, 1e-6));  // GSL rolls to 1e-7 of the length
    // Balls and table without an error: 3 % of the speed, 6 % of the roll, 3 balls and 4 rows.
    const double off = 1.645 * 0.06 * std::sqrt(1.0 / 3 + 1.0 / 4);
    CHECK_THAT(std::log(found->hi / found->mean), WithinAbs(off, 1e-4));
    CHECK_THAT(std::log(found->mean / found->lo), WithinAbs(off, 1e-4));
    CHECK_FALSE(floor_stimp_ft({drawn(1.6), {4, {}}, drawn(2)}, player));
    CHECK_FALSE(floor_stimp_ft({drawn(1.6), drawn(2), drawn(2)}, Player{}));
    CHECK_THAT(floor_words(*found), Contains("this floor is stimp 13 (12–14)"));
}

TEST_CASE("of floors nine intervals in ten hold the stimp", "[measure]") {
    RandomStream random(31);
    constexpr int floors = 400;
    int held = 0;
    for (int i = 0; i < floors; ++i) {
        const double floor_ft = random.between(8, 15), tempo_s = random.between(0.1, 0.2);
        // Rows and balls miss the pendulum by 4 % of the speed.
        const auto off = [&] { return 1 + 0.04 * random.normal(); };
        const Player player = with_table(tempo_s, {off(), off(), off(), off(), off()});
        const double resistance = resistance_of_stimp(floor_ft * metres_per_foot);
        std::vector<BallStop> balls;
        for (int ball = 0; ball < 8; ++ball) {
            const double speed = random.between(1.5, 3);
            balls.push_back({level_roll_m(speed, resistance), tempo_s * speed * off()});
        }
        const auto found = floor_stimp_ft(balls, player);
        held += found->lo <= floor_ft && floor_ft <= found->hi;
    }
    INFO(held << " of " << floors);
    // The standard error is 1.5 %; five rows tell their own scatter to a third.
    CHECK(held >= 0.84 * floors);
    CHECK(held <= 0.96 * floors);
}

TEST_CASE("what is typed on a short floor", "[measure]") {
    const Units feet{};
    PaceFloor floor = usual_floor(feet);
    CHECK(parse_stop("11ft back 9in", 3, floor, feet).backswing_m == 9 * metres_per_inch);
    const BallStop shorter = parse_stop("10 in short, back 9 in", 3, floor, feet);
    CHECK_THAT(shorter.stopped_m, WithinAbs(3 - 10 * metres_per_inch, 1e-12));
    CHECK(shorter.backswing_m == 9 * metres_per_inch);
    CHECK_FALSE(parse_stop("11ft", 3, floor, feet).backswing_m);
    CHECK_THROWS_AS(parse_stop("11ft back 9ft", 3, floor, feet), InputError);

    CHECK(parse_stretch("6ft", feet).from_m == 0);
    CHECK_THAT(parse_stretch("6ft", feet).to_m, WithinAbs(6 * metres_per_foot, 1e-12));
    floor.timed = parse_stretch("3ft, 6ft", feet);
    CHECK_THAT(floor.timed->from_m, WithinAbs(3 * metres_per_foot, 1e-12));
    CHECK_THAT(floor.timed->to_m, WithinAbs(6 * metres_per_foot, 1e-12));
    CHECK(parse_stretch(stretch_as_typed(*floor.timed, feet), feet) == *floor.timed);
    CHECK(stretch_words(*floor.timed, feet) == "from 3 ft to 6 ft");
    CHECK(asked_words(floor) == "Seconds between the marks");
    CHECK_THROWS_AS(parse_stretch("6ft, 3ft", feet), InputError);
    CHECK_THROWS_AS(parse_stretch("6ft,", feet), InputError);
    CHECK(parse_stop("0.6s", 3, floor, feet).stopped_m == *roll_by_time_m(*floor.timed, 0.6, 10));
    // One that stops before the line is told by its length, and tells the floor's speed.
    CHECK_THAT(parse_stop("5ft back 6in", 3, floor, feet).stopped_m,
               WithinAbs(5 * metres_per_foot, 1e-12));
    CHECK_THROWS_AS(parse_stop("7ft", 3, floor, feet), InputError);
    CHECK_THROWS_AS(parse_stop("0.6s back 9in", 3, floor, feet), InputError);
    CHECK_THROWS_AS(parse_stop("60s", 3, floor, feet), InputError);

    const Player player = with_table(0.14, {1, 1});
    CHECK(parse_floor_stimp_ft("11½", feet, player) == 11.5);
    const double by_ball = parse_floor_stimp_ft("4ft back 6in", feet, player);
    CHECK_THAT(
        by_ball,
        WithinAbs(floor_stimp_ft({{4 * metres_per_foot, 6 * metres_per_inch}}, player, 1)->mean,
                  1e-9));
    CHECK_THROWS_AS(parse_floor_stimp_ft("4ft back 6in", feet, Player{}), InputError);
    CHECK_THROWS_AS(parse_floor_stimp_ft("40ft back 2in", feet, player), InputError);
}

TEST_CASE("what a hand's error of timing does is told", "[measure]") {
    const Units feet{};
    PaceFloor floor = usual_floor(feet);
    CHECK(timing_words(floor, feet).empty());
    floor.timed = Stretch{0, 6 * metres_per_foot};
    // Worked by hand: 13 ft at stimp 10 start at 6.841 ft/s and lose 1.8 ft/s each second, which is
    // 1.012 s to the line; 0.962 s are 7.104 ft/s, which roll 14.02 ft.
    CHECK_THAT(timing_words(floor, feet), Contains("13 ft counts as 14 ft:"));
    floor.timed = Stretch{0, 0.5 * metres_per_foot};
    CHECK_THAT(timing_words(floor, feet), Contains("too short"));
}
