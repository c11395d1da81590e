#include "physics/surface/fitted_surface.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace dewtrail {
namespace {

using Four = std::array<double, 4>;

double dot(const Four& a, const double* b) {
    return (a[0] * b[0] + a[1] * b[1]) + (a[2] * b[2] + a[3] * b[3]);
}

double dot(const Four& a, const Four& b) {
    return dot(a, b.data());
}

void check(const SplineGrid& grid, const std::vector<double>& coefficients) {
    if (grid.cells_x < 1 || grid.cells_y < 1)
        throw std::invalid_argument("spline grid: needs at least one cell along each axis");
    if (!(grid.spacing_m.minCoeff() > 0) || !grid.spacing_m.allFinite() || !grid.origin.allFinite())
        throw std::invalid_argument(
            "spline grid: origin and spacing must be finite, spacing above 0");
    if (coefficients.size() != static_cast<std::size_t>(grid.coefficients()))
        throw std::invalid_argument("spline coefficients: " + std::to_string(coefficients.size()) +
                                    " given, the grid needs " +
                                    std::to_string(grid.coefficients()));
    for (const double c : coefficients)
        if (!std::isfinite(c)) throw std::invalid_argument("spline coefficients: must be finite");
}

}  // namespace

SplineWeights spline_weights(double coordinate, double origin, double spacing_m, int cells) {
    const double per_metre = 1 / spacing_m;
    const double t = (coordinate - origin) * per_metre;
    const double on_grid = t > 0 ? std::min(t, static_cast<double>(cells)) : 0.0;
    const int cell = std::min(static_cast<int>(on_grid), cells - 1);
    const double u = on_grid - cell, w = 1 - u;

    const Four value{w * w * w / 6, (4 + 3 * u * u * (u - 2)) / 6, (4 + 3 * w * w * (w - 2)) / 6,
                     u * u * u / 6};
    const Four slope{-w * w / 2, u * (3 * u - 4) / 2, -w * (3 * w - 4) / 2, u * u / 2};
    const Four bend{w, 3 * u - 2, 3 * w - 2, u};
    const Four third{-1, 3, -3, 1};

    const double beyond = t - on_grid;
    const double per2 = beyond == 0 ? per_metre * per_metre : 0.0;
    const double per3 = per2 * per_metre;
    SplineWeights weights;
    weights.first = cell;
    for (std::size_t i = 0; i < 4; ++i) {
        weights.d[0][i] = value[i] + beyond * slope[i];
        weights.d[1][i] = slope[i] * per_metre;
        weights.d[2][i] = bend[i] * per2;
        weights.d[3][i] = third[i] * per3;
    }
    return weights;
}

FittedSurface::FittedSurface(const SplineGrid& grid, std::vector<double> coefficients)
    : grid_(grid), coefficients_(std::move(coefficients)) {
    check(grid_, coefficients_);
    per_m_ = {1 / grid.spacing_m.x(), 1 / grid.spacing_m.y()};
    cells_.reserve(static_cast<std::size_t>(grid_.cells_x) *
                   static_cast<std::size_t>(grid_.cells_y));
    for (int j = 0; j < grid_.cells_y; ++j)
        for (int i = 0; i < grid_.cells_x; ++i) cells_.push_back(cell(i, j));
}

FittedSurface::Cell FittedSurface::cell(int i, int j) const {
    // The four basis functions of a cell in powers of the place in it.
    constexpr double basis[4][4] = {{1. / 6, -1. / 2, 1. / 2, -1. / 6},
                                    {2. / 3, 0, -1, 1. / 2},
                                    {1. / 6, 1. / 2, 1. / 2, -1. / 2},
                                    {0, 0, 0, 1. / 6}};
    const auto stride = static_cast<std::size_t>(grid_.coefficients_x());
    const double* c = coefficients_.data() + static_cast<std::size_t>(j) * stride + i;
    Cell cell{};
    for (std::size_t k = 0; k < 4; ++k)
        for (std::size_t r = 0; r < 4; ++r)
            for (std::size_t row = 0; row < 4; ++row)
                for (std::size_t column = 0; column < 4; ++column)
                    cell.power[k][r] += basis[column][k] * basis[row][r] * c[row * stride + column];
    return cell;
}

SurfaceJet FittedSurface::at(double x, double y) const {
    const double tx = (x - grid_.origin.x()) * per_m_.x(), ty = (y - grid_.origin.y()) * per_m_.y();
    if (!(tx >= 0 && ty >= 0 && tx < grid_.cells_x && ty < grid_.cells_y)) return by_basis(x, y);
    const int i = static_cast<int>(tx), j = static_cast<int>(ty);
    const double u = tx - i, w = ty - j;
    const auto& a = cells_[static_cast<std::size_t>(j * grid_.cells_x + i)].power;
    // Grouped by squares rather than nested: a roll waits for every one of these.
    const double u2 = u * u, w2 = w * w;
    Four p0, p1, p2, p3;  // the n-th derivative by u, in powers of w
    for (std::size_t r = 0; r < 4; ++r) {
        p3[r] = 6 * a[3][r];
        p2[r] = 2 * a[2][r] + u * p3[r];
        p1[r] = (a[1][r] + 2 * u * a[2][r]) + 3 * u2 * a[3][r];
        p0[r] = (a[0][r] + u * a[1][r]) + u2 * (a[2][r] + u * a[3][r]);
    }
    const auto value = [&](const Four& p) { return (p[0] + w * p[1]) + w2 * (p[2] + w * p[3]); };
    const auto slope = [&](const Four& p) { return (p[1] + 2 * w * p[2]) + 3 * w2 * p[3]; };
    const auto bend = [&](const Four& p) { return 2 * p[2] + 6 * w * p[3]; };
    const double sx = per_m_.x(), sy = per_m_.y();
    SurfaceJet jet;
    jet.h = value(p0);
    jet.hx = value(p1) * sx;
    jet.hy = slope(p0) * sy;
    jet.hxx = value(p2) * (sx * sx);
    jet.hxy = slope(p1) * (sx * sy);
    jet.hyy = bend(p0) * (sy * sy);
    jet.hxxx = value(p3) * (sx * sx * sx);
    jet.hxxy = slope(p2) * (sx * sx * sy);
    jet.hxyy = bend(p1) * (sx * sy * sy);
    jet.hyyy = 6 * p0[3] * (sy * sy * sy);
    return jet;
}

/// Its cell; off the grid, all that lies beyond the edge.
SmoothPatch FittedSurface::patch(const Vec2& at) const {
    const auto along = [](double place, double origin, double spacing, int cells, double& low,
                          double& high) {
        const double cell = std::floor((place - origin) / spacing);
        if (cell >= 0) low = origin + spacing * std::min(cell, double(cells));
        if (cell < cells) high = origin + spacing * std::max(cell + 1, 0.0);
    };
    SmoothPatch patch;
    along(at.x(), grid_.origin.x(), grid_.spacing_m.x(), grid_.cells_x, patch.low.x(),
          patch.high.x());
    along(at.y(), grid_.origin.y(), grid_.spacing_m.y(), grid_.cells_y, patch.low.y(),
          patch.high.y());
    return patch;
}

/// Off the grid, and on its upper and right edge.
SurfaceJet FittedSurface::by_basis(double x, double y) const {
    const SplineWeights wx =
        spline_weights(x, grid_.origin.x(), grid_.spacing_m.x(), grid_.cells_x);
    const SplineWeights wy =
        spline_weights(y, grid_.origin.y(), grid_.spacing_m.y(), grid_.cells_y);

    const std::size_t stride = static_cast<std::size_t>(grid_.coefficients_x());
    const double* c = coefficients_.data() + static_cast<std::size_t>(wy.first) * stride + wx.first;
    Four by_x[4];  // by_x[n][row]: the n-th x derivative along each of the four rows
    for (std::size_t row = 0; row < 4; ++row, c += stride)
        for (std::size_t n = 0; n < 4; ++n) by_x[n][row] = dot(wx.d[n], c);

    SurfaceJet jet;
    jet.h = dot(wy.d[0], by_x[0]);
    jet.hx = dot(wy.d[0], by_x[1]);
    jet.hxx = dot(wy.d[0], by_x[2]);
    jet.hxxx = dot(wy.d[0], by_x[3]);
    jet.hy = dot(wy.d[1], by_x[0]);
    jet.hxy = dot(wy.d[1], by_x[1]);
    jet.hxxy = dot(wy.d[1], by_x[2]);
    jet.hyy = dot(wy.d[2], by_x[0]);
    jet.hxyy = dot(wy.d[2], by_x[1]);
    jet.hyyy = dot(wy.d[3], by_x[0]);
    return jet;
}

}  // namespace dewtrail
