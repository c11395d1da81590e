/// Odds on side hills so steep that the strokes that drop lie in several intervals of start angle.

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "physics/odds/odds.hpp"
#include "physics/read/stroke_roller.hpp"
#include "physics/roll/green_speed.hpp"
#include "support/monte_carlo.hpp"
#include "support/putts.hpp"
#include "tests/physics/odds/players.hpp"

namespace dewtrail {
namespace {

struct Difference {
    double holed = 0, putts = 0;
};

/// Friction over slope k, stimp 10, a foot past.
Difference difference(double k, double feet, double clock, const Scatter& scatter, int strokes,
                      const NextPutts& next) {
    const Putt putt =
        oracle::bare_putt(10, oracle::resistance(10) / k, feet, clock, oracle::inches_past(12));
    const Stroke stroke = oracle::read_of(putt).stroke;
    const StrokeSpread spread =
        stroke_spread(stroke.angle_rad, level_roll_m(stroke.speed_m_s, putt.resistance), scatter,
                      *read_slope_sensitivity(putt, stroke));
    const auto map = StrokeMap::make(putt);
    REQUIRE(map);
    const Odds told = odds(*map, spread, next);
    const Odds rolled = monte_carlo_odds(putt, spread, next, {.strokes = strokes, .threads = 2});
    INFO("k " << k << ", " << feet << " ft at " << clock << ":00");
    CHECK_THAT(told.holed, Catch::WithinAbs(rolled.holed, 0.003 + 1.5 / std::sqrt(strokes)));
    CHECK_THAT(told.putts, Catch::WithinAbs(rolled.putts, 0.01 + 1.5 / std::sqrt(strokes)));
    return {std::abs(told.holed - rolled.holed), std::abs(told.putts - rolled.putts)};
}

NextPutts next_on(double k, const Scatter& scatter) {
    const double resistance = oracle::resistance(10);
    return {*HoleSurround::make(std::make_shared<Plane>(Vec2(0, resistance / k)), resistance, {}),
            scatter};
}

TEST_CASE("on a steep side hill strokes drop in two intervals of start angle", "[stroke_map]") {
    // 8 ft at 3:00 on 6 %, stimp 10: seen by rolling strokes 0.01 degrees apart.
    const Putt putt = oracle::bare_putt(10, 0.06, 8, 3, oracle::inches_past(12));
    const auto map = StrokeMap::make(putt);
    REQUIRE(map);
    const StrokeRoller roller(putt);
    int two = 0;
    for (double level = 2.4; level < 3.2; level += 0.013) {
        const Drops drops = map->drops(level);
        two += drops.size() == 2;
        for (const Interval& drop : drops) {
            const double inset = 0.05 * (drop.hi - drop.lo);
            CHECK(roller.margin(drop.lo + inset, level) > 0);
            CHECK(roller.margin(drop.hi - inset, level) > 0);
            CHECK(roller.margin(drop.lo - 0.1 * degree, level) <= 0);
            CHECK(roller.margin(drop.hi + 0.1 * degree, level) <= 0);
        }
    }
    CHECK(two > 1);
}

TEST_CASE("odds on steep side hills are those of strokes rolled", "[odds]") {
    // Standard errors of 100 000 strokes, three of them, beside what is promised.
    const NextPutts next = next_on(1.3, middle);
    for (const double clock : {1.0, 3.0}) difference(1.3, 8, clock, middle, 100'000, next);
    difference(1.6, 12, 3, tour, 100'000, next_on(1.6, tour));
}

TEST_CASE("odds on steep side hills, every k to 2", "[.steep][odds]") {
    Difference worst;
    for (const Scatter& scatter : {tour, middle, high})
        for (double k = 1.1; k < 2.05; k += 0.1) {
            const NextPutts next = next_on(k, scatter);
            for (const double feet : {3., 8., 12., 20., 40.})
                for (const double clock : {1.0, 3.0, 5.0}) {
                    const Difference d = difference(k, feet, clock, scatter, 500'000, next);
                    worst = {std::max(worst.holed, d.holed), std::max(worst.putts, d.putts)};
                }
        }
    std::printf("k 1.1 to 2.0: worst %.4f holed, %.4f putts\n", worst.holed, worst.putts);
}

}  // namespace
}  // namespace dewtrail
