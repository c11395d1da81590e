#include "physics/numbers/minimise.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// Rosenbrock, Comput. J. 3, 175-184 (1960), from memory: a curved valley, least at (1, 1).
double valley(const Eigen::VectorXd& x) {
    const double across = x[1] - x[0] * x[0], along = 1 - x[0];
    return 100 * across * across + along * along;
}

TEST_CASE("the simplex goes down Rosenbrock's valley to its end", "[minimise]") {
    const Minimum least =
        minimise(valley, Eigen::Vector2d(-1.2, 1), Eigen::Vector2d(0.1, 0.1), 1e-16);
    CHECK_THAT(least.at[0], WithinAbs(1, 1e-6));
    CHECK_THAT(least.at[1], WithinAbs(1, 1e-6));
    CHECK(least.value == valley(least.at));
    CHECK(least.evaluations < 400);
}

TEST_CASE("a function may be infinite outside where it is defined", "[minimise]") {
    const auto f = [](const Eigen::VectorXd& x) {
        return x[0] > 0 ? x[0] - std::log(x[0]) : std::numeric_limits<double>::infinity();
    };
    const Minimum least =
        minimise(f, Eigen::VectorXd::Constant(1, 0.1), Eigen::VectorXd::Constant(1, 2), 1e-14);
    CHECK_THAT(least.at[0], WithinAbs(1, 1e-6));
}

TEST_CASE("the budget ends the search, with the least that was met", "[minimise]") {
    double met = std::numeric_limits<double>::infinity();
    const auto f = [&](const Eigen::VectorXd& x) {
        met = std::min(met, valley(x));
        return valley(x);
    };
    const Minimum least = minimise(f, Eigen::Vector2d(-1.2, 1), Eigen::Vector2d(0.1, 0.1), 0, 40);
    CHECK(least.value == met);
    CHECK(least.evaluations >= 40);
    CHECK(least.evaluations < 45);
}

TEST_CASE("second derivatives of a quadratic are its matrix", "[minimise]") {
    Eigen::Matrix3d A;
    A << 2, -1, 0.5, -1, 3, 0.25, 0.5, 0.25, 4;
    const auto f = [&](const Eigen::VectorXd& x) { return 0.5 * x.dot(A * x) + x[0] - 2 * x[2]; };
    const Eigen::MatrixXd H =
        second_derivatives(f, Eigen::Vector3d(0.3, -1, 2), Eigen::Vector3d(0.01, 0.02, 0.01));
    CHECK((H - A).cwiseAbs().maxCoeff() < 1e-9);
}

TEST_CASE("at a wall there are no second derivatives", "[minimise]") {
    const auto f = [](const Eigen::VectorXd& x) {
        return x[0] > 0 ? x.squaredNorm() : std::numeric_limits<double>::infinity();
    };
    const Eigen::Vector2d step(0.01, 0.01);
    CHECK(second_derivatives(f, Eigen::Vector2d(0.005, 1), step).isZero(0));
    CHECK_FALSE(second_derivatives(f, Eigen::Vector2d(0.05, 1), step).isZero(0));
}

}  // namespace
}  // namespace dewtrail
