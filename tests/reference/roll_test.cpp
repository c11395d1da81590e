/// Rolls against GSL's Prince-Dormand 8(9) on the equations in plan coordinates and plain time:
/// other variables, another integrator, other event finding.

#include <catch2/catch.hpp>
#include <cmath>

#include "support/as_eigen.hpp"
#include "tests/support/gsl_roll.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// Stated in roll.hpp: 100 x tolerance. Time of rest is softer than place: the last 1e-9 m take
/// longest.
struct Tolerances {
    double place_m, time_s;
};

void compare(const Surface& surface, double rho, const Launch& launch, const Vec2& hole,
             const Tolerances& t, double& worst_m) {
    INFO("from " << as_eigen(launch.from).transpose() << " bearing " << launch.bearing_rad
                 << " speed " << launch.speed_m_s << " resistance " << rho << " hole "
                 << as_eigen(hole).transpose());
    RollOptions options;
    options.hole = hole;
    oracle::GslOptions gsl;
    gsl.hole = hole;
    const Roll rolled = roll(surface, rho, launch, options);
    const auto exact = oracle::gsl_roll(surface, rho, launch, gsl);
    REQUIRE(rolled.end == RollEnd::at_rest);
    REQUIRE(exact.rested);
    worst_m = std::max(worst_m, (rolled.last.at - exact.last.at).norm());
    CHECK_THAT((rolled.last.at - exact.last.at).norm(), WithinAbs(0, t.place_m));
    CHECK_THAT(rolled.last.arc_m, WithinAbs(exact.last.arc_m, t.place_m));
    CHECK_THAT(rolled.last.time_s, WithinAbs(exact.last.time_s, t.time_s));
    // A pass within 0.1 mm of the rim is either, by how each one ends its roll.
    const double nearest_m = (rolled.pass.value_or(rolled.last).at - hole).norm();
    const bool grazes = std::abs(nearest_m - hole_radius_m) < 1e-4;
    if (!grazes) REQUIRE(rolled.rim.has_value() == exact.rim.has_value());
    // A ball that stops short turns downhill at the last and so away from the hole: GSL's ends
    // before.
    if (!exact.pass && rolled.pass) CHECK(rolled.pass->speed_m_s < 1.01e-4);
    if (exact.pass) REQUIRE(rolled.pass);
    if (exact.rim && !grazes) {
        CHECK_THAT((rolled.rim->at - exact.rim->at).norm(), WithinAbs(0, 10 * t.place_m));
        CHECK_THAT(rolled.rim->speed_m_s, WithinAbs(exact.rim->speed_m_s, 10 * t.place_m));
    }
    if (exact.pass) {
        CHECK_THAT((rolled.pass->at - exact.pass->at).norm(), WithinAbs(0, 10 * t.place_m));
        CHECK_THAT(rolled.pass->time_s, WithinAbs(exact.pass->time_s, t.time_s));
    }
}

TEST_CASE("rolls on planes agree with GSL", "[reference]") {
    oracle::Random random(3);
    const Tolerances t{1e-8, 1e-6};
    double worst = 0;
    for (int i = 0; i < 60; ++i) {
        const double rho = oracle::resistance(random.between(5, 16));
        const Plane plane(random.between(0, 0.95) * rho * along_bearing(random.between(0, 6.3)));
        const Launch launch{{1, 2}, random.between(-3, 3), random.between(0.5, 4)};
        // A hole about where such a ball passes, within its rim for some, beside it for others.
        const Vec2 hole = launch.from + random.between(0.3, 3) * along_bearing(launch.bearing_rad) +
                          Vec2(random.between(-0.1, 0.1), random.between(-0.1, 0.1));
        compare(plane, rho, launch, hole, t, worst);
    }
    CHECK(worst < 1e-9);  // worst seen 1.0e-10 m
}

TEST_CASE("rolls on fitted greens agree with GSL", "[reference]") {
    // Third derivatives jump at the edges of a spline's cells, which costs a step that straddles
    // one some of its order: 1e-6 m instead of 1e-8 m, a hundredth of what a read is held to.
    const Tolerances t{1e-6, 1e-5};
    const auto name = GENERATE("meadow", "saddle", "stairs", "turtle");
    const Green green = oracle::shipped_green(name);
    oracle::Random random(4);
    double worst = 0;
    int compared = 0;
    for (const auto& [ball, from] : green.balls)
        for (const auto& [where, hole] : green.holes)
            for (const double more : {0.8, 1.1}) {
                // Slow enough green that friction holds the ball wherever it stops.
                const double rho = oracle::resistance(7);
                const double speed = speed_of_level_roll_m_s(more * (hole - from).norm(), rho);
                const Launch launch{from, bearing_of(hole - from) + random.between(-0.02, 0.02),
                                    speed};
                compare(*green.surface, rho, launch, hole, t, worst);
                ++compared;
            }
    CHECK(compared >= 20);
    CHECK(worst < 1e-6);  // worst seen 5.1e-7 m, on the stairs
}

}  // namespace
}  // namespace dewtrail
