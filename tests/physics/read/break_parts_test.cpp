// Why one putt breaks more than another: against a quadrature of its own over the hodograph, and
// against the definition of the Shapley value.

#include "physics/read/break_parts.hpp"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/roots.hpp>
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/plane_putt.hpp"
#include "tests/support/putts.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using oracle::bare_putt;
using oracle::inches_past;

namespace {

Bend bend_of_read(const Putt& putt) {
    ReadOptions options = oracle::line_only();
    options.keep_path = true;
    const ReadResult result = read(putt, options);
    REQUIRE_FALSE(result.lines.empty());
    const auto bend = bend_of(putt, result.lines.front());
    REQUIRE(bend);
    return *bend;
}

Bend twelve_feet(double clock_h, double slope = 0.02, double stimp_ft = 10, double past_in = 12) {
    return bend_of_read(bare_putt(stimp_ft, slope, 12, clock_h, inches_past(past_in)));
}

/// The same three numbers from the second closed form and a quadrature over u = tan(psi/2), where
/// dt = -v / (pull u) du. Right half of the clock: it breaks to the left.
Bend by_quadrature(double clock_h, double slope, double stimp_ft, double feet, double past_in) {
    const Putt putt = bare_putt(stimp_ft, slope, feet, clock_h, inches_past(past_in));
    const oracle::PlanePutt asked{{0, slope}, putt.resistance, putt.line(), putt.finish};
    const oracle::PlaneLine line = oracle::solve(asked).lines.at(0);
    const double theta = static_cast<double>(line.angle_rad), T = static_cast<double>(line.time_s);
    const double cosine = 1 / std::sqrt(1 + slope * slope);  // of the slope angle
    const double pull = 5.0 / 7 * gravity_m_s2 * slope * cosine;
    const double k = putt.resistance / slope;

    const Vec2 start = along_bearing(bearing_of(putt.line()) + theta);
    const Vec2 toward(-start.y(), start.x()), downhill(0, -1);
    const Vec2 across(start.x() < 0 ? -1 : 1, 0);
    const double psi0 = std::atan2(start.dot(across), start.dot(downhill) / cosine);
    const oracle::PlaneRoll roll{pull, k, line.speed_m_s, std::tan(psi0 / 2)};
    const auto time = [&](double u) { return static_cast<double>(roll.at(u).time); };
    const double u0 = std::tan(psi0 / 2);
    const auto at_hole =
        boost::math::tools::bisect([&](double u) { return time(u) - T; }, 1e-6 * u0, u0,
                                   boost::math::tools::eps_tolerance<double>(50));
    const double uT = (at_hole.first + at_hole.second) / 2;

    const auto friction = [&](double u) {
        const double psi = 2 * std::atan(u), v = static_cast<double>(roll.at(u).speed);
        const Vec2 heading = std::cos(psi) * cosine * downhill + std::sin(psi) * across;
        return (T - time(u)) * -k * pull * heading.dot(toward) * v / (pull * u);
    };
    const double sum =
        boost::math::quadrature::gauss_kronrod<double, 31>::integrate(friction, uT, u0, 10, 1e-12);
    return {T, pull * cosine * downhill.dot(toward) / 2 / std::cos(theta),
            sum / (T * T * std::cos(theta)), feet * metres_per_foot * std::tan(theta)};
}

/// The definition: the mean over all orders of changing the causes from b's to a's.
std::array<double, 3> shapley(const Bend& a, const Bend& b) {
    std::array<int, 3> order{0, 1, 2};
    std::array<double, 3> mean{};
    do {
        std::array<bool, 3> changed{};
        const auto value = [&] {
            const double t = (changed[0] ? a : b).time_s;
            return t * t * ((changed[1] ? a : b).gravity_m_s2 + (changed[2] ? a : b).friction_m_s2);
        };
        for (const int cause : order) {
            const double before = value();
            changed[cause] = true;
            mean[cause] += (value() - before) / 6;
        }
    } while (std::next_permutation(order.begin(), order.end()));
    return mean;
}

}  // namespace

TEST_CASE("time and pulls of a bend agree with a quadrature of the hodograph", "[break_parts]") {
    // 12 ft, 2 %, stimp 10, 12 in past; 1:30 and 4:30, and a few others. The path's points carry
    // the solver's 1e-9, Simpson's rule over 0.03 s less than that.
    constexpr double tolerance = 1e-7;
    struct Case {
        double clock_h, slope, stimp_ft, feet, past_in;
    };
    for (const Case& c : {Case{1.5, 0.02, 10, 12, 12}, Case{4.5, 0.02, 10, 12, 12},
                          Case{3, 0.04, 11, 20, 24}, Case{2, 0.03, 12, 6, 3}}) {
        INFO("clock " << c.clock_h);
        const Bend own =
            bend_of_read(bare_putt(c.stimp_ft, c.slope, c.feet, c.clock_h, inches_past(c.past_in)));
        const Bend other = by_quadrature(c.clock_h, c.slope, c.stimp_ft, c.feet, c.past_in);
        CHECK_THAT(own.time_s, WithinAbs(other.time_s, tolerance));
        CHECK_THAT(own.gravity_m_s2, WithinAbs(other.gravity_m_s2, tolerance));
        CHECK_THAT(own.friction_m_s2, WithinAbs(other.friction_m_s2, tolerance));
        CHECK_THAT(own.break_m, WithinAbs(other.break_m, tolerance));
    }
}

TEST_CASE("the parts are the Shapley values and add up to the whole", "[break_parts]") {
    const Bend downhill = twelve_feet(1.5), uphill = twelve_feet(4.5);
    const BreakParts parts = break_parts(downhill, uphill);
    const auto defined = shapley(downhill, uphill);
    constexpr double rounding = 1e-14;  // a dozen operations on metres
    CHECK_THAT(parts.time_m, WithinAbs(defined[0], rounding));
    CHECK_THAT(parts.gravity_m, WithinAbs(defined[1], rounding));
    CHECK_THAT(parts.friction_m, WithinAbs(defined[2], rounding));
    CHECK_THAT(parts.time_m + parts.pull_m() + parts.residual_m,
               WithinAbs(parts.whole_m, rounding));
    CHECK(std::abs(parts.residual_m) < 1e-6);  // promised; of 0.11 m
    CHECK_THAT(parts.whole_m, WithinAbs(downhill.break_m - uphill.break_m, rounding));
    CHECK(parts.time_m > std::abs(parts.pull_m()));  // time is the larger cause here
}

TEST_CASE("swapping two putts changes the sign of every part", "[break_parts]") {
    const Bend a = twelve_feet(2, 0.03, 11, 6), b = twelve_feet(4, 0.02, 9, 24);
    const BreakParts ab = break_parts(a, b), ba = break_parts(b, a);
    CHECK(ab.time_m == -ba.time_m);
    CHECK(ab.gravity_m == -ba.gravity_m);
    CHECK(ab.friction_m == -ba.friction_m);
    CHECK(ab.whole_m == -ba.whole_m);
}

TEST_CASE("a mirrored putt bends as much; identical putts differ in nothing", "[break_parts]") {
    constexpr double mirrored = 1e-9;  // two solutions, each to the solver's tolerance
    for (const double clock_h : {1.5, 3.0, 5.0}) {
        const Bend right = twelve_feet(clock_h), left = twelve_feet(12 - clock_h);
        CHECK_THAT(right.time_s, WithinAbs(left.time_s, mirrored));
        CHECK_THAT(right.gravity_m_s2, WithinAbs(left.gravity_m_s2, mirrored));
        CHECK_THAT(right.friction_m_s2, WithinAbs(left.friction_m_s2, mirrored));
        CHECK(right.break_m > 0);
        CHECK_THAT(right.break_m, WithinAbs(left.break_m, mirrored));
    }
    const BreakParts none = break_parts(twelve_feet(3), twelve_feet(3));
    CHECK(none.time_m == 0);
    CHECK(none.gravity_m == 0);
    CHECK(none.friction_m == 0);
    CHECK(none.residual_m == 0);
}

TEST_CASE("the integral is the break on planes and on greens", "[break_parts]") {
    const auto worst = [](const Putt& putt) {
        const Bend bend = bend_of_read(putt);
        return std::abs(bend.from_pull_m() - bend.break_m);
    };
    for (const double feet : {2.0, 12.0, 60.0, 130.0})
        for (const double clock_h : {0.5, 3.0, 5.5})
            CHECK(worst(bare_putt(10, 0.02, feet, clock_h, inches_past(12))) < 1e-6);
    CHECK(worst(bare_putt(10, 0.03, 12, 3, Finish::past(0))) < 1e-6);  // dead weight
    const Green meadow = oracle::shipped_green("meadow"), stairs = oracle::shipped_green("stairs");
    CHECK(worst(oracle::putt_on(meadow, "left", "flag", inches_past(12))) < 1e-5);
    CHECK(worst(oracle::putt_on(stairs, "right", "front", inches_past(12))) < 1e-5);
}

TEST_CASE("a straight putt bends by nothing", "[break_parts]") {
    const Bend bend = twelve_feet(12);
    CHECK_THAT(bend.break_m, WithinAbs(0, 1e-9));
    CHECK_THAT(bend.pull_m_s2(), WithinAbs(0, 1e-9));
}

TEST_CASE("a bend needs the path", "[break_parts]") {
    const Putt putt = bare_putt(10, 0.02, 12, 3, inches_past(12));
    const Read bare = read(putt, oracle::line_only()).lines.front();
    CHECK_THROWS_AS(bend_of(putt, bare), std::invalid_argument);
}
