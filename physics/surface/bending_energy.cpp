#include "physics/surface/bending_energy.hpp"

#include <algorithm>
#include <vector>

namespace dewtrail {
namespace {

/// Integrals of products of two basis functions' n-th derivatives along one axis. Each function
/// overlaps three neighbours on either side: entry (i, 3 + j - i).
using Band = Eigen::Matrix<double, Eigen::Dynamic, 7, Eigen::RowMajor>;

constexpr double gauss_place[4] = {-0.8611363115940526, -0.3399810435848563, 0.3399810435848563,
                                   0.8611363115940526};
constexpr double gauss_weight[4] = {0.3478548451374538, 0.6521451548625461, 0.6521451548625461,
                                    0.3478548451374538};

Band overlaps(std::size_t derivative, double spacing_m, int cells) {
    Band band = Band::Zero(cells + 3, 7);
    for (int cell = 0; cell < cells; ++cell)
        for (int g = 0; g < 4; ++g) {
            const double place = (cell + 0.5 + 0.5 * gauss_place[g]) * spacing_m;
            const double weight = 0.5 * gauss_weight[g] * spacing_m;
            const auto d = spline_weights(place, 0, spacing_m, cells).d[derivative];
            for (int i = 0; i < 4; ++i)
                for (int j = 0; j < 4; ++j)
                    band(cell + i, 3 + j - i) += weight * d[std::size_t(i)] * d[std::size_t(j)];
        }
    return band;
}

}  // namespace

Eigen::SparseMatrix<double> bending_energy(const SplineGrid& grid, double reach_m) {
    Band x[4], y[4];
    for (std::size_t n = 0; n < 4; ++n) {
        x[n] = overlaps(n, grid.spacing_m.x(), grid.cells_x);
        y[n] = overlaps(n, grid.spacing_m.y(), grid.cells_y);
    }
    const int nx = grid.coefficients_x(), ny = grid.coefficients_y();
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(static_cast<std::size_t>(nx * ny) * 49);
    const auto add = [&](int ix, int iy, int dx, int dy) {
        const int jx = ix + dx, jy = iy + dy;
        if (jx < 0 || jx >= nx || jy < 0 || jy >= ny) return;
        const auto both = [&](std::size_t n, std::size_t m) {
            return x[n](ix, 3 + dx) * y[m](iy, 3 + dy);
        };
        const double bends = both(2, 0) + 2 * both(1, 1) + both(0, 2);
        const double changes = both(3, 0) + 3 * both(2, 1) + 3 * both(1, 2) + both(0, 3);
        entries.emplace_back(iy * nx + ix, jy * nx + jx, bends + reach_m * reach_m * changes);
    };
    for (int iy = 0; iy < ny; ++iy)
        for (int ix = 0; ix < nx; ++ix)
            for (int dy = -3; dy <= 3; ++dy)
                for (int dx = -3; dx <= 3; ++dx) add(ix, iy, dx, dy);
    Eigen::SparseMatrix<double> matrix(nx * ny, nx * ny);
    matrix.setFromTriplets(entries.begin(), entries.end());
    return matrix;
}

}  // namespace dewtrail
