#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCholesky>
#include <memory>

#include "physics/survey/survey_fit.hpp"

/// The equations of a survey fit and their solution for one smoothness after another. Inside the
/// library: survey_fit.hpp is what others use.
namespace dewtrail {

using Sparse = Eigen::SparseMatrix<double>;
using Vector = Eigen::VectorXd;
using Factor = Eigen::SimplicialLDLT<Sparse>;

/// Weight, in readings, of the prior that the stated sds are right.
inline constexpr double scale_prior_readings = 4;

/// How far we search for lambda on either side of where readings and bending balance, in log
/// lambda.
inline constexpr double widest_log_ratio = 18;

/// The functional's coefficient vector, handed entry by entry to put(index, weight).
template <typename Put>
void spread(const SplineGrid& grid, const SurfaceTerm& term, Put put) {
    const auto wx = spline_weights(term.at.x(), grid.origin.x(), grid.spacing_m.x(), grid.cells_x);
    const auto wy = spline_weights(term.at.y(), grid.origin.y(), grid.spacing_m.y(), grid.cells_y);
    for (std::size_t j = 0; j < 4; ++j)
        for (std::size_t i = 0; i < 4; ++i) {
            const int index = (wy.first + int(j)) * grid.coefficients_x() + wx.first + int(i);
            put(index, term.height * wx.d[0][i] * wy.d[0][j] +
                           term.gradient.x() * wx.d[1][i] * wy.d[0][j] +
                           term.gradient.y() * wx.d[0][i] * wy.d[1][j]);
        }
}

/// The readings as weighted equations for the coefficients, the best plane taken off.
struct Equations {
    Sparse rows;  // each divided by its reading's sd
    Vector values;
    int readings = 0;  // numbers read; a row that only pins the free constant is not one
    int free_planes = 3;
};

/// The penalised problem, solved for one lambda after another.
class Smoother {
  public:
    Smoother(Equations equations, Sparse energy)
        : eq_(std::move(equations)), energy_(std::move(energy)) {
        information_ = eq_.rows.transpose() * eq_.rows;
        right_ = eq_.rows.transpose() * eq_.values;
        balance_ = information_.diagonal().sum() / energy_.diagonal().sum();
    }

    /// False if the equations are singular.
    bool solve(double lambda) {
        if (!factor_) {
            factor_ = std::make_unique<Factor>();
            factor_->analyzePattern(precision(1));
        }
        factor_->factorize(precision(lambda));
        if (factor_->info() != Eigen::Success || !(factor_->vectorD().minCoeff() > 0)) return false;
        coefficients_ = factor_->solve(right_);
        misfit_ = (eq_.values - eq_.rows * coefficients_).squaredNorm() +
                  lambda * coefficients_.dot(energy_ * coefficients_);
        return std::isfinite(misfit_);
    }

    double log_determinant() const { return factor_->vectorD().array().log().sum(); }

    /// Minus twice the log of the restricted likelihood, up to a constant.
    double surprise(double lambda) {
        if (!solve(lambda)) return 1e300;
        return believed_readings() * std::log(variance_scale()) + log_determinant() -
               static_cast<double>(right_.size() - 3) * std::log(lambda);
    }

    double variance_scale() const { return (misfit_ + scale_prior_readings) / believed_readings(); }

    /// Trace of the map from readings to fitted values: the log determinant's derivative by
    /// log lambda is the trace of what the penalty holds, and the rest is left to the readings.
    double degrees_of_freedom(double lambda) {
        constexpr double step = 0.01;
        double log_det[2] = {0, 0};
        for (int i = 0; i < 2; ++i) {
            solve(lambda * std::exp(i == 0 ? -step : step));
            log_det[i] = log_determinant();
        }
        const double held = (log_det[1] - log_det[0]) / (2 * step);
        const double pinned = 3 - eq_.free_planes;
        return static_cast<double>(right_.size()) - held - pinned;
    }

    /// Where readings and bending weigh alike on a single coefficient.
    double balance() const { return balance_; }
    const Vector& coefficients() const { return coefficients_; }
    /// The factored equations of the lambda that was solved last, to keep.
    std::unique_ptr<Factor> take_factor() { return std::move(factor_); }
    void forget_factor() { factor_.reset(); }

  private:
    Sparse precision(double lambda) const { return information_ + lambda * energy_; }
    double believed_readings() const {
        return eq_.readings - eq_.free_planes + scale_prior_readings;
    }

    Equations eq_;
    Sparse energy_, information_;
    Vector right_, coefficients_;
    std::unique_ptr<Factor> factor_;
    double balance_ = 1, misfit_ = 0;
};

}  // namespace dewtrail
