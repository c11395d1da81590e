#pragma once

#include <Eigen/Core>
#include <array>

#include "physics/roll/dual.hpp"
#include "physics/roll/roll.hpp"

namespace dewtrail {

/// What is noted while the equations of motion are asked.
struct Asked {
    int evaluations = 0;
    bool lifted = false;  ///< somewhere the ground fell away faster than the ball could follow
};

/// The equations of motion (MODEL.md section 2), the right-hand side for DormandPrince.
///
/// State: x, y, the velocity on the plan; the P columns of sensitivities of each of these; arc,
/// time, and the sensitivities of the arc. The independent variable is sigma with dt = v dsigma:
/// nothing on the right grows at rest, where d(bearing)/dt grows like 1/v.
template <int P>
struct RollingBall {
    static constexpr int n = 4;  ///< states that the step size is chosen for
    static constexpr int columns = P;
    static constexpr int arc = n + n * P, time = arc + 1;
    static constexpr bool skids = false;
    using State = std::array<double, time + 1 + P>;
    /// Where the sensitivities of a state begin.
    static constexpr int by(int state) { return state == arc ? time + 1 : n + P * state; }

    const Surface& surface;
    double resistance;
    const Forces* forces;  ///< none: the plain roll
    Asked* asked;

    static State start(const Surface& surface, const Launch& launch) {
        const SurfaceJet j = surface.at(launch.from.x(), launch.from.y());
        const Vec2 e = along_bearing(launch.bearing_rad), right = right_of(e);
        const double p = e.dot(j.gradient()), gamma = 1 / std::sqrt(1 + p * p);
        const Vec2 w = launch.speed_m_s * gamma * e;
        State y{launch.from.x(), launch.from.y(), w.x(), w.y()};
        // The speed along the surface is given: where the ground rises more, there is less of it on
        // the plan.
        const Vec2 less = -gamma * gamma * p * w;
        const auto set = [&](int column, const Vec2& by) {
            if (column >= P) return;
            y[RollingBall::by(2) + column] = by.x();
            y[RollingBall::by(3) + column] = by.y();
        };
        set(0, launch.speed_m_s * gamma * right + right.dot(j.gradient()) * less);
        set(1, gamma * e);
        set(3, e.x() * less);
        set(4, e.y() * less);
        return y;
    }

    void operator()(const State& y, State& dy) const { rates(surface.at(y[0], y[1]), y, dy); }
    /// `j`: the ground there.
    void rates(const SurfaceJet& j, const State& y, State& dy) const {
        ++asked->evaluations;
        if (P > 0 && forces) return by_duals(j, y, dy);
        const Slopes<double> h = slopes(j);
        const OnPlan<double> w{y[2], y[3]};
        const Going<double> go(h, w);
        const OnPlan<double> push = rolling_push(forces, h, w, go, resistance);
        if (!(go.pressed > 0)) asked->lifted = true;
        dy[0] = go.v * w.x;
        dy[1] = go.v * w.y;
        dy[2] = push.x;
        dy[3] = push.y;
        dy[arc] = go.v * go.v;
        dy[time] = go.v;
        if constexpr (P > 0) linearised(j, go, y, dy);
    }

  private:
    /// Of the plain roll, written out: the derivatives of everything above, column by column.
    void linearised(const SurfaceJet& j, const Going<double>& go, const State& y, State& dy) const {
        using Columns = Eigen::Array<double, P, 1>;
        const auto row = [&](int r) { return Eigen::Map<const Columns>(&y[by(r)]); };
        const auto rate = [&](int r) { return Eigen::Map<Columns>(&dy[by(r)]); };
        constexpr double g = gravity_m_s2;
        const double wx = y[2], wy = y[3], climb = j.hx * wx + j.hy * wy;
        const double per_v = go.v > 0 ? 1 / go.v : 0;
        const double lean = (rolling_share * g + go.bend) * go.per_W2;  // times v: the push
        const double hold = rolling_share * go.per_W * go.pressed, drag = hold * resistance;
        const double bx = j.hxx * wx + j.hxy * wy, by = j.hxy * wx + j.hyy * wy;
        const double kx = j.hxxx * wx * wx + 2 * j.hxxy * wx * wy + j.hxyy * wy * wy;
        const double ky = j.hxxy * wx * wx + 2 * j.hxyy * wx * wy + j.hyyy * wy * wy;

        Columns d_hx = j.hxx * row(0) + j.hxy * row(1), d_hy = j.hxy * row(0) + j.hyy * row(1);
        if constexpr (P > 2) {
            d_hx[3] += 1;
            d_hy[4] += 1;
        }
        const Columns d_climb = d_hx * wx + d_hy * wy + j.hx * row(2) + j.hy * row(3);
        const Columns d_v = (wx * row(2) + wy * row(3) + climb * d_climb) * per_v;
        const Columns d_bend = kx * row(0) + ky * row(1) + 2 * (bx * row(2) + by * row(3));
        const Columns d_W2 = 2 * go.per_W2 * (j.hx * d_hx + j.hy * d_hy);  // over W2
        const Columns d_push = d_v * lean + go.v * (d_bend * go.per_W2 - lean * d_W2);
        Columns d_drag = rolling_share * resistance * go.per_W * d_bend - 0.5 * drag * d_W2;
        if constexpr (P > 2) d_drag[2] += hold;

        rate(0) = d_v * wx + go.v * row(2);
        rate(1) = d_v * wy + go.v * row(3);
        rate(2) = -d_push * j.hx - go.v * lean * d_hx - d_drag * wx - drag * row(2);
        rate(3) = -d_push * j.hy - go.v * lean * d_hy - d_drag * wy - drag * row(3);
        rate(arc) = 2 * go.v * d_v;
    }

    void by_duals(const SurfaceJet& j, const State& y, State& dy) const {
        constexpr int by_resistance = 4, inputs = 7;
        using D = Dual<inputs>;
        const Slopes<D> h = dual_slopes<inputs>(j);
        const OnPlan<D> w{input<inputs>(y[2], 2), input<inputs>(y[3], 3)};
        const Going<D> go(h, w);
        const OnPlan<D> push =
            rolling_push(forces, h, w, go, input<inputs>(resistance, by_resistance));
        if (!(go.pressed.value() > 0)) asked->lifted = true;
        dy[time] = go.v.value();
        const auto set = [&](int state, const D& rate) {
            dy[state] = rate.value();
            for (int column = 0; column < P; ++column) {
                double sum = column >= 2 ? rate.derivatives()[by_resistance + column - 2] : 0;
                for (int k = 0; k < n; ++k) sum += rate.derivatives()[k] * y[by(k) + column];
                dy[by(state) + column] = sum;
            }
        };
        set(0, D(go.v * w.x));
        set(1, D(go.v * w.y));
        set(2, push.x);
        set(3, push.y);
        set(arc, D(go.v * go.v));
    }
};

}  // namespace dewtrail
