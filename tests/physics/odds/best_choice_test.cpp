#include "physics/odds/best_choice.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "physics/roll/green_speed.hpp"
#include "support/putts.hpp"
#include "tests/physics/odds/players.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

TEST_CASE("the best choice is no worse than any finish of the table", "[best_choice]") {
    const double feet = GENERATE(4.0, 12.0, 40.0), clock = GENERATE(1.0, 4.0);
    const Putt putt = oracle::bare_putt(11, 0.02, feet, clock, oracle::inches_past(12));
    const NextPutts next = next_at(putt, middle);
    const auto best = best_choice(putt, middle, next);
    REQUIRE(best);
    CHECK(best->by_past.size() == 13);
    constexpr double promised = 1e-3;
    for (const PlayedChoice& row : best->by_past) {
        CHECK(best->fewest_putts.odds.putts <= row.odds.putts + promised);
        CHECK(best->most_holed.odds.holed >= row.odds.holed - promised);
    }
    REQUIRE(best->plain);
    CHECK_THAT(best->plain->past_m, WithinAbs(0.3048, 1e-12));
    CHECK_THAT(best->plain->odds.putts, WithinAbs(best->by_past[4].odds.putts, 1e-9));
    CHECK(best->most_holed.odds.holed >= best->fewest_putts.odds.holed - promised);
}

TEST_CASE("a grid of aims and finishes finds nothing better", "[best_choice]") {
    const Putt putt = oracle::bare_putt(11, 0.025, 9, 2, oracle::inches_past(12));
    const NextPutts next = next_at(putt, tour);
    const auto best = best_choice(putt, tour, next);
    const auto map = StrokeMap::make(putt);
    REQUIRE((best && map));
    double least = 9;
    for (double past = 0; past <= 0.91; past += 0.07) {
        Putt meant = putt;
        meant.finish = Finish::past(past);
        const Stroke stroke = read(meant, oracle::line_only()).lines.front().stroke;
        const double level = level_roll_m(stroke.speed_m_s, putt.resistance);
        const auto sensitivity = read_slope_sensitivity(meant, stroke);
        for (double aim = -1; aim <= 1; aim += 0.1)
            least = std::min(least, odds(*map,
                                         stroke_spread(stroke.angle_rad + aim * degree, level, tour,
                                                       *sensitivity),
                                         next)
                                        .putts);
    }
    CHECK(best->fewest_putts.odds.putts <= least + 1e-3);
}

TEST_CASE("three finishes for short putts, side by side", "[best_choice]") {
    const Putt putt = oracle::bare_putt(10, 0.02, 4, 3, oracle::inches_past(12));
    const auto best =
        best_choice(putt, middle, next_at(putt, middle),
                    {std::begin(short_putt_finishes_m), std::end(short_putt_finishes_m)});
    REQUIRE(best);
    REQUIRE(best->by_past.size() == 3);
    std::printf("4 ft at 3:00 on 2 %%, middle:");
    for (const PlayedChoice& row : best->by_past)
        std::printf("  %2.0f in past: holed %.2f, putts %.3f;", row.past_m / metres_per_inch,
                    row.odds.holed, row.odds.putts);
    std::printf("\n");
    // Firmer is straighter, and the ball that barely gets in often does not.
    CHECK(std::abs(best->by_past[2].stroke.angle_rad) <
          std::abs(best->by_past[0].stroke.angle_rad));
    CHECK(best->by_past[1].odds.holed > best->by_past[0].odds.holed);
}

TEST_CASE("a curved green has a best choice", "[best_choice]") {
    const Green green = oracle::shipped_green("meadow");
    Putt putt;
    putt.surface = green.surface;
    putt.outline = std::make_shared<Outline>(green.outline);
    putt.resistance = oracle::resistance(10);
    putt.hole = green.holes.begin()->second;
    putt.ball = green.balls.begin()->second;
    putt.finish = oracle::inches_past(12);
    const auto best = best_choice(putt, middle, next_at(putt, middle));
    REQUIRE(best);
    CHECK(best->by_past.size() >= 10);
    CHECK(best->fewest_putts.odds.putts <= best->plain->odds.putts + 1e-3);
}

}  // namespace
}  // namespace dewtrail
