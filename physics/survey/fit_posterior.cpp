#include "physics/survey/fit_posterior.hpp"

#include <algorithm>
#include <array>
#include <cmath>
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

}  // namespace

FitPosterior::FitPosterior(const SplineGrid& grid, Smoother smoother, double likeliest)
    : grid_(grid),
      chosen_(smoother.coefficients()),
      likeliest_(likeliest),
      smoother_(std::move(smoother)) {
    smoother_.forget_factor();
}

Eigen::MatrixXd FitPosterior::covariance(const std::vector<SurfaceFunctional>& functionals) const {
    const Eigen::MatrixXd columns = columns_of(functionals);
    const Eigen::Index n = columns.cols();
    Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(n, n);
    const auto parts = this->parts();
    for (const Part& part : *parts) {
        const Vector off = columns.transpose() * part.off;
        sum += part.weight * (part.scale * (columns.transpose() * part.factor->solve(columns)) +
                              off * off.transpose());
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
    Vector z(chosen_.size());
    for (double& component : z) component = random.pair()[0];
    // precision = P^T L D L^T P, so P^T L^-T D^-1/2 z has its inverse as covariance.
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

/// Outward from the likeliest lambda, both ways, as long as the readings allow it.
std::shared_ptr<const FitPosterior::Parts> FitPosterior::make_parts() const {
    constexpr double stride = 1.5, least_weight = 0.01;  // of log lambda
    const auto parts = std::make_shared<Parts>();
    const auto add_part = [&](double weight) {  // of the lambda that was solved last
        const Vector off = smoother_.coefficients() - chosen_;
        const double scale = smoother_.variance_scale();
        parts->push_back({smoother_.take_factor(), off, scale, weight});
    };
    const double least = smoother_.surprise(likeliest_);
    add_part(1);
    for (const double way : {-stride, stride})
        for (int step = 1;; ++step) {
            const double log_lambda = std::log(likeliest_) + way * step;
            if (std::abs(log_lambda - std::log(smoother_.balance())) > widest_log_ratio) break;
            const double weight =
                std::exp(-0.5 * (smoother_.surprise(std::exp(log_lambda)) - least));
            if (!(weight > least_weight)) break;
            add_part(weight);
        }
    smoother_.forget_factor();
    double all = 0;
    for (const Part& part : *parts) all += part.weight;
    for (Part& part : *parts) part.weight /= all;
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
