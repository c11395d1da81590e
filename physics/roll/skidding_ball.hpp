#pragma once

#include <algorithm>

#include "physics/roll/rolling_ball.hpp"

namespace dewtrail {

/// A ball that slips, from the putter's face until it rolls; the right-hand side for Odeint.
///
/// State: x, y, bearing, ln v, arc and time as in RollingBall, then the slip's direction against
/// the velocity and the logarithm of its size, then P columns of sensitivities of the first five
/// and of these two. The independent variable is sigma with dt = |slip| dsigma: the slip's
/// direction turns like 1/|slip| near its end, as a ball's does near rest.
template <int P>
struct SkiddingBall {
    static constexpr int n = 8;
    static constexpr int rows = 7;
    static constexpr int columns = P;
    static constexpr bool skids = true;
    using State = std::array<double, n + rows * P>;

    const Surface& surface;
    int* evaluations;
    const Forces* forces;

    /// `spin`: share of the spin of rolling, not 1.
    static State start(const Launch& launch, double spin) {
        State y{};
        const auto rolling = RollingBall<0>::start(launch);
        std::copy(rolling.begin(), rolling.end(), y.begin());
        y[6] = spin < 1 ? 0 : M_PI;
        y[7] = y[3] + std::log(std::abs(1 - spin));
        if constexpr (P > 0) {
            y[n + 2] = 1;                                              // by bearing
            y[n + rows + 3] = y[n + rows + 6] = 1 / launch.speed_m_s;  // by speed
        }
        return y;
    }

    /// The same ball once it rolls.
    static typename RollingBall<P>::State rolling(const State& y) {
        typename RollingBall<P>::State rolled{};
        using Rolled = RollingBall<P>;
        std::copy_n(y.begin(), Rolled::n, rolled.begin());
        for (int column = 0; column < P; ++column)
            std::copy_n(&y[n + rows * column], Rolled::rows,
                        &rolled[Rolled::n + Rolled::rows * column]);
        return rolled;
    }

    void operator()(const State& y, State& dy, double) const {
        ++*evaluations;
        const SurfaceJet j = surface.at(y[0], y[1]);
        if constexpr (P == 0) {
            dy = skidding_rates<double>(*forces, slopes(j), y[2], y[3], y[6], y[7]);
        } else {
            // Inputs: x, y, bearing, ln v, slip direction, ln slip, two tilts. Arc and time appear
            // nowhere on the right.
            constexpr int inputs = 8, by_tilt = 6;
            constexpr int state_of_row[rows] = {0, 1, 2, 3, 4, 6, 7};
            constexpr int row_of_input[by_tilt] = {0, 1, 2, 3, 5, 6};
            const auto rates = skidding_rates<Dual<inputs>>(
                *forces, dual_slopes<inputs>(j), input<inputs>(y[2], 2), input<inputs>(y[3], 3),
                input<inputs>(y[6], 4), input<inputs>(y[7], 5));
            for (int i = 0; i < n; ++i) dy[i] = rates[i].value();
            for (int column = 0; column < P; ++column) {
                const double* d = &y[n + rows * column];
                for (int row = 0; row < rows; ++row) {
                    const auto& by = rates[state_of_row[row]].derivatives();
                    double sum = column >= 3 ? by[by_tilt + column - 3] : 0;
                    for (int k = 0; k < by_tilt; ++k) sum += by[k] * d[row_of_input[k]];
                    dy[n + rows * column + row] = sum;
                }
            }
        }
    }
};

}  // namespace dewtrail
