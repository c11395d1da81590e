#pragma once

#include <array>
#include <vector>

#include "physics/surface/surface.hpp"

namespace dewtrail {

/// The cells of a uniform bicubic spline. The grid reaches from `origin` (its lower left corner,
/// green frame, metres) over cells_x by cells_y cells. A cubic spline has three coefficients more
/// than cells along each axis; they are stored row by row, x running fastest.
struct SplineGrid {
    Vec2 origin{0, 0};
    Vec2 spacing_m{1, 1};
    int cells_x = 1, cells_y = 1;

    int coefficients_x() const { return cells_x + 3; }
    int coefficients_y() const { return cells_y + 3; }
    int coefficients() const { return coefficients_x() * coefficients_y(); }
};

/// What one axis of a cubic B-spline does at one coordinate: the four coefficients from `first` on
/// matter, and d[n][i] is the n-th derivative (per metre^n) of the i-th of their basis functions.
/// De Boor, A Practical Guide to Splines (1978), ch. IX, on equally spaced knots.
///
/// Off the grid every basis function goes on along its tangent. Whatever is built from them is then
/// defined everywhere, is C^1 across the edge of the grid, and grows no faster than linearly in
/// either coordinate.
struct SplineWeights {
    int first = 0;
    std::array<std::array<double, 4>, 4> d;
};

SplineWeights spline_weights(double coordinate, double origin, double spacing_m, int cells);

/// A green's surface as a uniform bicubic B-spline.
///
/// C^2 on its grid; third derivatives are piecewise constant along their own axis and jump at the
/// cell edges, where the value of the cell to the right (above) is given. Off the grid it goes on
/// linearly (see SplineWeights): good for the metre or two that a ball may still roll, not for
/// more. Any bicubic polynomial is represented to rounding. One evaluation gives the whole jet,
/// takes a few tens of nanoseconds and allocates nothing: on the grid every cell keeps its own
/// polynomial.
class FittedSurface final : public Surface {
  public:
    /// `coefficients` in metres, in the grid's order. std::invalid_argument if the grid has no cell
    /// or no positive spacing, or the coefficients are not as many as it needs, or not finite.
    FittedSurface(const SplineGrid& grid, std::vector<double> coefficients);

    SurfaceJet at(double x, double y) const override;
    SmoothPatch patch(const Vec2& at) const override;

    const SplineGrid& grid() const { return grid_; }
    const std::vector<double>& coefficients() const { return coefficients_; }

  private:
    /// h = sum over k, r of power[k][r] u^k w^r, u and w from 0 to 1 across and up the cell.
    struct Cell {
        std::array<std::array<double, 4>, 4> power;
    };
    Cell cell(int i, int j) const;
    SurfaceJet by_basis(double x, double y) const;

    SplineGrid grid_;
    Vec2 per_m_;  ///< 1 / spacing
    std::vector<double> coefficients_;
    std::vector<Cell> cells_;  ///< row by row
};

}  // namespace dewtrail
