#pragma once

#include <Eigen/Core>

#include "physics/hole/hole.hpp"

/// The mechanics of one sphere touching the green, the rim, the wall or the floor. Internal to
/// hole.
namespace dewtrail::hole {

using Vec3 = Eigen::Vector3d;
using State =
    Eigen::Matrix<double, 9, 1>;  ///< centre (m), velocity (m/s), r * angular velocity (m/s)

inline auto centre(State& s) {
    return s.segment<3>(0);
}
inline auto velocity(State& s) {
    return s.segment<3>(3);
}
inline auto spin(State& s) {
    return s.segment<3>(6);
}
inline auto centre(const State& s) {
    return s.segment<3>(0);
}
inline auto velocity(const State& s) {
    return s.segment<3>(3);
}
inline auto spin(const State& s) {
    return s.segment<3>(6);
}

enum class Ground { green, rim, wall, floor };

/// Slipping is a slide that is only starting. Its direction is then still that of the friction that
/// rolling would take; to follow the direction of the tiny slip itself would be stiff without
/// bound.
enum class Grip { rolling, slipping, sliding };

/// Ball, hole and gravity in the arrival frame.
struct Scene {
    double r, kappa, R, depth, mu;
    Vec3 gravity;

    Scene(const RimArrival& arrival, const HoleModel& model);

    /// The most that friction can give under a normal force (or impulse) n >= 0.
    double friction_limit(double n) const;
    double energy(const State& s) const;
};

/// Distance of the ball from whatever it would touch first, negative if it overlaps.
double clearance(const Scene& scene, const Vec3& centre);
Ground nearest_ground(const Scene& scene, const Vec3& centre);

/// The contact's normal (from ground to centre), how fast it turns, and the force along it.
struct Touch {
    Vec3 normal;
    Vec3 normal_rate;
    double force;  ///< per mass, from the constraint; negative where the ground would have to pull
};
Touch touch(const Scene& scene, Ground ground, const State& s);

/// Velocity of the ball's material at the contact.
Vec3 slip(const Touch& t, const State& s);

State rate_of_change(const Scene& scene, const Touch& t, Grip grip, const State& s);

/// The friction per mass that rolling takes.
Vec3 rolling_friction(const Scene& scene, const Touch& t, const State& s);

/// Stops the normal approach, and the slip as far as friction can.
Grip impact(const Scene& scene, const Touch& t, State& s);

/// Takes out slip by an impulse of the given size, at most what stops it: the energy only falls.
void rub(const Scene& scene, const Touch& t, double impulse, State& s);
double impulse_to_stick(const Scene& scene, const Touch& t, const State& s);

/// Puts the centre back at r from the ground and the velocity along it: integration drift.
void settle(const Scene& scene, Ground ground, State& s);

}  // namespace dewtrail::hole
