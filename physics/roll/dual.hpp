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

/// Slopes of a surface as functions of x (input 0), y (input 1) and an extra tilt (the last input)
/// that rises along `tilt`.
template <int N>
Slopes<Dual<N>> dual_slopes(const SurfaceJet& j, const Vec2& tilt) {
    const auto with = [](double value, double by_x, double by_y, double by_tilt) {
        Dual<N> d(value);
        d.derivatives().setZero();
        d.derivatives()[0] = by_x;
        d.derivatives()[1] = by_y;
        d.derivatives()[N - 1] = by_tilt;
        return d;
    };
    return {with(j.hx, j.hxx, j.hxy, tilt.x()), with(j.hy, j.hxy, j.hyy, tilt.y()),
            with(j.hxx, j.hxxx, j.hxxy, 0), with(j.hxy, j.hxxy, j.hxyy, 0),
            with(j.hyy, j.hxyy, j.hyyy, 0)};
}

inline Slopes<double> slopes(const SurfaceJet& j) {
    return {j.hx, j.hy, j.hxx, j.hxy, j.hyy};
}

}  // namespace dewtrail
