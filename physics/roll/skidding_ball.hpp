#pragma once

#include "physics/roll/rolling_ball.hpp"

namespace dewtrail {

/// A ball that slips, from the putter's face until it rolls; the right-hand side for DormandPrince.
///
/// State: x, y, velocity and slip on the plan; the P columns of sensitivities of each of these;
/// arc, time, and the sensitivities of the arc. The independent variable is sigma with dt = |slip|
/// dsigma: the slip's direction turns like 1/|slip| near its end, as a ball's does near rest.
template <int P>
struct SkiddingBall {
    using Rolling = RollingBall<P>;
    static constexpr int n = 6;
    static constexpr int columns = P;
    static constexpr int arc = n + n * P, time = arc + 1;
    static constexpr bool skids = true;
    using State = std::array<double, time + 1 + P>;
    static constexpr int by(int state) { return state == arc ? time + 1 : n + P * state; }

    const Surface& surface;
    const Forces* forces;
    Asked* asked;

    /// `spin`: share of the spin of rolling, not 1.
    static State start(const Surface& surface, const Launch& launch, double spin) {
        const auto rolling = Rolling::start(surface, launch);
        State y{};
        for (int i = 0; i < Rolling::n; ++i) take(rolling, i, 1, y, i);
        for (int i = 0; i < 2; ++i) take(rolling, 2 + i, 1 - spin, y, 4 + i);
        return y;
    }

    /// The same ball once it rolls.
    static typename Rolling::State rolling(const State& y) {
        typename Rolling::State rolled{};
        for (int i = 0; i < Rolling::n; ++i) {
            rolled[i] = y[i];
            for (int c = 0; c < P; ++c) rolled[Rolling::by(i) + c] = y[by(i) + c];
        }
        rolled[Rolling::time] = y[time];
        rolled[Rolling::arc] = y[arc];
        for (int c = 0; c < P; ++c) rolled[Rolling::by(Rolling::arc) + c] = y[by(arc) + c];
        return rolled;
    }

    void operator()(const State& y, State& dy) const { rates(surface.at(y[0], y[1]), y, dy); }
    /// `j`: the ground there.
    void rates(const SurfaceJet& j, const State& y, State& dy) const {
        ++asked->evaluations;
        if constexpr (P == 0) {
            each_rate<double>(slopes(j), {y[2], y[3]}, {y[4], y[5]},
                              [&](int state, double rate) { dy[state] = rate; });
        } else {
            // Inputs: x, y, velocity, slip, two tilts. Arc and time appear nowhere on the right.
            constexpr int inputs = 8, by_tilt = 6;
            using D = Dual<inputs>;
            each_rate<D>(
                dual_slopes<inputs>(j), {input<inputs>(y[2], 2), input<inputs>(y[3], 3)},
                {input<inputs>(y[4], 4), input<inputs>(y[5], 5)}, [&](int state, const D& rate) {
                    dy[state] = rate.value();
                    if (state == time) return;
                    for (int column = 0; column < P; ++column) {
                        double sum = column >= 3 ? rate.derivatives()[by_tilt + column - 3] : 0;
                        for (int k = 0; k < n; ++k)
                            sum += rate.derivatives()[k] * y[by(k) + column];
                        dy[by(state) + column] = sum;
                    }
                });
        }
    }

  private:
    static void take(const typename Rolling::State& from, int i, double share, State& y, int to) {
        y[to] = share * from[i];
        for (int c = 0; c < P; ++c) y[by(to) + c] = share * from[Rolling::by(i) + c];
    }

    template <class T, class Set>
    void each_rate(const Slopes<T>& h, const OnPlan<T>& w, const OnPlan<T>& s, Set set) const {
        const Going<T> go(h, w);
        const Sliding<T> push = sliding_push(*forces, h, w, s, go);
        if (!(go.pressed > 0)) asked->lifted = true;
        set(0, T(push.slip * w.x));
        set(1, T(push.slip * w.y));
        set(2, push.velocity.x);
        set(3, push.velocity.y);
        set(4, push.slipping.x);
        set(5, push.slipping.y);
        set(arc, T(push.slip * go.v));
        set(time, push.slip);
    }
};

}  // namespace dewtrail
