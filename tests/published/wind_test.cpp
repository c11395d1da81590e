/// Wind on a ball that rolls. The published trials with wind made by a fan (Suzuki, Ichikawa, Asai
/// & Kita, World Scientific Congress of Golf 2024: 2 and 4 m/s on short putts) give no stop
/// positions that could be read, so the force is held against a drag estimate only.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/roll/conditions.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/roll/roll.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

TEST_CASE("published: 4 m/s at the ball pushes it by about 0.10 m/s^2", "[published]") {
    // Derived here: C_d 0.45, air 1.2 kg/m^3, 5/7 of the force; 30 % either way.
    const double push = air_drag_per_m() * 16;
    CHECK_THAT(push, WithinAbs(0.10, 0.03));
    CHECK_THAT(push, WithinAbs(0.0961, 1e-3));
}

TEST_CASE("wind at the ball is a third to a half of wind at head height", "[published]") {
    // Logarithmic profile; roughness classes 0.2 mm and 5 mm are Davenport's as given by Stull.
    CHECK_THAT(wind_at_ball_m_s(1, 2, 2e-4), WithinAbs(0.507, 1e-3));
    CHECK_THAT(wind_at_ball_m_s(1, 2), WithinAbs(0.403, 1e-3));
    CHECK_THAT(wind_at_ball_m_s(1, 2, 5e-3), WithinAbs(0.242, 1e-3));
    CHECK_THAT(wind_at_ball_m_s(3, ball_radius_m), WithinAbs(3, 1e-12));
}

TEST_CASE("a gale rolls a ball that calm would hold", "[published]") {
    RollOptions options;
    const double rho = oracle::resistance(12);
    const auto end = [&](double wind) {
        options.conditions.wind_m_s = Vec2(wind, 0);
        return roll(Plane({0, 0}), rho, {{0, 0}, M_PI / 2, 0.05}, options).end;
    };
    // Drag reaches the resistance where c U^2 = (5/7) rho g.
    const double moves = std::sqrt(level_deceleration_m_s2(rho) / air_drag_per_m());
    CHECK(end(0.98 * moves) == RollEnd::at_rest);
    CHECK(end(1.02 * moves) == RollEnd::keeps_rolling);
}

}  // namespace
}  // namespace dewtrail
