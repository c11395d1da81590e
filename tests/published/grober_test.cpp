/// R. D. Grober, "The geometry of putting on a planar surface", arXiv:1106.1698 (2011), abstract:
/// putts from an arc of 30 degrees either side of side-hill share their target. Inches derived
/// here, for dead weight at stimp 10, 2 %, 10 ft.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/plane_line.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

double target_height_in(double above_side_hill_deg) {
    const double clock_h = 3 - above_side_hill_deg / 30;
    const Putt putt = oracle::bare_putt(10, 0.02, 10, clock_h, Finish::past(0));
    const auto lines = lines_on_plane({0, 0.02}, putt.resistance, putt.line(), putt.finish);
    const Vec2 e = along_bearing(bearing_of(putt.line()) + lines.strokes.at(0).angle_rad);
    return (putt.ball.y() - putt.ball.x() / e.x() * e.y()) / metres_per_inch;
}

TEST_CASE("published: targets of the whole circle lie within a few inches", "[published]") {
    constexpr double a_decimal = 0.05;  // one was given
    CHECK_THAT(target_height_in(-75), WithinAbs(13.7, a_decimal));
    CHECK_THAT(target_height_in(0), WithinAbs(15.7, a_decimal));
    CHECK_THAT(target_height_in(75), WithinAbs(17.5, a_decimal));
}

TEST_CASE("published: targets within 30 degrees of side-hill nearly coincide", "[published]") {
    constexpr double a_decimal = 0.05;
    CHECK_THAT(target_height_in(-30), WithinAbs(14.7, a_decimal));
    CHECK_THAT(target_height_in(30), WithinAbs(16.7, a_decimal));
    for (double degrees = -30; degrees < 30; degrees += 5)
        CHECK(target_height_in(degrees) < target_height_in(degrees + 5));
}

}  // namespace
}  // namespace dewtrail
