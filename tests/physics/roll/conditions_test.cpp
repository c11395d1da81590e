/// Wind, grain, speed-dependent resistance and skid: what they promise, one by one and together.

#include "physics/roll/conditions.hpp"
#include "physics/roll/sensitive_roll.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/read.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::inches_past;
using oracle::resistance;

Conditions only_wind() {
    Conditions c;
    c.wind_m_s = {2.5, 1.5};
    return c;
}
Conditions only_grain() {
    Conditions c;
    c.grain = {0.12, -0.06};
    return c;
}
Conditions only_slow() {
    Conditions c;
    c.slow_share = 0.75;
    return c;
}
Conditions only_skid() {
    Conditions c;
    c.launch_spin = -0.2;
    return c;
}
Conditions everything() {
    Conditions c = only_wind();
    c.grain = only_grain().grain;
    c.slow_share = 0.8;
    c.launch_spin = 0.1;
    return c;
}
const std::vector<std::pair<const char*, Conditions>> each{{"wind", only_wind()},
                                                           {"grain", only_grain()},
                                                           {"slow", only_slow()},
                                                           {"skid", only_skid()},
                                                           {"everything", everything()}};

Conditions mirrored(Conditions c) {
    c.wind_m_s.x() *= -1;
    c.grain.x() *= -1;
    return c;
}

Roll rolled(const Surface& surface, const Launch& launch, const Conditions& conditions,
            bool path = false) {
    RollOptions options;
    options.conditions = conditions;
    options.keep_path = path;
    return roll(surface, resistance(10), launch, options);
}

TEST_CASE("conditions that are off leave every bit of a roll as it was") {
    const Green saddle = oracle::shipped_green("saddle");
    const Launch launch{saddle.balls.begin()->second, 0.7, 1.9};
    Conditions off;
    off.wind_m_s = {0, 0};
    off.grain = {0, 0};
    off.slow_share = 1;
    const Roll plain = rolled(*saddle.surface, launch, {}, true),
               with = rolled(*saddle.surface, launch, off, true);
    REQUIRE(plain.path.size() == with.path.size());
    for (std::size_t i = 0; i < plain.path.size(); ++i) {
        CHECK(plain.path[i].at == with.path[i].at);
        CHECK(plain.path[i].speed_m_s == with.path[i].speed_m_s);
        CHECK(plain.path[i].time_s == with.path[i].time_s);
    }
}

TEST_CASE("conditions of hardly any strength change hardly anything") {
    // The general equations against the plain ones: other code, the same physics.
    const Green saddle = oracle::shipped_green("saddle");
    const Launch launch{saddle.balls.begin()->second, 0.7, 1.9};
    const Vec2 plain = rolled(*saddle.surface, launch, {}).last.at;
    constexpr double hint = 1e-9;
    Conditions c;
    c.grain = {hint, 0};
    CHECK_THAT((rolled(*saddle.surface, launch, c).last.at - plain).norm(), WithinAbs(0, 1e-7));
    c = {};
    c.wind_m_s = {hint, 0};
    CHECK_THAT((rolled(*saddle.surface, launch, c).last.at - plain).norm(), WithinAbs(0, 1e-7));
    c = {};
    c.slow_share = 1 - hint;
    CHECK_THAT((rolled(*saddle.surface, launch, c).last.at - plain).norm(), WithinAbs(0, 1e-7));
    c = {};
    c.launch_spin = 1 - hint;
    CHECK_THAT((rolled(*saddle.surface, launch, c).last.at - plain).norm(), WithinAbs(0, 1e-7));
}

TEST_CASE("a mirrored green under mirrored conditions mirrors the roll") {
    for (const auto& [name, c] : each) {
        INFO(name);
        const Roll right = rolled(Plane({0.021, 0.013}), {{0.3, 0.1}, 0.4, 2.2}, c);
        const Roll left = rolled(Plane({-0.021, 0.013}), {{-0.3, 0.1}, -0.4, 2.2}, mirrored(c));
        // 1e-9: ten times the tolerance of a step.
        CHECK_THAT(right.last.at.x(), WithinAbs(-left.last.at.x(), 1e-9));
        CHECK_THAT(right.last.at.y(), WithinAbs(left.last.at.y(), 1e-9));
        CHECK_THAT(right.last.time_s, WithinAbs(left.last.time_s, 1e-8));
    }
}

TEST_CASE("energy never rises without wind") {
    const Green saddle = oracle::shipped_green("saddle");
    const Vec2 from = saddle.balls.begin()->second;
    for (auto c : {only_grain(), only_slow(), everything()}) {
        c.wind_m_s = Vec2::Zero();
        c.launch_spin.reset();
        double energy = HUGE_VAL;
        for (const PathPoint& p : rolled(*saddle.surface, {from, 0.7, 1.9}, c, true).path) {
            const double height = saddle.surface->at(p.at.x(), p.at.y()).h;
            const double now = 0.7 * p.speed_m_s * p.speed_m_s + gravity_m_s2 * height;
            CHECK(now < energy + 1e-9);
            energy = now;
        }
    }
}

TEST_CASE("a skid only takes energy away") {
    for (const double spin : {-1.0, 0.0, 0.7, 1.4}) {
        Conditions c;
        c.launch_spin = spin;
        const double v = 2.2, slope = 0.03;
        const Roll uphill = rolled(Plane({0, slope}), {{0, 0}, 0, v}, c);
        REQUIRE(uphill.rolls_from);
        const PathPoint& rolls = *uphill.rolls_from;
        const double before = 0.5 * v * v + 0.2 * spin * v * spin * v;
        const double after =
            0.7 * rolls.speed_m_s * rolls.speed_m_s + gravity_m_s2 * slope * rolls.at.y();
        INFO("spin " << spin);
        CHECK(after < before);
    }
}

TEST_CASE("grain is what its two stimp readings say") {
    const GrainReading grain = grain_from_stimps(11 * metres_per_foot, 9 * metres_per_foot);
    Conditions c;
    c.grain = {0, grain.strength};
    RollOptions options;
    options.conditions = c;
    const auto rolls_m = [&](double bearing) {
        return roll(Plane({0, 0}), resistance_of_stimp(grain.stimp_m),
                    {{0, 0}, bearing, stimp_release_speed_m_s}, options)
            .last.arc_m;
    };
    CHECK_THAT(rolls_m(0), WithinAbs(11 * metres_per_foot, 1e-8));
    CHECK_THAT(rolls_m(M_PI), WithinAbs(9 * metres_per_foot, 1e-8));
    // Across it the ball bends the way the grass lies.
    CHECK(roll(Plane({0, 0}), resistance(10), {{0, 0}, M_PI / 2, 2}, options).last.at.y() > 0.1);
}

TEST_CASE("resistance that grows with speed keeps the stimp and lets go on less slope") {
    const double rho = resistance(14);
    for (const double share : {1.0, 0.9, 0.75, 0.5}) {
        RollOptions options;
        options.conditions.slow_share = share;
        const auto on = [&](double slope, double speed) {
            return roll(Plane({0, slope}), rho, {{0, 0}, M_PI, speed}, options);
        };
        CHECK_THAT(on(0, stimp_release_speed_m_s).last.arc_m,
                   WithinAbs(14 * metres_per_foot, 1e-8));
        CHECK(on(share * rho * 0.99, 0.05).end == RollEnd::at_rest);
        // It runs on at a crawl, where growing resistance balances the slope.
        CHECK(on(share * rho * 1.01, 0.05).end != RollEnd::at_rest);
    }
    // Field observation: at stimp 14 nothing stops above about 4.2 % (Lemons 2008, as quoted
    // elsewhere). The constant law says 5.6 %; three quarters of it, 4.2 %.
    CHECK_THAT(0.75 * rho, WithinAbs(0.042, 5e-4));
}

TEST_CASE("the level roll is what a roll on the level does") {
    for (const double spin : {-0.5, 0.0, 1.0, 1.3})
        for (const double share : {1.0, 0.7})
            for (const double v : {0.5, 2.0, 3.5}) {
                Conditions c;
                c.launch_spin = spin;
                c.slow_share = share;
                const double rho = resistance(10);
                INFO("spin " << spin << " share " << share << " speed " << v);
                const double level = level_roll_m(v, rho, c);
                CHECK_THAT(rolled(Plane({0, 0}), {{0, 0}, 0, v}, c).last.arc_m,
                           WithinAbs(level, 1e-8));
                CHECK_THAT(speed_of_level_roll_m_s(level, rho, c), WithinAbs(v, 1e-11));
                const double h = 1e-5;
                CHECK_THAT(
                    level_roll_per_speed(v, rho, c),
                    WithinAbs((level_roll_m(v + h, rho, c) - level_roll_m(v - h, rho, c)) / (2 * h),
                              1e-8));
            }
}

TEST_CASE("sensitivities hold under every condition") {
    const Launch launch{{0, 0}, -0.1, 2.4};
    const double rho = resistance(10);
    for (const auto& [name, c] : each) {
        INFO(name);
        RollOptions options;
        options.conditions = c;
        options.tolerance = 1e-12;
        const auto with = [&](double bearing, double speed, double more_rho,
                              const Vec2& more_tilt) {
            return roll(Plane(Vec2(0.02, 0.01) + more_tilt), rho + more_rho,
                        {{0, 0}, launch.bearing_rad + bearing, launch.speed_m_s + speed}, options)
                .last;
        };
        const auto s = roll_with_sensitivities(Plane({0.02, 0.01}), rho, launch, options, true);
        constexpr double h = 1e-5;
        for (int column = 0; column < 5; ++column) {
            double step[5] = {0, 0, 0, 0, 0};
            step[column] = h;
            const PathPoint up = with(step[0], step[1], step[2], {step[3], step[4]});
            const PathPoint down = with(-step[0], -step[1], -step[2], {-step[3], -step[4]});
            INFO("column " << column);
            // Central differences: error of order h^2 times third derivatives, which are large in
            // resistance and tilt.
            const double tolerance = column < 2 ? 1e-6 : 2e-5;
            CHECK_THAT(s.at_end(0, column),
                       WithinAbs((up.at.x() - down.at.x()) / (2 * h), tolerance));
            CHECK_THAT(s.at_end(1, column),
                       WithinAbs((up.at.y() - down.at.y()) / (2 * h), tolerance));
            CHECK_THAT(s.at_end(4, column),
                       WithinAbs((up.arc_m - down.arc_m) / (2 * h), tolerance));
        }
    }
}

void require_verified(const Putt& putt) {
    const ReadResult result = read(putt, oracle::line_only());
    REQUIRE(result.lines.size() == 1);
    const Check& check = result.lines[0].check;
    CHECK(check.miss_m < most_miss_m);
    CHECK(check.finish_error_m.value_or(0) < most_finish_error_m);
    CHECK(check.finish_error_m_s.value_or(0) < most_finish_error_m_s);
}

TEST_CASE("reads under every condition keep their promise") {
    for (const auto& [name, c] : each) {
        INFO(name);
        for (const double clock : {1.0, 3.0, 5.5, 8.0}) {
            INFO("clock " << clock);
            for (const Finish& finish :
                 {inches_past(12), Finish::past(0), Finish::hole_speed(0.6)}) {
                Putt putt = oracle::bare_putt(10, 0.015, 12, clock, finish);
                putt.conditions = c;
                require_verified(putt);
            }
        }
        const Green saddle = oracle::shipped_green("saddle");
        Putt putt = oracle::putt_on(saddle, saddle.balls.begin()->first,
                                    saddle.holes.begin()->first, inches_past(12));
        putt.conditions = c;
        require_verified(putt);
    }
}

TEST_CASE("conditions out of range are a caller's mistake", "[nan]") {
    const auto refused = [](const Conditions& c) {
        CHECK_THROWS_AS(rolled(Plane({0, 0}), {{0, 0}, 0, 1}, c), std::invalid_argument);
    };
    Conditions c;
    c.grain = {0.7, 0};
    refused(c);
    c = {};
    c.slow_share = 0.3;
    refused(c);
    c = {};
    c.launch_spin = -1.5;
    refused(c);
    c = {};
    c.wind_m_s = {NAN, 0};
    refused(c);
}

}  // namespace
}  // namespace dewtrail
