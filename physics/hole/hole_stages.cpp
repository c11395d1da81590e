#include "physics/hole/hole_stages.hpp"
#include "physics/numbers/squared.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint/algebra/vector_space_algebra.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>

namespace dewtrail::hole {

namespace {

namespace odeint = boost::numeric::odeint;
using Dopri5 =
    odeint::runge_kutta_dopri5<State, double, State, double, odeint::vector_space_algebra>;

constexpr double grip_slip_m_s = 1e-5;   // a slip this small is stopped; well above the tolerance
constexpr double slide_slip_m_s = 1e-3;  // from here on friction goes against the slip itself
constexpr double touch_depth_m = 1e-10;  // a ball hugging the wall in free fall is not landing
constexpr double time_resolution_s = 1e-13;
constexpr double least_step_s = 1e-9;

/// The late end of a bracket where f, positive at 0, is negative at dt.
template <class F>
double first_negative(const F& f, double dt) {
    const double f0 = f(0.0);
    if (f0 <= 0) return 0;
    std::uintmax_t evaluations = 60;
    const auto narrow = [](double a, double b) { return b - a < time_resolution_s; };
    return boost::math::tools::toms748_solve(f, 0.0, dt, f0, f(dt), narrow, evaluations).second;
}

}  // namespace

State ContactStage::rate(const State& s) const {
    return rate_of_change(scene_, touch(scene_, ground_, s), grip_, s);
}

State ContactStage::step(const State& s, const State& rate_now, double dt, State* error) const {
    const auto system = [this](const State& x, State& dxdt, double) { dxdt = rate(x); };
    State after, rate_after, local;
    Dopri5 dopri5;
    dopri5.do_step(system, s, rate_now, 0.0, after, rate_after, dt, local);
    if (error) *error = local;
    return after;
}

std::pair<double, Event> ContactStage::margin(const State& s) const {
    const Vec3 c = centre(s);
    const double inside = scene_.R - std::hypot(c.x(), c.y());
    const Touch t = touch(scene_, ground_, s);
    std::pair<double, Event> least{t.force, Event::leaves_ground};
    const auto consider = [&least](double value, Event event) {
        if (value < least.first) least = {value, event};
    };
    if (ground_ == Ground::green) consider(-inside, Event::over_the_edge);
    if (ground_ == Ground::rim) consider(inside, Event::over_the_edge);
    if (ground_ == Ground::rim) consider(c.z(), Event::down_the_wall);
    if (ground_ == Ground::wall) consider(-c.z(), Event::over_the_edge);
    if (ground_ == Ground::wall) consider(c.z() + scene_.depth - scene_.r, Event::down_the_wall);
    if (grip_ == Grip::sliding) return least;
    const double spare = scene_.friction_limit(t.force) - rolling_friction(scene_, t, s).norm();
    grip_ == Grip::rolling ? consider(spare, Event::slips) : consider(-spare, Event::slides);
    return least;
}

Event ContactStage::at_start(const State& s) const {
    const Touch t = touch(scene_, ground_, s);
    if (t.force <= 0) return Event::leaves_ground;
    const bool too_much = rolling_friction(scene_, t, s).norm() > scene_.friction_limit(t.force);
    return grip_ == Grip::rolling && too_much ? Event::slips : Event::none;
}

/// Time in which a slide's slip would be gone at its present rate; never if it is growing. Steps
/// stop short of it, so that they never cross the kink where the friction turns round.
double ContactStage::time_to_grip(const State& s) const {
    const Touch t = touch(scene_, ground_, s);
    const Vec3 u = slip(t, s);
    const State change = rate_of_change(scene_, t, grip_, s);
    const Vec3 u_rate =
        velocity(change) - spin(change).cross(t.normal) - spin(s).cross(t.normal_rate);
    const double closing = -u.dot(u_rate);
    return closing > 0 ? u.squaredNorm() / closing : std::numeric_limits<double>::infinity();
}

Event ContactStage::slip_event(const State& s) const {
    if (grip_ == Grip::rolling) return Event::none;
    const double u = slip(touch(scene_, ground_, s), s).norm();
    if (grip_ == Grip::slipping) return u > slide_slip_m_s ? Event::slides : Event::none;
    return u < grip_slip_m_s && std::isfinite(time_to_grip(s)) ? Event::grips : Event::none;
}

ContactStep ContactStage::end_on_event(const State& from, const State& rate_now, double dt,
                                       State& s) const {
    const auto least = [&](double h) {
        return margin(h > 0 ? step(from, rate_now, h, nullptr) : from).first;
    };
    const double end = first_negative(least, dt);
    s = end > 0 ? step(from, rate_now, end, nullptr) : from;
    return {end, margin(s).second};
}

ContactStep ContactStage::advance(State& s) {
    double dt = std::min(next_dt_, model_.max_step_s);
    if (grip_ == Grip::sliding) dt = std::min(dt, 0.9 * time_to_grip(s));
    const State from = s, rate_now = rate(s);
    while (true) {
        State error;
        s = step(from, rate_now, dt, &error);
        const double misfit = std::sqrt(squared(centre(error).norm() / scene_.r) +
                                        velocity(error).squaredNorm() + spin(error).squaredNorm()) /
                              model_.tolerance;
        next_dt_ = dt * std::clamp(0.9 * std::pow(misfit + 1e-10, -0.2), 0.2, 4.0);
        if (misfit <= 1 || dt < least_step_s) break;
        dt = next_dt_;
    }
    if (margin(s).first < 0) return end_on_event(from, rate_now, dt, s);
    settle(scene_, ground_, s);
    if (grip_ == Grip::rolling) velocity(s) = spin(s).cross(touch(scene_, ground_, s).normal);
    return {dt, slip_event(s)};
}

State in_flight(const Scene& scene, const State& s, double dt) {
    State later = s;
    centre(later) += dt * velocity(s) + 0.5 * dt * dt * scene.gravity;
    velocity(later) += dt * scene.gravity;
    return later;
}

FlightStep fly_on(const Scene& scene, const HoleModel& model, State& s) {
    // Nothing nearer than the clearance can be touched before that distance is flown; 1 m/s is more
    // than gravity adds meanwhile. Near a surface a short fixed step takes over.
    const auto gap = [&](double dt) {
        return clearance(scene, centre(in_flight(scene, s, dt))) + touch_depth_m;
    };
    const double safe = gap(0) / (velocity(s).norm() + 1.0);
    const double dt = std::max(safe, model.max_step_s / 10);
    const bool lands = gap(dt) < 0;
    const double end = lands ? first_negative(gap, dt) : dt;
    s = in_flight(scene, s, end);
    return {end, lands};
}

}  // namespace dewtrail::hole
