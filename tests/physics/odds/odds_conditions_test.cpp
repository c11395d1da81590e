#include <catch2/catch.hpp>
#include <cmath>

#include "physics/odds/best_choice.hpp"
#include "physics/odds/odds.hpp"
#include "support/monte_carlo.hpp"
#include "support/putts.hpp"
#include "tests/physics/odds/players.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

NextPutts next_under_conditions(const Putt& putt) {
    return {HoleSurround::make(putt).value(), middle};
}

TEST_CASE("under conditions odds agree with rolling the strokes", "[odds][conditions]") {
    Conditions windy, grainy, slow, skidding;
    windy.wind_m_s = {4, -2};
    grainy.grain = {0.1, 0.05};
    slow.slow_share = 0.75;
    skidding.launch_spin = 0;
    for (const Conditions& conditions : {windy, grainy, slow, skidding}) {
        Putt putt = oracle::bare_putt(10, 0.02, 10, 3, oracle::inches_past(12));
        putt.conditions = conditions;
        const Read read = oracle::read_of(putt);
        // The table's own check is in sequences_test.cpp; here any will do for both.
        static const NextPutts next =
            next_under_conditions(oracle::bare_putt(10, 0.02, 10, 3, oracle::inches_past(12)));
        const StrokeSpread spread = *spread_of(putt, read, middle);
        const Odds told = *odds_of(putt, read, middle, next);
        const Odds rolled = monte_carlo_odds(putt, spread, next, {.strokes = 6000, .threads = 2});
        // One standard error of the 6000 is 0.006; three are let pass beside the 0.003.
        CHECK_THAT(told.holed, WithinAbs(rolled.holed, 0.003 + 0.019));
        CHECK_THAT(told.putts, WithinAbs(rolled.putts, 0.01 + 0.02));
        CHECK_THAT(told.inside_3ft, WithinAbs(rolled.inside_3ft, 0.006 + 0.019));
    }
}

TEST_CASE("grain on the level has the odds of the slope that it is like", "[odds][conditions]") {
    // MODEL.md section 8: the ball rolls as on an extra slope of strength times resistance. What is
    // left of order slope squared, and the rim, which does not tilt: 0.6 m/s per slope of 1.6 m/s.
    Putt level = oracle::bare_putt(10, 0, 10, 3, oracle::inches_past(12)), sloped = level;
    constexpr double strength = 0.2;
    const double slope = strength * level.resistance;
    level.conditions.grain = {0, -strength};
    sloped.surface = std::make_shared<Plane>(Vec2(0, slope));
    const Read grained = oracle::read_of(level), plain = oracle::read_of(sloped);
    CHECK_THAT(grained.stroke.angle_rad, WithinAbs(plain.stroke.angle_rad, 0.002));
    // Where a slope falls is misread; where grain leans is known.
    Scatter sure_of_fall = middle;
    sure_of_fall.fall_read_rad = 0;
    const Odds a = *odds_of(level, grained, sure_of_fall),
               b = *odds_of(sloped, plain, sure_of_fall);
    CHECK_THAT(a.holed, WithinAbs(b.holed, 0.005));
    CHECK_THAT(a.putts, WithinAbs(b.putts, 0.01));
    CHECK_THAT(a.three_putt, WithinAbs(b.three_putt, 0.005));
}

TEST_CASE("a wind from behind wants a softer stroke, and has a best choice", "[odds][conditions]") {
    const Putt calm = oracle::bare_putt(10, 0, 12, 6, oracle::inches_past(12));
    Putt windy = calm;
    windy.conditions.wind_m_s = 4 * calm.line().normalized();
    const auto in_calm = best_choice(calm, middle, next_under_conditions(calm));
    const auto in_wind = best_choice(windy, middle, next_under_conditions(windy));
    REQUIRE((in_calm && in_wind));
    CHECK(in_wind->plain->level_roll_m < 0.95 * in_calm->plain->level_roll_m);
    CHECK(in_wind->fewest_putts.odds.putts > 1.3);
    CHECK(in_wind->fewest_putts.odds.putts < 2.2);
}

TEST_CASE("wind and grain too strong for a ball to rest leave no odds", "[odds][conditions]") {
    Putt putt = oracle::bare_putt(12, 0.03, 8, 6, oracle::inches_past(12));
    const Read read = oracle::read_of(putt);
    CHECK(has_odds(putt));
    putt.conditions.wind_m_s = {0, -12};  // down the slope, like another 12 %
    CHECK_FALSE(has_odds(putt));
    CHECK_FALSE(odds_of(putt, read, middle));
}

}  // namespace
}  // namespace dewtrail
