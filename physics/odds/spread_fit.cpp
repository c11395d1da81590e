#include "physics/odds/spread_fit.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "physics/numbers/minimise.hpp"
#include "physics/numbers/normal.hpp"
#include "physics/odds/odds.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

using Eigen::VectorXd;

constexpr double hole_less_ball_m = hole_radius_m - ball_radius_m;
constexpr double close_enough = 1e-9;  ///< of the log likelihood
constexpr double step = 1e-3;          ///< of a logarithm, for second derivatives
/// What the model's chance to hole is good to: no row tells more than that, however many its tries.
constexpr double model_error = 0.005;

void check(const std::vector<HoledRow>& rows) {
    if (rows.empty()) throw std::invalid_argument("rows: there are none");
    for (const HoledRow& row : rows) {
        const std::string at = "row at " + std::to_string(row.distance_m) + " m: ";
        if (!(row.distance_m >= 0.08 && row.distance_m <= 40))
            throw std::invalid_argument(at + "distance must lie within 0.08 to 40 m");
        if (!(row.tries > 0 && row.holed >= 0 && row.holed <= row.tries))
            throw std::invalid_argument(at + "holed must lie within 0 to tries");
    }
}

/// -log of the binomial likelihood, less its least possible value.
double surprise(const HoledRow& row, double chance) {
    const double p = std::clamp(chance, 1e-12, 1 - 1e-12), share = row.holed / row.tries;
    double sum = 0;
    if (row.holed > 0) sum += row.holed * std::log(share / p);
    if (row.holed < row.tries) sum += (row.tries - row.holed) * std::log((1 - share) / (1 - p));
    return sum;
}

/// How much of a row counts where the model is off by `model_error` as well as the tries by chance.
double share_told(const HoledRow& row) {
    const double p = (row.holed + 0.5) / (row.tries + 1);
    return 1 / (1 + row.tries * model_error * model_error / (p * (1 - p)));
}

double through_narrow_hole(double distance_m, double line_rad) {
    const double window = std::asin(std::min(1.0, hole_less_ball_m / distance_m));
    return 2 * normal_below(window / line_rad) - 1;
}

VectorXd steps_of(Eigen::Index n, double size) {
    return VectorXd::Constant(n, size);
}

/// Standard errors of exp(x) from the curvature of -log likelihood in x; 0 where it has none.
VectorXd errors_of(const std::function<double(const VectorXd&)>& f, const VectorXd& x) {
    const Eigen::MatrixXd H = second_derivatives(f, x, steps_of(x.size(), step));
    const Eigen::LDLT<Eigen::MatrixXd> solver(H);
    if (!solver.isPositive() || solver.info() != Eigen::Success) return VectorXd::Zero(x.size());
    const Eigen::MatrixXd inverse = solver.solve(Eigen::MatrixXd::Identity(x.size(), x.size()));
    VectorXd errors(x.size());
    for (Eigen::Index i = 0; i < x.size(); ++i)
        errors[i] = std::sqrt(std::max(0.0, inverse(i, i))) * std::exp(x[i]);
    return errors;
}

/// Chance to hole as a function of the spread: the maps are made once.
class Ground {
  public:
    Ground(const std::vector<HoledRow>& rows, const FitGround& ground) {
        const auto plane = std::make_shared<Plane>(Vec2(0, ground.slope));
        for (const HoledRow& row : rows)
            for (const double clock_h : clocks)
                putts_.push_back(place(plane, ground, row, clock_h));
    }

    double chance(std::size_t row, const Scatter& scatter) const {
        double sum = 0;
        for (std::size_t i = 0; i < std::size(clocks); ++i) {
            const auto& [map, stroke, sensitivity] = putts_[row * std::size(clocks) + i];
            const Putt& putt = map.putt();
            const double level = level_roll_m(stroke.speed_m_s, putt.resistance);
            sum += shares[i] * chance_to_hole(map, stroke_spread(stroke.angle_rad, level, scatter,
                                                                 sensitivity));
        }
        return sum;
    }

  private:
    // Half of the clock stands for the other: a putt and its mirror image are holed alike.
    static constexpr double clocks[] = {12, 1.5, 3, 4.5, 6};
    static constexpr double shares[] = {1. / 8, 2. / 8, 2. / 8, 2. / 8, 1. / 8};

    struct Placed {
        StrokeMap map;
        Stroke stroke;
        SlopeSensitivity sensitivity;
    };

    static Placed place(const std::shared_ptr<const Plane>& plane, const FitGround& ground,
                        const HoledRow& row, double clock_h) {
        Putt putt;
        putt.surface = plane;
        putt.resistance = ground.resistance;
        putt.ball = row.distance_m * along_bearing(clock_h * M_PI / 6);
        putt.finish = Finish::past(ground.past_m);
        const auto lines =
            lines_on_plane(plane->gradient(), putt.resistance, putt.line(), putt.finish);
        const Stroke stroke = lines.strokes.front();
        return {*StrokeMap::make(putt), stroke,
                read_slope_sensitivity(putt, stroke).value_or(SlopeSensitivity::Zero())};
    }

    std::vector<Placed> putts_;
};

}  // namespace

double AngleOnlyFit::chance(double distance_m) const {
    return through_narrow_hole(distance_m, line_rad);
}

AngleOnlyFit fit_angle_only(const std::vector<HoledRow>& rows) {
    check(rows);
    const auto f = [&](const VectorXd& x) {
        double sum = 0;
        for (const HoledRow& row : rows)
            sum += surprise(row, through_narrow_hole(row.distance_m, std::exp(x[0])));
        return sum;
    };
    const VectorXd start = VectorXd::Constant(1, std::log(0.02));
    const Minimum least = minimise(f, start, steps_of(1, 0.3), close_enough);
    return {std::exp(least.at[0]), errors_of(f, least.at)[0]};
}

double AngleDistanceFit::chance(double distance_m) const {
    constexpr double past = metres_per_foot, allowed = 3 * metres_per_foot;
    const double deviation = (distance_m + past) * distance;
    return through_narrow_hole(distance_m, line_rad) *
           (normal_below((allowed - past) / deviation) - normal_below(-past / deviation));
}

AngleDistanceFit fit_angle_and_distance(const std::vector<HoledRow>& rows) {
    check(rows);
    const auto fit_of = [](const VectorXd& x) {
        return AngleDistanceFit{std::exp(x[0]), std::exp(x[1]), std::exp(x[2]), 0, 0};
    };
    const auto f = [&](const VectorXd& x) {
        const AngleDistanceFit fit = fit_of(x);
        double sum = 0;
        for (const HoledRow& row : rows) {
            const double p = fit.chance(row.distance_m), off = row.holed / row.tries - p;
            const double variance = p * (1 - p) / row.tries + fit.extra * fit.extra;
            sum += 0.5 * (std::log(variance) + off * off / variance);
        }
        return sum;
    };
    const VectorXd start = Eigen::Vector3d(std::log(0.02), std::log(0.1), std::log(0.01));
    const Minimum least = minimise(f, start, steps_of(3, 0.3), close_enough);
    const VectorXd errors = errors_of(f, least.at);
    AngleDistanceFit fit = fit_of(least.at);
    fit.line_error_rad = errors[0];
    fit.distance_error = errors[1];
    return fit;
}

SpreadFit fit_spread(const std::vector<HoledRow>& rows, const Scatter& known,
                     const FitGround& ground) {
    check(rows);
    const Ground putts(rows, ground);
    const double line = std::max(known.line_rad, 1e-3);
    const double misread_per_line = known.slope_read / line,
                 turn_per_line = known.fall_read_rad / line;
    const auto scatter_of = [&](const VectorXd& x) {
        Scatter scatter = known;
        scatter.line_rad = std::exp(x[0]);
        scatter.slope_read = misread_per_line * scatter.line_rad;
        scatter.fall_read_rad = turn_per_line * scatter.line_rad;
        if (x.size() > 1) scatter.pace = std::exp(x[1]);
        return scatter;
    };
    const auto f = [&](const VectorXd& x) {
        const Scatter scatter = scatter_of(x);
        if (scatter.line_rad > 0.5 || scatter.pace > 1) return HUGE_VAL;
        double sum = 0;
        for (std::size_t i = 0; i < rows.size(); ++i)
            sum += share_told(rows[i]) * surprise(rows[i], putts.chance(i, scatter));
        return sum;
    };
    const auto told = [](const VectorXd& errors, const VectorXd& x) {
        // A logarithm with a larger error than this counts as unknown.
        constexpr double vague = 0.7;
        for (Eigen::Index i = 0; i < x.size(); ++i)
            if (!(errors[i] > 0) || errors[i] > vague * std::exp(x[i])) return false;
        return true;
    };
    SpreadFit fit;
    fit.scatter = known;
    const Eigen::Vector2d start(std::log(line), std::log(std::max(known.pace, 1e-2)));
    // Putts can have two explanations, a wide pace being one: short steps keep to the one that is
    // nearer to what was known.
    constexpr double first_step = 0.1;
    for (const Eigen::Index free : {2, 1}) {
        const Minimum least = minimise(f, start.head(free), steps_of(free, first_step), 1e-7);
        const VectorXd errors = errors_of(f, least.at);
        if (!told(errors, least.at)) continue;
        fit.outcome = free == 2 ? SpreadFit::Outcome::both : SpreadFit::Outcome::line_only;
        fit.scatter = scatter_of(least.at);
        fit.line_error_rad = errors[0];
        if (free == 2) fit.pace_error = errors[1];
        break;
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        fit.expected.push_back(putts.chance(i, fit.scatter));
        fit.deviance += 2 * surprise(rows[i], fit.expected.back());
    }
    return fit;
}

}  // namespace dewtrail
