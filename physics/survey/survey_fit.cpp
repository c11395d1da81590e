#include "physics/survey/survey_fit.hpp"

#include <Eigen/Cholesky>
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <memory>
#include <mutex>
#include <stdexcept>

#include "physics/numbers/normal.hpp"
#include "physics/numbers/random_normals.hpp"
#include "physics/surface/bending_energy.hpp"
#include "physics/survey/survey_layout.hpp"

namespace dewtrail {
namespace {

using Sparse = Eigen::SparseMatrix<double>;
using Vector = Eigen::VectorXd;
using Factor = Eigen::SimplicialLDLT<Sparse>;

/// Weight, in readings, of the prior that the stated sds are right.
constexpr double scale_prior_readings = 4;

/// A green bends the same way for about so far: common practice, no source.
constexpr double bend_reach_m = 4;

/// How far we search for lambda on either side of where readings and bending balance, in log
/// lambda.
constexpr double widest_log_ratio = 18;

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

/// The readings as weighted equations for the coefficients, the best plane taken off.
struct Equations {
    Sparse rows;  // each divided by its reading's sd
    Vector values;
    int readings = 0;  // numbers read; a row that only pins the free constant is not one
    int free_planes = 3;
};

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
    return eq;
}

/// The penalised problem, solved for one lambda after another.
class Smoother {
  public:
    Smoother(Equations equations, Sparse energy)
        : eq_(std::move(equations)), energy_(std::move(energy)) {
        information_ = eq_.rows.transpose() * eq_.rows;
        right_ = eq_.rows.transpose() * eq_.values;
        renew_factor();
        balance_ = information_.diagonal().sum() / energy_.diagonal().sum();
    }

    /// False if the equations are singular.
    bool solve(double lambda) {
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
    std::unique_ptr<Factor> take_factor() {
        auto taken = std::move(factor_);
        renew_factor();
        return taken;
    }

  private:
    Sparse precision(double lambda) const { return information_ + lambda * energy_; }
    void renew_factor() {
        factor_ = std::make_unique<Factor>();
        factor_->analyzePattern(precision(1));
    }
    double believed_readings() const {
        return eq_.readings - eq_.free_planes + scale_prior_readings;
    }

    Equations eq_;
    Sparse energy_, information_;
    Vector right_, coefficients_;
    std::unique_ptr<Factor> factor_;
    double balance_ = 1, misfit_ = 0;
};

/// The likeliest lambda. A coarse scan comes first, for the likelihood can have two humps. At the
/// ends of the range the fit has long become an interpolant, or the best plane.
double likeliest_lambda(Smoother& smoother) {
    constexpr double lowest = -14, highest = widest_log_ratio,
                     stride = 4;  // of log(lambda / balance)
    const auto surprise = [&](double log_ratio) {
        return smoother.surprise(smoother.balance() * std::exp(log_ratio));
    };
    double best = lowest, least = surprise(lowest);
    for (double x = lowest + stride; x <= highest; x += stride) {
        const double here = surprise(x);
        if (here < least) best = x, least = here;
    }
    constexpr int bits = 7;  // of log lambda: the fit changes far less than its uncertainty
    std::uintmax_t budget = 20;
    const auto [x, value] = boost::math::tools::brent_find_minima(
        surprise, std::max(lowest, best - stride), std::min(highest, best + stride), bits, budget);
    return smoother.balance() * std::exp(value < least ? x : best);
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

/// What the readings leave open: the surface fitted for each smoothness that they allow, with its
/// weight. For one lambda the coefficients' covariance is the inverse of the normal equations,
/// scaled; the uncertainty of lambda adds how far its surface lies from the chosen one. Computed on
/// first use, since a plain read never needs it.
class FitPosterior {
  public:
    FitPosterior(const SplineGrid& grid, Smoother smoother, double likeliest)
        : grid_(grid),
          chosen_(smoother.coefficients()),
          smoother_(std::move(smoother)),
          likeliest_(likeliest) {}

    Eigen::MatrixXd covariance(const std::vector<SurfaceFunctional>& functionals) const {
        const Eigen::MatrixXd columns = columns_of(functionals);
        const Eigen::Index n = columns.cols();
        Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(n, n);
        for (const Part& part : parts()) {
            const Vector off = columns.transpose() * part.off;
            sum += part.weight * (part.scale * (columns.transpose() * part.factor->solve(columns)) +
                                  off * off.transpose());
        }
        return sum;
    }

    /// A surface as likely as the readings say: what it adds to the chosen coefficients.
    Vector draw(RandomNormals& random) const {
        const double share = normal_below(random.pair()[0]);
        std::size_t k = 0;
        for (double sum = parts()[0].weight; sum < share && k + 1 < parts().size();)
            sum += parts()[++k].weight;
        const Part& part = parts()[k];
        Vector z(chosen_.size());
        for (double& component : z) component = random.pair()[0];
        // precision = P^T L D L^T P, so P^T L^-T D^-1/2 z has its inverse as covariance.
        z.array() /= part.factor->vectorD().array().sqrt();
        part.factor->matrixU().solveInPlace(z);
        return part.off + std::sqrt(part.scale) * (part.factor->permutationPinv() * z);
    }

  private:
    struct Part {
        std::unique_ptr<Factor> factor;
        Vector off;  ///< its coefficients minus the chosen ones
        double scale = 1, weight = 1;
    };

    const std::vector<Part>& parts() const {
        std::call_once(made_, [this] { make_parts(); });
        return parts_;
    }

    /// Outward from the likeliest lambda, both ways, as long as the readings allow it.
    void make_parts() const {
        constexpr double stride = 1.5, least_weight = 0.01;  // of log lambda
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
        double all = 0;
        for (const Part& part : parts_) all += part.weight;
        for (Part& part : parts_) part.weight /= all;
    }

    /// Of the lambda that was solved last.
    void add_part(double weight) const {
        const Vector off = smoother_.coefficients() - chosen_;
        const double scale = smoother_.variance_scale();
        parts_.push_back({smoother_.take_factor(), off, scale, weight});
    }

    Eigen::MatrixXd columns_of(const std::vector<SurfaceFunctional>& functionals) const {
        const auto count = static_cast<Eigen::Index>(functionals.size());
        Eigen::MatrixXd columns = Eigen::MatrixXd::Zero(grid_.coefficients(), count);
        for (Eigen::Index f = 0; f < count; ++f)
            for (const SurfaceTerm& term : functionals[static_cast<std::size_t>(f)])
                spread(grid_, term, [&](int i, double w) { columns(i, f) += w; });
        return columns;
    }

    SplineGrid grid_;
    Vector chosen_;
    mutable Smoother smoother_;
    double likeliest_;
    mutable std::once_flag made_;
    mutable std::vector<Part> parts_;
};

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
    Smoother smoother(equations_of(survey, grid, plane), bending_energy(grid, bend_reach_m));

    SurfaceFit fit;
    fit.lambda = likeliest_lambda(smoother);
    fit.degrees_of_freedom = smoother.degrees_of_freedom(fit.lambda);
    if (!smoother.solve(fit.lambda) || !std::isfinite(fit.degrees_of_freedom))
        return failed(FitStatus::singular,
                      "the readings' uncertainties differ too wildly to be fitted together");
    fit.sd_scale = std::sqrt(smoother.variance_scale());
    fit.surface = std::make_shared<const FittedSurface>(
        grid, add_plane(grid, plane, smoother.coefficients()));
    fit.posterior = std::make_shared<const FitPosterior>(grid, std::move(smoother), fit.lambda);
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
