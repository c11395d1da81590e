#include "physics/hole/hole_stages.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "tests/physics/hole/hole_models.hpp"

// The parts of a passage held against closed forms: a steady ride round the rim, a ball rolling
// inside a vertical cylinder, an impact, a flight.

using namespace dewtrail;
using namespace dewtrail::hole;
using Catch::WithinAbs;
using Catch::WithinRel;
using std::numbers::pi;

namespace {

/// Rolling without spin about the contact normal.
State rolling(const Vec3& c, const Vec3& v, const Vec3& normal) {
    State s;
    s << c, v, normal.cross(v);
    return s;
}

/// On the rim at a lean from the vertical, circling the hole.
State on_the_rim(const Scene& scene, double lean, double speed) {
    const Vec3 normal(0, -std::sin(lean), std::cos(lean));
    return rolling(scene.R * Vec3::UnitY() + scene.r * normal, Vec3(speed, 0, 0), normal);
}

double lean_of(const Scene& scene, const State& s) {
    return std::atan2(scene.R - centre(s).head<2>().norm(), centre(s).z());
}

/// v^2 = (5/7) g (R - r sin b) tan b: steady circulation without normal spin (derived here).
double circling_speed(const Scene& scene, double lean) {
    return std::sqrt(5.0 / 7 * gravity_m_s2 * (scene.R - scene.r * std::sin(lean)) *
                     std::tan(lean));
}

Event ride_to_the_end(const Scene& scene, double lean, double speed) {
    State s = on_the_rim(scene, lean, speed);
    const HoleModel model = no_slip();
    ContactStage stage(scene, model, Ground::rim, Grip::rolling);
    for (int i = 0; i < 5000; ++i)
        if (const Event event = stage.advance(s).event; event != Event::none) return event;
    return Event::none;
}

const double thirty_degrees = pi / 6;

}  // namespace

TEST_CASE("a ball rides round the rim at the speed of the closed form", "[hole]") {
    const Scene scene({1.0, 0}, no_slip());
    const double speed = circling_speed(scene, thirty_degrees);
    CHECK_THAT(speed, WithinRel(0.4185, 0.005));  // derived here

    const HoleModel model = no_slip();
    State s = on_the_rim(scene, thirty_degrees, speed);
    ContactStage stage(scene, model, Ground::rim, Grip::rolling);
    for (double t = 0; t < 0.15;) t += stage.advance(s).dt;
    // A saddle that grows 15-fold or so in that time: integration error stays far below a
    // millidegree.
    CHECK_THAT(lean_of(scene, s), WithinAbs(thirty_degrees, 1e-6));
}

TEST_CASE("the ride round the rim is balanced on a knife's edge", "[hole]") {
    const Scene scene({1.0, 0}, no_slip());
    for (double lean : {pi / 12, thirty_degrees, pi / 4}) {
        const double speed = circling_speed(scene, lean);
        CHECK(ride_to_the_end(scene, lean, 1.02 * speed) == Event::over_the_edge);
        CHECK(ride_to_the_end(scene, lean, 0.98 * speed) != Event::over_the_edge);
    }
}

TEST_CASE("inside a vertical cylinder a rolling ball does not sink for good", "[hole]") {
    // Routh, Littlewood: the height swings sqrt(2/7) as fast as the ball goes round (from memory).
    // From rest in height, the lowest point comes after pi sqrt(7/2), 5 g / turning^2 down (derived
    // here).
    HoleModel model = no_slip();
    model.hole_depth_m = 1;
    model.max_step_s = 1e-4;
    const Scene scene({1.0, 0}, model);
    const double turning = 20, radius = scene.R - scene.r;
    State s = rolling(Vec3(0, radius, -0.01), Vec3(turning * radius, 0, 0), -Vec3::UnitY());
    ContactStage stage(scene, model, Ground::wall, Grip::rolling);
    double t = 0, t_before = 0, vz_before = -1;
    while (t < 1) {
        t_before = t;
        vz_before = velocity(s).z();
        t += stage.advance(s).dt;
        if (t_before > 0 && velocity(s).z() > 0) break;
    }
    const double share = -vz_before / (velocity(s).z() - vz_before);
    const double lowest_s = t_before + share * (t - t_before);
    CHECK_THAT(turning * lowest_s, WithinRel(pi * std::sqrt(3.5), 1e-5));
    CHECK_THAT(-0.01 - centre(s).z(), WithinRel(5 * gravity_m_s2 / (turning * turning), 1e-5));
}

TEST_CASE("an impact keeps no normal speed and stops the slip if friction can", "[hole]") {
    HoleModel model;
    const Scene scene({1.0, 0}, model);
    State s;
    s << Vec3(0, 0.06, scene.r), Vec3(0.3, 0, -2), Vec3::Zero();
    const Touch t = touch(scene, Ground::green, s);
    CHECK(impact(scene, t, s) == Grip::rolling);
    CHECK_THAT(velocity(s).x(), WithinAbs(0.3 * 5 / 7, 1e-15));  // no spin: 5/7 is left
    CHECK_THAT(slip(t, s).norm(), WithinAbs(0, 1e-15));
    CHECK(velocity(s).z() == 0);

    s << Vec3(0, 0.06, scene.r), Vec3(3, 0, -0.5), Vec3::Zero();
    CHECK(impact(scene, t, s) == Grip::sliding);
    CHECK_THAT(velocity(s).x(), WithinAbs(3 - model.friction * 0.5, 1e-15));
}

TEST_CASE("a ball in the air lands where the parabola meets the green", "[hole]") {
    HoleModel model;
    const Scene scene({1.0, 0}, model);
    State s;
    s << Vec3(0, 1, scene.r + 0.2), Vec3(0, 1, 0), Vec3::Zero();
    double t = 0;
    for (bool lands = false; !lands && t < 1;) {
        const FlightStep step = fly_on(scene, model, s);
        t += step.dt;
        lands = step.lands;
    }
    // A landing is taken 1e-10 m deep.
    CHECK_THAT(t, WithinAbs(std::sqrt(2 * 0.2 / gravity_m_s2), 1e-9));
}
