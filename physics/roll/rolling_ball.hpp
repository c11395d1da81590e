#pragma once

#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/dual.hpp"
#include "physics/roll/roll.hpp"

namespace dewtrail {

/// The equations of motion in path variables (MODEL.md section 2), the right-hand side for Odeint.
///
/// State: x, y, bearing, u = ln v, arc, time, then P columns of sensitivities of the first five.
/// The independent variable is sigma with dt = v dsigma: heading and ln v then change smoothly all
/// the way to rest, where d(bearing)/dt grows like 1/v.
template <int P>
struct RollingBall {
    static constexpr int n = 6;  ///< states that the step size is chosen for
    static constexpr int rows = 5;
    static constexpr int columns = P;
    static constexpr bool skids = false;
    using State = std::array<double, n + rows * P>;

    const Surface& surface;
    double resistance;
    int* evaluations;
    const Forces* forces = nullptr;  ///< none: the plain roll

    static State start(const Launch& launch) {
        State y{};
        y[0] = launch.from.x();
        y[1] = launch.from.y();
        y[2] = launch.bearing_rad;
        y[3] = std::log(launch.speed_m_s);
        if constexpr (P > 0) {
            y[n + 2] = 1;                            // d bearing / d bearing
            y[n + rows + 3] = 1 / launch.speed_m_s;  // d ln v / d v
        }
        return y;
    }

    void operator()(const State& y, State& dy, double) const {
        ++*evaluations;
        constexpr double g = gravity_m_s2;
        const SurfaceJet j = surface.at(y[0], y[1]);
        if (forces) return with_forces(j, y, dy);
        const double ex = std::sin(y[2]), ey = std::cos(y[2]);  // heading on the plan
        const double rx = ey, ry = -ex;                         // to its right
        const double v = std::exp(y[3]), v2 = v * v;

        const double p = ex * j.hx + ey * j.hy;
        const double m = rx * j.hx + ry * j.hy;
        const double W2 = 1 + j.hx * j.hx + j.hy * j.hy;
        const double W = std::sqrt(W2);
        const double gamma2 = 1 / (1 + p * p), gamma = std::sqrt(gamma2);  // plan speed / v
        const double K = ex * ex * j.hxx + 2 * ex * ey * j.hxy + ey * ey * j.hyy;
        const double kappa = v2 * gamma2 * K;  // q' H q'
        const double push = rolling_share * g + kappa;
        const double load = (g + kappa) / W;  // normal force per mass

        dy[0] = v2 * gamma * ex;
        dy[1] = v2 * gamma * ey;
        dy[2] = -m * push / (W2 * gamma);
        dy[3] = -rolling_share * (g * p * gamma + resistance * load);
        dy[4] = v2;
        dy[5] = v;

        if constexpr (P > 0) {
            const double J = ex * rx * j.hxx + (ex * ry + ey * rx) * j.hxy + ey * ry * j.hyy;
            const double Kx = ex * ex * j.hxxx + 2 * ex * ey * j.hxxy + ey * ey * j.hxyy;
            const double Ky = ex * ex * j.hxxy + 2 * ex * ey * j.hxyy + ey * ey * j.hyyy;
            for (int column = 0; column < P; ++column) {
                const double* d = &y[n + rows * column];
                double* dd = &dy[n + rows * column];
                const double d_resistance = column == 2 ? 1 : 0;
                const double d_hx = j.hxx * d[0] + j.hxy * d[1] + (column == 3 ? 1 : 0);
                const double d_hy = j.hxy * d[0] + j.hyy * d[1] + (column == 4 ? 1 : 0);
                const double d_p = ex * d_hx + ey * d_hy + m * d[2];
                const double d_m = rx * d_hx + ry * d_hy - p * d[2];
                const double d_W2 = 2 * (j.hx * d_hx + j.hy * d_hy);
                const double d_K = Kx * d[0] + Ky * d[1] + 2 * J * d[2];
                const double d_gamma = -gamma2 * gamma * p * d_p;
                const double d_kappa =
                    2 * kappa * d[3] + v2 * (2 * gamma * d_gamma * K + gamma2 * d_K);
                const double d_load = d_kappa / W - load * d_W2 / (2 * W2);

                dd[0] = v2 * (2 * gamma * ex * d[3] + ex * d_gamma + gamma * rx * d[2]);
                dd[1] = v2 * (2 * gamma * ey * d[3] + ey * d_gamma + gamma * ry * d[2]);
                dd[2] = -(d_m * push + m * d_kappa) / (W2 * gamma) -
                        dy[2] * (d_W2 / W2 + d_gamma / gamma);
                dd[3] = -rolling_share * (g * (d_p * gamma + p * d_gamma) + d_resistance * load +
                                          resistance * d_load);
                dd[4] = 2 * v2 * d[3];
            }
        }
    }

  private:
    void with_forces(const SurfaceJet& j, const State& y, State& dy) const {
        if constexpr (P == 0) {
            dy = rolling_rates<double>(*forces, slopes(j), y[2], y[3], resistance);
        } else {
            constexpr int bearing = 2, log_speed = 3, by_resistance = 4, inputs = 7;
            const auto rates = rolling_rates<Dual<inputs>>(
                *forces, dual_slopes<inputs>(j), input<inputs>(y[2], bearing),
                input<inputs>(y[3], log_speed), input<inputs>(resistance, by_resistance));
            for (int i = 0; i < n; ++i) dy[i] = rates[i].value();
            for (int column = 0; column < P; ++column) {
                const double* d = &y[n + rows * column];
                for (int row = 0; row < rows; ++row) {
                    const auto& by = rates[row].derivatives();
                    double sum = column >= 2 ? by[by_resistance + column - 2] : 0;
                    for (int k = 0; k < by_resistance; ++k) sum += by[k] * d[k];
                    dy[n + rows * column + row] = sum;
                }
            }
        }
    }
};

}  // namespace dewtrail
