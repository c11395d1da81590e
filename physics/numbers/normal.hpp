#pragma once

#include <cmath>
#include <span>

namespace dewtrail {

inline constexpr double normal_density_at_0 = 0.39894228040143267794;

/// Density and distribution of the standard normal.
inline double normal_density(double x) {
    return std::exp(-0.5 * x * x) * normal_density_at_0;
}
inline double normal_below(double x) {
    return 0.5 * std::erfc(-x * 0.70710678118654752440);
}

/// One node of a quadrature on [-1, 1]; weights sum to 2.
struct QuadratureNode {
    double x, weight;
};

/// Gauss-Legendre with n nodes, 1 <= n <= 48: exact for polynomials up to degree 2n - 1. n outside
/// is moved to the nearer end. Made once, then read only.
std::span<const QuadratureNode> gauss_legendre(int n);

}  // namespace dewtrail
