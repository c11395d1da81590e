#pragma once

#include <Eigen/Core>
#include <unsupported/Eigen/AutoDiff>

#include "physics/roll/forces.hpp"

/// Forward differentiation of the equations in forces.hpp.
namespace dewtrail {

template <int N>
using Dual = Eigen::AutoDiffScalar<Eigen::Matrix<double, N, 1>>;

/// The input numbered `index` of N.
template <int N>
Dual<N> input(double value, int index) {
    return Dual<N>(value, N, index);
}

/// Slopes of a surface as functions of x (input 0), y (input 1) and an extra tilt of it along x and
/// y (the last two inputs).
template <int N>
Slopes<Dual<N>> dual_slopes(const SurfaceJet& j) {
    const auto with = [](double value, double by_x, double by_y, int tilt = -1) {
        Dual<N> d(value);
        d.derivatives().setZero();
        d.derivatives()[0] = by_x;
        d.derivatives()[1] = by_y;
        if (tilt >= 0) d.derivatives()[tilt] = 1;
        return d;
    };
    return {with(j.hx, j.hxx, j.hxy, N - 2), with(j.hy, j.hxy, j.hyy, N - 1),
            with(j.hxx, j.hxxx, j.hxxy), with(j.hxy, j.hxxy, j.hxyy), with(j.hyy, j.hxyy, j.hyyy)};
}

inline Slopes<double> slopes(const SurfaceJet& j) {
    return {j.hx, j.hy, j.hxx, j.hxy, j.hyy};
}

}  // namespace dewtrail
