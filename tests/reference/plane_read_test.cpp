/// Reads on planes against a second exact solution (tests/support/plane_putt.hpp), and that
/// solution against published worked cases elsewhere and a numerical integration here.

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "physics/read/plane_line.hpp"
#include "physics/read/read.hpp"
#include "physics/roll/green_speed.hpp"
#include "tests/support/gsl_roll.hpp"
#include "tests/support/plane_putt.hpp"
#include "tests/support/random.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

// What the program promises (README: promises). Worst seen in these tests: see each case.
constexpr double promised_angle_deg = 1e-6, promised_speed_m_s = 1e-6;
// `read` takes apex and time from an integration at 1e-9 a step over some 50 steps.
constexpr double promised_apex_m = 1e-5, promised_time_s = 1e-5;

constexpr double degree = M_PI / 180;

struct Case {
    oracle::PlanePutt putt;
    std::string words;
};

Case bare_putt(double stimp_ft, double slope, double feet, double clock_h, Finish finish) {
    const Vec2 ball = feet * metres_per_foot * along_bearing(clock_h * M_PI / 6);
    const bool past = finish.kind == Finish::Kind::past;
    return {{Vec2(0, slope), resistance_of_stimp(stimp_ft * metres_per_foot), -ball, finish},
            "stimp " + std::to_string(stimp_ft) + ", slope " + std::to_string(slope) + ", " +
                std::to_string(feet) + " ft, clock " + std::to_string(clock_h) +
                (past ? ", past " : ", hole speed ") + std::to_string(finish.value)};
}

Putt as_putt(const oracle::PlanePutt& p) {
    Putt putt;
    putt.surface = std::make_shared<Plane>(p.gradient);
    putt.resistance = p.resistance;
    putt.ball = -p.hole_from_ball;
    putt.finish = p.finish;
    return putt;
}

struct Worst {
    double angle_deg = 0, speed_m_s = 0;
};

/// Compares every line; adds what it finds to the worst seen.
void compare_lines(const Case& c, Worst& worst) {
    INFO(c.words);
    const auto lines =
        lines_on_plane(c.putt.gradient, c.putt.resistance, c.putt.hole_from_ball, c.putt.finish);
    const auto exact = oracle::solve(c.putt);
    REQUIRE(lines.strokes.size() == exact.lines.size());
    for (std::size_t i = 0; i < exact.lines.size(); ++i) {
        const double angle_off =
            std::abs(lines.strokes[i].angle_rad - double(exact.lines[i].angle_rad)) / degree;
        const double speed_off =
            std::abs(lines.strokes[i].speed_m_s - double(exact.lines[i].speed_m_s));
        CHECK(angle_off <= promised_angle_deg);
        CHECK(speed_off <= promised_speed_m_s);
        worst.angle_deg = std::max(worst.angle_deg, angle_off);
        worst.speed_m_s = std::max(worst.speed_m_s, speed_off);
    }
}

TEST_CASE("plane reads over the everyday range agree with the exact solution", "[reference]") {
    Worst worst;
    for (const double stimp : {6.0, 9.5, 14.0})
        for (const double slope : {0.0, 0.005, 0.02, 0.05})
            for (const double feet : {3.0, 10.0, 60.0})
                for (const double clock : {0.0, 0.01, 1.5, 3.0, 4.25, 6.0, 7.0, 9.0, 11.0})
                    for (const double inches : {0.0, 12.0, 36.0})
                        compare_lines(bare_putt(stimp, slope, feet, clock,
                                                Finish::past(inches * metres_per_inch)),
                                      worst);
    // Worst seen 3e-13 degrees and 1e-14 m/s; a thousandfold of that would still be a surprise.
    CHECK(worst.angle_deg < 1e-9);
    CHECK(worst.speed_m_s < 1e-10);
}

TEST_CASE("plane reads at a hole speed agree with the exact solution", "[reference]") {
    Worst worst;
    for (const double stimp : {7.0, 11.0, 14.0})
        for (const double slope : {0.01, 0.03, 0.05})
            for (const double clock : {0.5, 3.0, 5.5, 8.0})
                for (const double speed : {0.0, 0.1, 0.7, 2.5})
                    compare_lines(bare_putt(stimp, slope, 14, clock, Finish::hole_speed(speed)),
                                  worst);
    CHECK(worst.angle_deg < 1e-9);
    CHECK(worst.speed_m_s < 1e-10);
}

TEST_CASE("random plane reads agree with the exact solution", "[reference]") {
    oracle::Random random(20);
    Worst worst;
    for (int i = 0; i < 400; ++i) {
        const double stimp = random.between(3, 18);
        const double holds = resistance_of_stimp(stimp * metres_per_foot);
        compare_lines(bare_putt(stimp, holds * random.log_between(0.003, 0.98),
                                random.log_between(0.5, 130), random.between(0, 12),
                                random.chance(0.5) ? Finish::past(random.between(0, 3))
                                                   : Finish::hole_speed(random.between(0, 3))),
                      worst);
    }
    CHECK(worst.angle_deg < 1e-8);
    CHECK(worst.speed_m_s < 1e-9);
}

TEST_CASE("steep reads agree line for line, where two lines exist and where none", "[reference]") {
    Worst worst;
    int with_two = 0, with_none = 0;
    // Few putts: the oracle scans for every line in long double and takes its time.
    for (const double slope : {0.09, 0.12, 0.2})
        for (const double feet : {3.0, 40.0})
            for (const double clock : {0.5, 3.0, 8.0}) {
                Case c = bare_putt(11, slope, feet, clock, Finish::hole_speed(1));
                const auto least = oracle::solve(c.putt).least_arrival_m_s;
                REQUIRE(least);
                // Away from the least arrival itself, where the two lines merge and none is sharp.
                for (const double share : {0.9, 1.02, 1.6}) {
                    c.putt.finish = Finish::hole_speed(share * double(*least));
                    compare_lines(c, worst);
                    const auto found = oracle::solve(c.putt).lines.size();
                    with_two += found == 2;
                    with_none += found == 0;
                }
            }
    CHECK(with_two == 36);
    CHECK(with_none == 18);
    CHECK(worst.angle_deg < promised_angle_deg);
}

TEST_CASE("the least arrival speed is the exact one and grows with the root of the distance",
          "[reference]") {
    const double clock = GENERATE(1.0, 3.0, 5.0), slope = GENERATE(0.1, 0.18);
    const auto least = [&](double feet) {
        const Case c = bare_putt(12, slope, feet, clock, Finish::past(0.3));
        const auto lines = lines_on_plane(c.putt.gradient, c.putt.resistance, c.putt.hole_from_ball,
                                          c.putt.finish);
        CHECK(lines.strokes.empty());
        REQUIRE(lines.least_arrival_m_s);
        // A minimum is flat: its value is good to rounding though its place is not.
        CHECK_THAT(*lines.least_arrival_m_s,
                   WithinAbs(double(*oracle::solve(c.putt).least_arrival_m_s), 1e-9));
        return *lines.least_arrival_m_s;
    };
    CHECK_THAT(least(40) / least(10), WithinAbs(2.0, 1e-9));
}

/// The one read of a putt, and the exact one.
struct Both {
    Read line;
    oracle::PlaneLine exact;
};

Both random_read(oracle::Random& random, Finish finish) {
    const Case c = bare_putt(random.between(6, 14), random.between(0.002, 0.045),
                             random.between(3, 60), random.between(0, 12), finish);
    INFO(c.words);
    ReadOptions options;
    options.room = options.costs = false;
    const ReadResult result = read(as_putt(c.putt), options);
    REQUIRE(result.lines.size() == 1);
    return {result.lines[0], oracle::solve(c.putt).lines.at(0)};
}

TEST_CASE("apex, time and arrival of a read on a plane are the exact ones", "[reference]") {
    oracle::Random random(7);
    for (int i = 0; i < 120; ++i) {
        const auto [line, exact] = random_read(random, Finish::past(random.between(0.01, 0.9)));
        CHECK_THAT(line.arrival_time_s, WithinAbs(double(exact.time_s), promised_time_s));
        CHECK_THAT(line.arrival_speed_m_s, WithinAbs(double(exact.hole_speed_m_s), 1e-6));
        REQUIRE(line.past_m);
        CHECK_THAT(*line.past_m, WithinAbs(double(*exact.past_m), 1e-6));
        if (std::abs(exact.apex_offset_m) < 2e-4L) continue;  // near what counts as straight
        REQUIRE(line.apex);
        CHECK_THAT(line.apex->offset_m, WithinAbs(double(exact.apex_offset_m), promised_apex_m));
        CHECK_THAT(line.apex->along_m, WithinAbs(double(exact.apex_along_m), promised_apex_m));
    }
}

TEST_CASE("dead weight dies at the hole in the exact time", "[reference]") {
    oracle::Random random(8);
    for (int i = 0; i < 40; ++i) {
        const auto [line, exact] = random_read(random, Finish::past(0));
        // A ball 1e-9 m short of or beyond dying there passes at sqrt(2 a 1e-9), some 5e-5 m/s, and
        // so much over a earlier: no integration tells the time of rest better from the passing.
        CHECK_THAT(line.arrival_time_s, WithinAbs(double(exact.time_s), 1e-3));
        CHECK_THAT(line.arrival_speed_m_s, WithinAbs(0, 1e-4));
    }
}

TEST_CASE("the exact solution is what an integration of the motion gives", "[reference][oracle]") {
    const Case c = GENERATE(bare_putt(10, 0.02, 12, 3, Finish::past(0.3)),
                            bare_putt(12, 0.045, 30, 10.5, Finish::past(0.9)),
                            bare_putt(7, 0.03, 8, 5, Finish::past(0)));
    const auto exact = oracle::solve(c.putt).lines.at(0);
    const Putt putt = as_putt(c.putt);
    oracle::GslOptions options;
    options.hole = putt.hole;
    const auto rolled =
        oracle::gsl_roll(*putt.surface, putt.resistance,
                         putt.launch({double(exact.angle_rad), double(exact.speed_m_s)}), options);
    REQUIRE(rolled.rested);
    if (c.putt.finish.value == 0) {
        CHECK_THAT(rolled.last.at.norm(), WithinAbs(0, 1e-9));
        CHECK_THAT(rolled.last.time_s, WithinAbs(double(exact.time_s), 1e-9));
        return;
    }
    REQUIRE(rolled.pass);
    CHECK_THAT(rolled.pass->at.norm(), WithinAbs(0, 1e-9));
    CHECK_THAT(rolled.pass->time_s, WithinAbs(double(exact.time_s), 1e-9));
    CHECK_THAT(rolled.pass->speed_m_s, WithinAbs(double(exact.hole_speed_m_s), 1e-9));
    CHECK_THAT(rolled.last.arc_m - rolled.pass->arc_m, WithinAbs(c.putt.finish.value, 1e-9));
}

}  // namespace
}  // namespace dewtrail
