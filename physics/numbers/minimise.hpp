#pragma once

#include <Eigen/Core>
#include <functional>

namespace dewtrail {

/// A function of a few parameters and where it is least.
struct Minimum {
    Eigen::VectorXd at;
    double value = 0;
    int evaluations = 0;
};

/// Nelder & Mead's simplex (Comput. J. 7, 308-313, 1965), from a simplex of the given steps, until
/// its values differ by less than `close` or the budget is used up. The function may return
/// infinity.
Minimum minimise(const std::function<double(const Eigen::VectorXd&)>& f,
                 const Eigen::VectorXd& start, const Eigen::VectorXd& steps, double close,
                 int most_evaluations = 1000);

/// Second derivatives by central differences; all 0 where the function is infinite that near.
Eigen::MatrixXd second_derivatives(const std::function<double(const Eigen::VectorXd&)>& f,
                                   const Eigen::VectorXd& at, const Eigen::VectorXd& steps);

}  // namespace dewtrail
