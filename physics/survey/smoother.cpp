#include "physics/survey/smoother.hpp"

#include <cmath>
#include <limits>

#include "physics/surface/bending_energy.hpp"

namespace dewtrail {
namespace {

/// Weight, in readings, of the prior that the stated sds are right. A step that readings straddle
/// looks like scatter; who reads a level knows his scatter better than the ground's shape.
constexpr double scale_prior_readings = 30;

}  // namespace

Smoother::Smoother(const SplineGrid& grid, Equations equations)
    : eq_(std::move(equations)), bends_(bending_energy(grid, 0)) {
    changes_ = bending_energy(grid, 1) - bends_;
    information_ = eq_.rows.transpose() * eq_.rows;
    right_ = eq_.rows.transpose() * eq_.values;
}

double Smoother::energy_of(const Vector& b, double reach_m) const {
    return b.dot(bends_ * b) + reach_m * reach_m * b.dot(changes_ * b);
}

bool Smoother::factorise(const Smoothness& smoothness) {
    const double lambda = smoothness.lambda, of_changes = lambda * std::pow(smoothness.reach_m, 2);
    const Sparse precision = information_ + lambda * bends_ + of_changes * changes_;
    if (!factor_) {
        factor_ = std::make_unique<Factor>();
        factor_->analyzePattern(precision);
    }
    factor_->factorize(precision);
    return factor_->info() == Eigen::Success && factor_->vectorD().minCoeff() > 0;
}

bool Smoother::solve(const Smoothness& smoothness) {
    if (!factorise(smoothness)) return false;
    coefficients_ = factor_->solve(right_);
    misfit_ = (eq_.values - eq_.rows * coefficients_).squaredNorm() +
              smoothness.lambda * energy_of(coefficients_, smoothness.reach_m);
    return std::isfinite(misfit_);
}

double Smoother::surprise(const Smoothness& smoothness) {
    if (!solve(smoothness)) return std::numeric_limits<double>::infinity();
    return believed_readings() * std::log(variance_scale()) + log_room(smoothness.lambda);
}

double Smoother::log_room(double lambda) const {
    return factor_->vectorD().array().log().sum() -
           static_cast<double>(right_.size() - 3) * std::log(lambda);
}

double Smoother::log_room_of_planes(double reach_m) {
    return factorise({reach_m, most_lambda()}) ? log_room(most_lambda()) : 0;
}

double Smoother::believed_readings() const {
    return eq_.readings - eq_.free_planes + scale_prior_readings;
}

double Smoother::variance_scale() const {
    return (misfit_ + scale_prior_readings) / believed_readings();
}

double Smoother::degrees_of_freedom(const Smoothness& smoothness) {
    constexpr double step = 0.01;
    double log_det[2] = {0, 0};
    for (int i = 0; i < 2; ++i) {
        factorise({smoothness.reach_m, smoothness.lambda * std::exp(i == 0 ? -step : step)});
        log_det[i] = factor_->vectorD().array().log().sum();
    }
    const double held = (log_det[1] - log_det[0]) / (2 * step);
    const double pinned = 3 - eq_.free_planes;
    return static_cast<double>(right_.size()) - held - pinned;
}

}  // namespace dewtrail
