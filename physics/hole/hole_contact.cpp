#include "physics/hole/hole_contact.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

namespace dewtrail::hole {

namespace {

/// Outward from the hole's axis. On the axis itself any direction will do.
Vec3 outward(const Vec3& c) {
    const double rho = std::hypot(c.x(), c.y());
    return rho > 0 ? Vec3(c.x() / rho, c.y() / rho, 0) : Vec3::UnitY();
}

}  // namespace

Scene::Scene(const RimArrival& arrival, const HoleModel& model)
    : r(model.ball_radius_m),
      kappa(model.inertia_ratio),
      R(model.hole_radius_m),
      depth(model.hole_depth_m),
      mu(model.friction),
      gravity(-gravity_m_s2 * Vec3(arrival.slope_right, arrival.slope_along, 1).normalized()) {}

double Scene::friction_limit(double n) const {
    return std::isinf(mu) ? mu : mu * std::max(n, 0.0);
}

double Scene::energy(const State& s) const {
    return 0.5 * velocity(s).squaredNorm() + 0.5 * kappa * spin(s).squaredNorm() -
           gravity.dot(centre(s));
}

double clearance(const Scene& scene, const Vec3& c) {
    const double inside = scene.R - std::hypot(c.x(), c.y());
    if (inside <= 0) return c.z() - scene.r;
    const double side = c.z() > 0 ? std::hypot(inside, c.z()) : inside;
    return std::min(side, c.z() + scene.depth) - scene.r;
}

Ground nearest_ground(const Scene& scene, const Vec3& c) {
    const double inside = scene.R - std::hypot(c.x(), c.y());
    if (inside <= 0) return Ground::green;
    if (c.z() > 0) return Ground::rim;
    return c.z() + scene.depth < inside ? Ground::floor : Ground::wall;
}

Touch touch(const Scene& scene, Ground ground, const State& s) {
    Touch t{Vec3::UnitZ(), Vec3::Zero(), 0};
    if (ground == Ground::rim || ground == Ground::wall) {
        const Vec3 c = centre(s);
        const Vec3 out = outward(c);
        const Vec3 round(-out.y(), out.x(), 0);
        const double turning = round.dot(velocity(s)) / std::hypot(c.x(), c.y());
        if (ground == Ground::rim) {
            t.normal = (c - scene.R * out).normalized();
            t.normal_rate = (velocity(s) - scene.R * turning * round) / scene.r;
        } else {
            t.normal = -out;
            t.normal_rate = -turning * round;
        }
    }
    t.force = -t.normal.dot(scene.gravity) - t.normal_rate.dot(velocity(s));
    return t;
}

Vec3 slip(const Touch& t, const State& s) {
    const Vec3 u = velocity(s) - spin(s).cross(t.normal);
    return u - t.normal.dot(u) * t.normal;
}

namespace {

State rolling_rate(const Scene& scene, const Touch& t, const State& s) {
    const Vec3 w = spin(s);
    const Vec3 w_rate =
        (t.normal.cross(scene.gravity) + w.dot(t.normal) * t.normal_rate) / (1 + scene.kappa);
    State rate;
    rate << velocity(s), w_rate.cross(t.normal) + w.cross(t.normal_rate), w_rate;
    return rate;
}

/// Full friction along a direction.
State rubbing_rate(const Scene& scene, const Touch& t, const Vec3& along, const State& s) {
    const Vec3 friction = scene.friction_limit(t.force) * along.normalized();
    State rate;
    rate << velocity(s), scene.gravity + t.force * t.normal + friction,
        -t.normal.cross(friction) / scene.kappa;
    return rate;
}

}  // namespace

Vec3 rolling_friction(const Scene& scene, const Touch& t, const State& s) {
    return velocity(rolling_rate(scene, t, s)) - scene.gravity - t.force * t.normal;
}

State rate_of_change(const Scene& scene, const Touch& t, Grip grip, const State& s) {
    if (grip == Grip::rolling) return rolling_rate(scene, t, s);
    return rubbing_rate(scene, t,
                        grip == Grip::slipping ? rolling_friction(scene, t, s) : -slip(t, s), s);
}

double impulse_to_stick(const Scene& scene, const Touch& t, const State& s) {
    return slip(t, s).norm() * scene.kappa / (1 + scene.kappa);
}

void rub(const Scene& scene, const Touch& t, double impulse, State& s) {
    if (impulse <= 0) return;
    const Vec3 along = slip(t, s).normalized();
    velocity(s) -= impulse * along;
    spin(s) += impulse / scene.kappa * t.normal.cross(along);
}

Grip impact(const Scene& scene, const Touch& t, State& s) {
    const double normal_impulse = std::max(0.0, -t.normal.dot(velocity(s)));
    velocity(s) += normal_impulse * t.normal;
    const double to_stick = impulse_to_stick(scene, t, s);
    const double friction = scene.friction_limit(normal_impulse);
    rub(scene, t, std::min(to_stick, friction), s);
    return friction < to_stick ? Grip::sliding : Grip::rolling;
}

void settle(const Scene& scene, Ground ground, State& s) {
    if (ground == Ground::floor) return;
    const Vec3 n = touch(scene, ground, s).normal;
    Vec3 foot = centre(s);
    if (ground == Ground::green)
        foot.z() = 0;
    else
        foot = scene.R * outward(foot) + (ground == Ground::wall ? foot.z() : 0.0) * Vec3::UnitZ();
    centre(s) = foot + scene.r * n;
    velocity(s) -= n.dot(velocity(s)) * n;
}

}  // namespace dewtrail::hole
