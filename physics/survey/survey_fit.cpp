#include "physics/survey/survey_fit.hpp"

#include <Eigen/Cholesky>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "physics/numbers/random_normals.hpp"
#include "physics/survey/fit_posterior.hpp"
#include "physics/survey/survey_layout.hpp"

namespace dewtrail {
namespace {

/// The plane of least squares, h(p) = height + gradient . (p - middle). Planes cost no bending, so
/// the spline need only be fitted to what this leaves; that keeps its equations well scaled.
struct BestPlane {
    Vec2 middle{0, 0};
    double height = 0;
    Vec2 gradient{0, 0};

    double at(const Vec2& p) const { return height + gradient.dot(p - middle); }
};

BestPlane best_plane(const Survey& survey) {
    BestPlane plane;
    plane.middle = middle_of(survey);
    Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
    Eigen::Vector3d right = Eigen::Vector3d::Zero();
    const auto add = [&](const Eigen::Vector3d& row, double value, double sd) {
        normal += row * row.transpose() / (sd * sd);
        right += row * value / (sd * sd);
    };
    for (const LevelReading& r : survey.levels) {
        add(Eigen::Vector3d::UnitY(), r.gradient.x(), r.sd);
        add(Eigen::Vector3d::UnitZ(), r.gradient.y(), r.sd);
    }
    for (const HeightReading& r : survey.heights)
        add({1, (r.at - plane.middle).x(), (r.at - plane.middle).y()}, r.height_m, r.sd_m);
    if (survey.heights.empty()) normal(0, 0) = 1;
    const Eigen::Vector3d solution = normal.ldlt().solve(right);
    plane.height = solution[0];
    plane.gradient = {solution[1], solution[2]};
    return plane;
}

/// What the readings tell of a dish of unit bend, over the bending it has on the grid.
double dish_balance(const Survey& survey, const SplineGrid& grid) {
    const Vec2 middle = middle_of(survey);
    const Vec2 size = grid.spacing_m.cwiseProduct(Vec2(grid.cells_x, grid.cells_y));
    double told = 0;
    for (const LevelReading& r : survey.levels)
        told += (r.at - middle).squaredNorm() / (r.sd * r.sd);
    for (const HeightReading& r : survey.heights)
        told += std::pow((r.at - middle).squaredNorm() / (2 * r.sd_m), 2);
    return told / (2 * size.x() * size.y());
}

Equations equations_of(const Survey& survey, const SplineGrid& grid, const BestPlane& plane) {
    std::vector<Eigen::Triplet<double>> entries;
    std::vector<double> values;
    const auto add = [&](const SurfaceTerm& term, double value, double sd) {
        const int row = static_cast<int>(values.size());
        spread(grid, term, [&](int i, double w) { entries.emplace_back(row, i, w / sd); });
        values.push_back(value / sd);
    };
    for (const LevelReading& r : survey.levels) {
        add({r.at, 0, Vec2(1, 0)}, r.gradient.x() - plane.gradient.x(), r.sd);
        add({r.at, 0, Vec2(0, 1)}, r.gradient.y() - plane.gradient.y(), r.sd);
    }
    for (const HeightReading& r : survey.heights)
        add({r.at, 1, {0, 0}}, r.height_m - plane.at(r.at), r.sd_m);

    Equations eq;
    eq.readings = static_cast<int>(values.size());
    if (survey.heights.empty()) {
        // Nothing else depends on the constant, so its pin holds exactly, whatever its weight.
        add({plane.middle, 1, {0, 0}}, 0, default_height_sd_m);
        eq.free_planes = 2;
    }
    eq.rows.resize(static_cast<int>(values.size()), grid.coefficients());
    eq.rows.setFromTriplets(entries.begin(), entries.end());
    eq.values = Eigen::Map<Vector>(values.data(), static_cast<Eigen::Index>(values.size()));
    eq.dish_balance = dish_balance(survey, grid);
    return eq;
}

/// Coefficients of the plane plus what the spline adds to it: for a linear function the coefficient
/// is its value one spacing further back per axis, the middle of the basis function.
std::vector<double> add_plane(const SplineGrid& grid, const BestPlane& plane, const Vector& b) {
    std::vector<double> sum(b.data(), b.data() + b.size());
    for (int j = 0; j < grid.coefficients_y(); ++j)
        for (int i = 0; i < grid.coefficients_x(); ++i) {
            const Vec2 place = grid.origin + Vec2(i - 1, j - 1).cwiseProduct(grid.spacing_m);
            sum[static_cast<std::size_t>(j * grid.coefficients_x() + i)] += plane.at(place);
        }
    return sum;
}

void note_residuals(const Survey& survey, SurfaceFit& fit) {
    double levels = 0, heights = 0;
    for (const LevelReading& r : survey.levels) {
        fit.level_residuals.push_back(r.gradient - fit.surface->at(r.at.x(), r.at.y()).gradient());
        levels += fit.level_residuals.back().squaredNorm() / 2;
    }
    for (const HeightReading& r : survey.heights) {
        fit.height_residuals_m.push_back(r.height_m - fit.surface->at(r.at.x(), r.at.y()).h);
        heights += std::pow(fit.height_residuals_m.back(), 2);
    }
    const auto mean = [](double sum, std::size_t n) { return n > 0 ? sum / double(n) : 0.0; };
    fit.level_rms = std::sqrt(mean(levels, survey.levels.size()));
    fit.height_rms_m = std::sqrt(mean(heights, survey.heights.size()));
}

SurfaceFit failed(FitStatus status, std::string message) {
    SurfaceFit fit;
    fit.status = status;
    fit.message = std::move(message);
    return fit;
}

}  // namespace

LevelReading level_reading(const Vec2& at, double slope, double falls_toward_rad, double sd) {
    return {at, -slope * along_bearing(falls_toward_rad), sd};
}

LevelReading level_reading_along(const Vec2& at, const Vec2& direction, double up,
                                 double falls_left, double sd) {
    const Vec2 left(-direction.y(), direction.x());
    return {at, up * direction - falls_left * left, sd};
}

SurfaceFit fit_survey(const Survey& survey, const SurveyFitOptions& options) {
    check_readings(survey);
    if (const auto lack = what_is_missing(survey)) return failed(lack->status, lack->message);
    const SplineGrid grid = lay_grid(survey, options);
    const BestPlane plane = best_plane(survey);
    Smoother smoother(grid, equations_of(survey, grid, plane));
    SmoothnessFound found = find_smoothness(smoother);
    if (found.allowed.empty())
        return failed(FitStatus::singular,
                      "the readings' uncertainties differ too wildly to be fitted together");

    SurfaceFit fit;
    fit.lambda = found.allowed[0].lambda;
    fit.degrees_of_freedom = smoother.degrees_of_freedom(found.allowed[0]);
    fit.sd_scale = std::sqrt(found.variance_scale);
    fit.surface =
        std::make_shared<const FittedSurface>(grid, add_plane(grid, plane, found.coefficients));
    fit.posterior =
        std::make_shared<const FitPosterior>(grid, smoother.take_equations(), std::move(found));
    note_residuals(survey, fit);
    fit.status = FitStatus::fitted;
    return fit;
}

double SurfaceFit::slope_sd(const Vec2& at, double bearing_rad) const {
    const double variance = covariance({{{at, 0, along_bearing(bearing_rad)}}})(0, 0);
    return std::sqrt(std::max(0.0, variance));
}

std::vector<std::shared_ptr<const FittedSurface>> SurfaceFit::drawn(int count,
                                                                    std::uint64_t seed) const {
    std::vector<std::shared_ptr<const FittedSurface>> surfaces;
    if (!posterior) return surfaces;
    RandomNormals random(seed);
    const auto& chosen = surface->coefficients();
    for (int i = 0; i < count; ++i) {
        const Vector extra = posterior->draw(random);
        std::vector<double> coefficients(chosen);
        for (std::size_t k = 0; k < coefficients.size(); ++k)
            coefficients[k] += extra[static_cast<Eigen::Index>(k)];
        surfaces.push_back(
            std::make_shared<const FittedSurface>(surface->grid(), std::move(coefficients)));
    }
    return surfaces;
}

Eigen::MatrixXd SurfaceFit::covariance(const std::vector<SurfaceFunctional>& functionals) const {
    const auto n = static_cast<Eigen::Index>(functionals.size());
    return posterior ? posterior->covariance(functionals) : Eigen::MatrixXd::Zero(n, n);
}

}  // namespace dewtrail
