#include "viewer/picture/widgets/room_chart.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "viewer/picture/filled.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

TEST_CASE("the ellipse holds the share of strokes that it says") {
    StrokeSpread spread;
    spread.level_roll_m = 4;
    spread.covariance << 1e-3, 2e-3, 2e-3, 0.3;
    const auto ring = spread_ellipse(spread, 1);
    double widest = 0;
    for (const StrokeOff& off : ring) widest = std::max(widest, off.angle_rad);
    CHECK_THAT(widest, WithinAbs(std::sqrt(1e-3), 1e-4));  // 96 points: 1 - cos(pi/96) at most
    std::vector<Vec2> polygon;
    for (const StrokeOff& off : ring) polygon.emplace_back(off.angle_rad, off.pace);
    int inside = 0;
    for (const StrokeOff& off : some_strokes(spread))
        inside += holds(polygon, {off.angle_rad, off.pace});
    // 1 - exp(-1/2) = 39 in 100; the standard error of a hundred strokes is 5.
    CHECK_THAT(inside, WithinAbs(39, 11));
}
