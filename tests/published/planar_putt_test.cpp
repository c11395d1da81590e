/// Putts on a plane by the classical hodograph v = C tan^k(psi/2) / sin(psi), psi the heading from
/// straight downhill. Closed forms and worked numbers derived here, and checked there against RK4.
///
/// Those worked numbers take the level deceleration f = v_s^2/2S as it is; the program gives
/// friction its factor cos(theta). A resistance divided by cos(theta) makes the two the same.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/plane_line.hpp"
#include "physics/roll/roll.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/units.hpp"

using Catch::WithinAbs;
using Catch::WithinRel;

namespace dewtrail {
namespace {

using oracle::degree;

struct Slope {
    double slope, cosine, resistance;

    Slope(double stimp_ft, double percent)
        : slope(percent / 100),
          cosine(1 / std::sqrt(1 + slope * slope)),
          resistance(oracle::resistance(stimp_ft) / cosine) {}

    double k() const { return resistance / slope; }
    Plane plane() const { return Plane({0, slope}); }

    /// Launched to the right of the fall line, psi from straight downhill in the slope plane.
    Launch launch(double psi, double speed) const {
        const Vec2 plan(std::sin(psi), -std::cos(psi) * cosine);
        return {{0, 0}, bearing_of(plan), speed};
    }
    double psi(const PathPoint& p) const {
        const Vec2 e = along_bearing(p.bearing_rad);
        return std::atan2(e.x(), -e.y() / cosine);
    }
};

TEST_CASE("published: stops of four worked putts", "[published]") {
    struct Worked {
        double stimp_ft, percent, psi_deg, speed, across, down, time;
    };
    const auto w = GENERATE(values<Worked>({{10, 2, 90, 2.0, 3.70576, 0.49777, 3.89954},
                                            {10, 2, 135, 2.5, 3.72477, -3.14177, 3.99448},
                                            {12, 3, 60, 1.5, 2.50807, 2.45504, 5.11386},
                                            {8, 1, 20, 2.0, 1.04803, 3.05271, 3.22989}}));
    const Slope s(w.stimp_ft, w.percent);
    const Roll rolled = roll(s.plane(), s.resistance, s.launch(w.psi_deg * degree, w.speed));
    REQUIRE(rolled.end == RollEnd::at_rest);
    constexpr double last_digit = 6e-6;
    CHECK_THAT(rolled.last.at.x(), WithinAbs(w.across, last_digit));
    CHECK_THAT(-rolled.last.at.y() / s.cosine, WithinAbs(w.down, last_digit));
    CHECK_THAT(rolled.last.time_s, WithinAbs(w.time, last_digit));
}

TEST_CASE("published: v sin(psi) / tan^k(psi/2) keeps its value along a path", "[published]") {
    const Slope s(10, 2);
    RollOptions options;
    options.keep_path = true;
    const Roll rolled = roll(s.plane(), s.resistance, s.launch(120 * degree, 2.2), options);
    const auto constant = [&](const PathPoint& p) {
        const double psi = s.psi(p);
        return p.speed_m_s * std::sin(psi) / std::pow(std::tan(psi / 2), s.k());
    };
    REQUIRE(rolled.path.size() > 50);
    for (const PathPoint& p : rolled.path) {
        if (p.speed_m_s < 0.02)
            continue;  // below, rounding of the heading is raised to the k-th power
        CHECK_THAT(constant(p), WithinRel(constant(rolled.path.front()), 1e-6));
    }
}

TEST_CASE("published: dead-weight side-hill putt of 10 ft", "[published]") {
    struct Worked {
        double stimp_ft, percent, aim_deg, aim_in, speed, apex_in, apex_at;
    };
    const auto w = GENERATE(values<Worked>({{10, 2, 7.458, 15.71, 1.83684, 5.845, 0.6374},
                                            {12, 3, 14.082, 30.10, 1.69793, 11.54, 0.651}}));
    Putt putt = oracle::bare_putt(w.stimp_ft, w.percent / 100, 10, 9, Finish::past(0));
    putt.resistance = Slope(w.stimp_ft, w.percent).resistance;
    const ReadResult result = read(putt, oracle::line_only());
    REQUIRE(result.lines.size() == 1);
    const Read& line = result.lines[0];
    // Aims were given in the slope plane; seen on the plan they differ by a factor cos(theta).
    CHECK_THAT(-line.stroke.angle_rad / degree, WithinAbs(w.aim_deg, 0.007));
    CHECK_THAT(-*line.aim_offset_m / metres_per_inch, WithinAbs(w.aim_in, 0.015));
    CHECK_THAT(line.stroke.speed_m_s, WithinAbs(w.speed, 1e-5));
    REQUIRE(line.apex);
    CHECK_THAT(-line.apex->offset_m / metres_per_inch, WithinAbs(w.apex_in, 0.01));
    CHECK_THAT(line.apex->along_m / putt.distance_m(), WithinAbs(w.apex_at, 5e-4));
}

TEST_CASE("published: tan(psi0/2) of a dead-weight side-hill putt is ((k+1)/(k-1))^(1/4)",
          "[published]") {
    const double slope = GENERATE(0.005, 0.02, 0.05, 0.07);
    const double rho = oracle::resistance(10), k = rho / slope;
    const auto lines = lines_on_plane({0, slope}, rho, {2, 0}, Finish::past(0));
    REQUIRE(lines.strokes.size() == 1);
    const double psi0 = 2 * std::atan(std::pow((k + 1) / (k - 1), 0.25));
    // Launched left of a line to the right: the plan heading above that line.
    const double plan = std::atan2(-std::cos(psi0) / std::sqrt(1 + slope * slope), std::sin(psi0));
    CHECK_THAT(lines.strokes[0].angle_rad, WithinAbs(-plan, 1e-12));
}

/// Where the start line crosses the fall line through the hole, above the hole, on the plan.
double target_height_m(double slope, double rho, double length_m, double clock_h) {
    const Vec2 ball = length_m * along_bearing(clock_h * M_PI / 6);
    const auto lines = lines_on_plane({0, slope}, rho, -ball, Finish::past(0));
    const double bearing = bearing_of(-ball) + lines.strokes.at(0).angle_rad;
    const Vec2 e = along_bearing(bearing);
    return ball.y() - ball.x() / e.x() * e.y();
}

TEST_CASE("published: the target's limits straight up and straight down", "[published]") {
    const double slope = GENERATE(0.01, 0.03), rho = oracle::resistance(11), k = rho / slope;
    constexpr double beside = 1e-4;  // hours; the limit is reached with its square
    CHECK_THAT(target_height_m(slope, rho, 1, 6 - beside), WithinAbs(1 / (2 * k + 1), 1e-4));
    CHECK_THAT(target_height_m(slope, rho, 1, beside), WithinAbs(1 / (2 * k - 1), 1e-4));
}

TEST_CASE("published: a stop's direction does not depend on pace, its distance goes as v^2",
          "[published]") {
    // R. Cross, "Rolling to a stop down an inclined golf green", Phys. Teach. 63(1), 29 (2025) and
    // its companion: abstracts read; exact on a plane.
    const double psi = GENERATE(0.3, 1.5, 2.8);
    const Slope s(10, 3);
    const auto stop = [&](double speed) -> Vec2 {
        return roll(s.plane(), s.resistance, s.launch(psi, speed)).last.at;
    };
    const Vec2 one = stop(1);
    for (const double speed : {0.3, 2.0, 3.7}) {
        const Vec2 there = stop(speed);
        CHECK_THAT(bearing_of(there) - bearing_of(one), WithinAbs(0, 1e-6));
        CHECK_THAT(there.norm() / one.norm(), WithinRel(speed * speed, 1e-6));
    }
}

}  // namespace
}  // namespace dewtrail
