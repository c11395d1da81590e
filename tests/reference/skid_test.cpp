/// The skid against a rigid sphere integrated by GSL in other variables, and against the closed
/// form of the slip's hodograph.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/roll/roll.hpp"
#include "tests/support/gsl_skid.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// The plane's own x, y, z of a plan place and bearing on z = slope y.
struct InPlane {
    double cosine;
    Eigen::Vector3d place(const Vec2& plan) const { return {plan.x(), plan.y() / cosine, 0}; }
    Eigen::Vector3d velocity(const PathPoint& p) const {
        const Vec2 e = along_bearing(p.bearing_rad);
        return p.speed_m_s * Eigen::Vector3d(e.x(), e.y() / cosine, 0).normalized();
    }
};

PathPoint rolls_from(const oracle::SkidStart& start, double cosine) {
    RollOptions options;
    options.conditions.launch_spin = start.spin;
    options.conditions.sliding_friction = start.friction;
    // Bearing in the slope plane -> on the plan.
    const double plan =
        std::atan2(std::sin(start.bearing_rad), std::cos(start.bearing_rad) * cosine);
    const Roll rolled = roll(Plane({0, start.slope}), oracle::resistance(9),
                             {{0, 0}, plan, start.speed_m_s}, options);
    REQUIRE(rolled.rolls_from);
    return *rolled.rolls_from;
}

TEST_CASE("a skid on a slope agrees with GSL and with the closed form", "[reference]") {
    // As promised: 1e-6. Seen: 2e-9 against the closed form, 1e-8 against GSL.
    constexpr double tolerance = 1e-6;
    for (const double slope : {0.0, 0.02, 0.06, 0.15})
        for (const double degrees : {0.0, 60.0, 90.0, -135.0, 180.0})
            for (const double spin : {-0.5, 0.0, 0.6})
                for (const double speed : {0.8, 2.5}) {
                    INFO("slope " << slope << " bearing " << degrees << " spin " << spin
                                  << " speed " << speed);
                    const oracle::SkidStart start{slope, 0.4, degrees * M_PI / 180, speed, spin};
                    const InPlane plane{1 / std::hypot(1, slope)};
                    const PathPoint here = rolls_from(start, plane.cosine);
                    for (const oracle::Skid& other :
                         {oracle::gsl_skid(start), oracle::closed_skid(start)}) {
                        CHECK_THAT((plane.place(here.at) - other.place).norm(),
                                   WithinAbs(0, tolerance));
                        CHECK_THAT((plane.velocity(here) - other.velocity).norm(),
                                   WithinAbs(0, tolerance));
                        CHECK_THAT(here.time_s, WithinAbs(other.time_s, tolerance));
                    }
                }
}

TEST_CASE("a side slope turns the ball while it skids", "[reference]") {
    // Derived here: 2 %, 2 m/s, about 0.8 degrees.
    const PathPoint here = rolls_from({0.02, 0.4, M_PI / 2, 2, 0}, 1 / std::hypot(1, 0.02));
    CHECK_THAT((here.bearing_rad - M_PI / 2) * 180 / M_PI, WithinAbs(0.8, 0.05));
}

}  // namespace
}  // namespace dewtrail
