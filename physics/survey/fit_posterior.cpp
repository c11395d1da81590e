#include "physics/survey/fit_posterior.hpp"

#include <array>
#include <utility>

#include "physics/numbers/normal.hpp"

namespace dewtrail {
namespace {

/// Keeps the last two alive, whatever they are.
void keep_warm(std::shared_ptr<const void> parts) {
    static std::mutex moving;
    static std::array<std::shared_ptr<const void>, 2> warm;
    const std::lock_guard lock(moving);
    if (warm[0] == parts) return;
    warm[1] = std::exchange(warm[0], std::move(parts));
}

using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Side by side: each entry of the factor is fetched once for all columns.
void solve_lower(const Factor& factor, Rows& columns) {
    const Sparse& lower = factor.matrixL().nestedExpression();  // without its diagonal of ones
    for (Eigen::Index i = 0; i < lower.outerSize(); ++i) {
        if (columns.row(i).isZero(0)) continue;
        for (Sparse::InnerIterator below(lower, i); below; ++below)
            columns.row(below.row()) -= below.value() * columns.row(i);
    }
}

}  // namespace

FitPosterior::FitPosterior(const SplineGrid& grid, Equations equations, SmoothnessFound found)
    : grid_(grid), equations_(std::move(equations)), found_(std::move(found)) {}

Eigen::MatrixXd FitPosterior::covariance(const std::vector<SurfaceFunctional>& functionals) const {
    const Eigen::MatrixXd columns = columns_of(functionals);
    const Eigen::Index n = columns.cols();
    Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(n, n);
    const auto parts = this->parts();
    for (const Part& part : *parts) {
        // precision = P^T L D L^T P, so its inverse is the square of D^-1/2 L^-1 P.
        Rows root = part.factor->permutationP() * columns;
        solve_lower(*part.factor, root);
        root.array().colwise() /= part.factor->vectorD().array().sqrt();
        const Vector off = columns.transpose() * part.off;
        sum += part.weight * (part.scale * (root.transpose() * root) + off * off.transpose());
    }
    return sum;
}

Vector FitPosterior::draw(RandomNormals& random) const {
    const auto parts = this->parts();
    const double share = normal_below(random.pair()[0]);
    std::size_t k = 0;
    for (double sum = (*parts)[0].weight; sum < share && k + 1 < parts->size();)
        sum += (*parts)[++k].weight;
    const Part& part = (*parts)[k];
    Vector z(grid_.coefficients());
    for (double& component : z) component = random.pair()[0];
    // P^T L^-T D^-1/2 z has the inverse of the precision as covariance.
    z.array() /= part.factor->vectorD().array().sqrt();
    part.factor->matrixU().solveInPlace(z);
    return part.off + std::sqrt(part.scale) * (part.factor->permutationPinv() * z);
}

std::shared_ptr<const FitPosterior::Parts> FitPosterior::parts() const {
    const std::lock_guard lock(making_);
    auto parts = parts_.lock();
    if (!parts) parts_ = parts = make_parts();
    keep_warm(parts);
    return parts;
}

std::shared_ptr<const FitPosterior::Parts> FitPosterior::make_parts() const {
    const auto parts = std::make_shared<Parts>();
    Smoother smoother(grid_, equations_);
    for (const Smoothness& allowed : found_.allowed) {
        smoother.solve(allowed);
        const Vector off = smoother.coefficients() - found_.coefficients;
        const double scale = smoother.variance_scale();
        parts->push_back({smoother.take_factor(), off, scale, allowed.weight});
    }
    return parts;
}

Eigen::MatrixXd FitPosterior::columns_of(const std::vector<SurfaceFunctional>& functionals) const {
    const auto count = static_cast<Eigen::Index>(functionals.size());
    Eigen::MatrixXd columns = Eigen::MatrixXd::Zero(grid_.coefficients(), count);
    for (Eigen::Index f = 0; f < count; ++f)
        for (const SurfaceTerm& term : functionals[static_cast<std::size_t>(f)])
            spread(grid_, term, [&](int i, double w) { columns(i, f) += w; });
    return columns;
}

}  // namespace dewtrail
