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

/// How stiff the ground is, and over how far its bend stays the same.
struct Smoothness {
    double reach_m = 0, lambda = 0;
    double weight = 1;  ///< share of belief among those that the readings allow
};

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
    double dish_balance = 1;  // lambda at which they weigh as much as bending on a dish
};

/// The penalised problem, solved for one smoothness after another.
class Smoother {
  public:
    Smoother(const SplineGrid& grid, Equations equations);

    /// False if the equations are singular.
    bool solve(const Smoothness& smoothness);

    /// Minus twice the log of the restricted likelihood, but for `log_room_of_planes` of its reach
    /// and a constant that is the same for every smoothness; infinite if the equations are
    /// singular.
    double surprise(const Smoothness& smoothness);
    /// The penalty's own determinant, which differs from reach to reach: where lambda is so large
    /// that only planes are left, every reach says the same of the readings.
    double log_room_of_planes(double reach_m);

    /// Trace of the map from readings to fitted values: the log determinant's derivative by
    /// log lambda is the trace of what the penalty holds, and the rest is left to the readings.
    double degrees_of_freedom(const Smoothness& smoothness);

    /// Between them lie an interpolant and the best plane, whatever the reach.
    double least_lambda() const { return 1e-9 * eq_.dish_balance; }
    double most_lambda() const { return 1e4 * eq_.dish_balance; }

    // Of the smoothness that was solved last:
    const Vector& coefficients() const { return coefficients_; }
    double variance_scale() const;
    std::unique_ptr<Factor> take_factor() { return std::move(factor_); }

    Equations take_equations() { return std::move(eq_); }

  private:
    double energy_of(const Vector& coefficients, double reach_m) const;
    bool factorise(const Smoothness& smoothness);
    /// log det of the normal equations minus that of the penalty, up to the reach's constant.
    double log_room(double lambda) const;
    double believed_readings() const;

    Equations eq_;
    Sparse bends_, changes_, information_;
    Vector right_, coefficients_;
    std::unique_ptr<Factor> factor_;
    double misfit_ = 0;
};

}  // namespace dewtrail
