#pragma once

#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/conditions.hpp"

/// The equations of motion with wind, grain, speed-dependent resistance and skid (MODEL.md section
/// 8), written once for any scalar: double for the ball, a dual number for its sensitivities.
namespace dewtrail {

/// Conditions, made ready for the equations of motion.
struct Forces {
    Forces() = default;
    explicit Forces(const Conditions& c)
        : wind(c.wind_m_s),
          grain(c.grain),
          drag(c.wind_m_s == Vec2::Zero() ? 0 : air_drag_per_m()),
          slow_share(c.slow_share),
          growth(resistance_growth(c.slow_share) / stimp_release_speed_m_s),
          sliding_friction(c.sliding_friction) {}

    Vec2 wind = Vec2::Zero(), grain = Vec2::Zero();
    double drag = 0;                    ///< of a rolling ball, 1/m
    double slow_share = 1, growth = 0;  ///< growth per m/s
    double sliding_friction = 0.4;

    /// What pulls on a ball at rest, as a slope: downhill, downwind and down the grain. Resistance
    /// holds the ball while this is shorter than `resting`.
    Vec2 pull(const SurfaceJet& jet, double resistance) const {
        const double W = std::sqrt(1 + jet.gradient().squaredNorm());
        return -jet.gradient() + resting(resistance) * grain +
               W * drag * wind.norm() / (rolling_share * gravity_m_s2) * wind;
    }
    double resting(double resistance) const { return resistance * slow_share; }
};

template <class T>
struct Slopes {
    T hx, hy, hxx, hxy, hyy;
};

/// How a ball moves over the ground: its velocity, the ground under it, and the two directions
/// along the surface in which forces are given, forward and to its right.
template <class T>
struct Going {
    T ex, ey;        ///< heading on the plan, unit
    T v;             ///< speed along the surface
    T p, m;          ///< slope along the heading and to its right
    T W2, W, gamma;  ///< gamma: plan speed over v
    T kappa, load;   ///< q'Hq', and the normal force per mass

    Going(const Slopes<T>& h, const T& bearing, const T& log_speed) {
        using std::cos, std::exp, std::sin, std::sqrt;
        ex = sin(bearing);
        ey = cos(bearing);
        v = exp(log_speed);
        p = ex * h.hx + ey * h.hy;
        m = ey * h.hx - ex * h.hy;
        W2 = 1.0 + h.hx * h.hx + h.hy * h.hy;
        W = sqrt(W2);
        gamma = 1.0 / sqrt(1.0 + p * p);
        const T bend = ex * ex * h.hxx + 2.0 * ex * ey * h.hxy + ey * ey * h.hyy;
        kappa = v * v * gamma * gamma * bend;
        load = (gravity_m_s2 + kappa) / W;
        hx_ = h.hx;
        hy_ = h.hy;
    }

    /// Parts of a horizontal vector along the surface.
    T forward(const Vec2& f) const { return gamma * (f.x() * ex + f.y() * ey); }
    T right(const Vec2& f) const {
        const T twist = f.x() * hy_ - f.y() * hx_;
        return gamma / W * (f.x() * ey - f.y() * ex + p * twist);
    }

  private:
    T hx_, hy_;
};

/// Acceleration along the surface, forward and to the right.
template <class T>
struct Push {
    T forward, right;
};

/// By the air: what the wind adds to the drag of still air, which the stimp already holds.
/// `drag` is 5/7 of the force for a ball that rolls, all of it for one that slides.
template <class T>
Push<T> wind_push(const Forces& f, const Going<T>& go, double drag) {
    using std::sqrt;
    const T along = go.forward(f.wind), across = go.right(f.wind);
    // The small number keeps the root's derivative finite where ball and air go together.
    const T relative = sqrt(go.v * go.v - 2.0 * go.v * along + (f.wind.squaredNorm() + 1e-24));
    return {T(drag * (go.v * go.v - relative * (go.v - along))), T(drag * relative * across)};
}

/// x, y, bearing, ln v, arc and time per sigma, dt = v dsigma.
template <class T>
std::array<T, 6> rolling_rates(const Forces& f, const Slopes<T>& h, const T& bearing,
                               const T& log_speed, const T& resistance) {
    const Going<T> go(h, bearing, log_speed);
    const T friction =
        rolling_share * resistance * f.slow_share * (1.0 + f.growth * go.v) * go.load;
    const Push<T> air = wind_push(f, go, f.drag);
    const T forward = air.forward - friction * (1.0 - go.forward(f.grain)) -
                      rolling_share * gravity_m_s2 * go.p * go.gamma;
    const T right = air.right + friction * go.right(f.grain);
    const T v2 = go.v * go.v, plan = v2 * go.gamma;
    const T turn = right / (go.gamma * go.gamma * go.W) -
                   go.m * (rolling_share * gravity_m_s2 + go.kappa) / (go.W2 * go.gamma);
    return {T(plan * go.ex), T(plan * go.ey), turn, forward, v2, go.v};
}

/// Of a ball that slips, per sigma with dt = |slip| dsigma: x, y, bearing, ln v, arc, time, then
/// the direction of the slip (to the right of the velocity) and the logarithm of its size. The
/// contact point slips forward where the ball spins too little. The spin about the normal is left
/// out.
template <class T>
std::array<T, 8> skidding_rates(const Forces& f, const Slopes<T>& h, const T& bearing,
                                const T& log_speed, const T& slip_angle, const T& log_slip) {
    using std::cos, std::exp, std::sin;
    const Going<T> go(h, bearing, log_speed);
    const T slip = exp(log_slip), c = cos(slip_angle), s = sin(slip_angle);
    const Push<T> air = wind_push(f, go, f.drag / rolling_share);
    // Gravity and air: they move the ball as a whole, and with it the contact point.
    const T forward = air.forward - gravity_m_s2 * go.p * go.gamma;
    const T right = air.right - gravity_m_s2 * go.gamma * go.m / go.W;
    const T friction = f.sliding_friction * go.load;
    const T across = right - friction * s;
    const T turn =
        across / (go.gamma * go.gamma * go.W * go.v) - go.m * go.kappa / (go.W2 * go.gamma * go.v);
    const T plan = slip * go.v * go.gamma;
    return {T(plan * go.ex),
            T(plan * go.ey),
            T(slip * turn),
            T(slip * (forward - friction * c) / go.v),
            T(slip * go.v),
            slip,
            T(right * c - forward * s - slip * across / go.v),
            T(forward * c + right * s - 3.5 * friction)};
}

}  // namespace dewtrail
