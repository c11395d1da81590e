#pragma once

#include <Eigen/SparseCore>

#include "physics/surface/fitted_surface.hpp"

namespace dewtrail {

/// The matrix P of the bending energy of a spline with coefficients b,
///     b' P b = integral over the grid of (h_xx^2 + 2 h_xy^2 + h_yy^2
///              + reach^2 (h_xxx^2 + 3 h_xxy^2 + 3 h_xyy^2 + h_yyy^2)) dx dy,
/// dimensionless. Exact: the integrals factor into one-dimensional ones of polynomials of degree at
/// most six, for which four Gauss points are enough. Its kernel is the space of planes.
Eigen::SparseMatrix<double> bending_energy(const SplineGrid& grid, double reach_m);

}  // namespace dewtrail
