#pragma once

#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/conditions.hpp"

/// The equations of motion (MODEL.md sections 2 and 8) in the velocity on the plan, written once
/// for any scalar: double for a ball, an array of doubles for many side by side, a dual number for
/// sensitivities.
namespace dewtrail {

/// `w`: the velocity on the plan.
inline double speed_along_surface(const Vec2& w, const SurfaceJet& ground) {
    const double climb = w.dot(ground.gradient());
    return std::sqrt(w.squaredNorm() + climb * climb);
}

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

/// A vector along the surface, as seen on the plan.
template <class T>
struct OnPlan {
    T x, y;
};

/// How a ball moves over the ground, given its velocity on the plan.
template <class T>
struct Going {
    T v;              ///< speed along the surface
    T per_W2, per_W;  ///< 1 / (1 + |grad h|^2), and its root
    T bend;           ///< w'Hw, how hard the ground curves upward under the motion
    T pressed;        ///< g + w'Hw: normal force per mass, times W. Not above 0: in the air

    Going(const Slopes<T>& h, const OnPlan<T>& w) {
        using std::sqrt;
        const T climb = h.hx * w.x + h.hy * w.y;
        v = sqrt(w.x * w.x + w.y * w.y + climb * climb);
        const T W2 = 1.0 + h.hx * h.hx + h.hy * h.hy;
        per_W2 = 1.0 / W2;
        per_W = sqrt(W2) * per_W2;
        bend = h.hxx * w.x * w.x + 2.0 * h.hxy * w.x * w.y + h.hyy * w.y * w.y;
        pressed = gravity_m_s2 + bend;
    }
};

/// What a horizontal vector has along the surface.
template <class T>
OnPlan<T> along_surface(const Vec2& f, const Slopes<T>& h, const Going<T>& go) {
    const T rise = (h.hx * f.x() + h.hy * f.y()) * go.per_W2;
    return {T(f.x() - h.hx * rise), T(f.y() - h.hy * rise)};
}

/// What the wind adds to the drag of still air, which the stimp already holds. `drag` is 5/7 of the
/// force for a ball that rolls, all of it for one that slides.
template <class T>
OnPlan<T> wind_push(const Forces& f, const Slopes<T>& h, const OnPlan<T>& w, const Going<T>& go,
                    double drag) {
    using std::sqrt;
    const Vec2& U = f.wind;
    const OnPlan<T> along = along_surface(U, h, go);
    // The small number keeps the root's derivative finite where ball and air go together.
    const T relative =
        sqrt(go.v * go.v - 2.0 * (w.x * U.x() + w.y * U.y()) + (U.squaredNorm() + 1e-24));
    return {T(drag * (go.v * w.x - relative * (w.x - along.x))),
            T(drag * (go.v * w.y - relative * (w.y - along.y)))};
}

/// How the velocity of a ball that rolls changes per sigma, dt = v dsigma. `forces`: none for the
/// plain roll.
template <class T, class Resistance>
OnPlan<T> rolling_push(const Forces* forces, const Slopes<T>& h, const OnPlan<T>& w,
                       const Going<T>& go, const Resistance& resistance) {
    const T push = go.v * (rolling_share * gravity_m_s2 + go.bend) * go.per_W2;
    const T drag = rolling_share * resistance * go.per_W * go.pressed;
    if (!forces) return {T(-push * h.hx - drag * w.x), T(-push * h.hy - drag * w.y)};
    const T friction = drag * forces->slow_share * (1.0 + forces->growth * go.v);
    const OnPlan<T> lie = along_surface(forces->grain, h, go);
    const OnPlan<T> air = wind_push(*forces, h, w, go, forces->drag);
    return {T(-push * h.hx - friction * (w.x - go.v * lie.x) + go.v * air.x),
            T(-push * h.hy - friction * (w.y - go.v * lie.y) + go.v * air.y)};
}

/// How velocity and slip of a ball that slips change per sigma, dt = |slip| dsigma. The slip is the
/// velocity of the contact point, forward where the ball spins too little; the spin about the
/// normal is left out, so that it keeps its direction along the surface but for the forces.
template <class T>
struct Sliding {
    T slip;  ///< its size along the surface
    OnPlan<T> velocity, slipping;
};
template <class T>
Sliding<T> sliding_push(const Forces& f, const Slopes<T>& h, const OnPlan<T>& w, const OnPlan<T>& s,
                        const Going<T>& go) {
    using std::sqrt;
    const T climb = h.hx * s.x + h.hy * s.y;
    const T slip = sqrt(s.x * s.x + s.y * s.y + climb * climb);
    const T bend = h.hxx * s.x * w.x + h.hxy * (s.x * w.y + s.y * w.x) + h.hyy * s.y * w.y;
    // Gravity and air move the ball as a whole, and with it the contact point.
    const OnPlan<T> air = wind_push(f, h, w, go, f.drag / rolling_share);
    const T friction = f.sliding_friction * go.per_W * go.pressed;
    const T push = slip * go.pressed * go.per_W2, turn = slip * (gravity_m_s2 + bend) * go.per_W2;
    return {slip,
            {T(slip * air.x - push * h.hx - friction * s.x),
             T(slip * air.y - push * h.hy - friction * s.y)},
            {T(slip * air.x - turn * h.hx - 3.5 * friction * s.x),
             T(slip * air.y - turn * h.hy - 3.5 * friction * s.y)}};
}

}  // namespace dewtrail
