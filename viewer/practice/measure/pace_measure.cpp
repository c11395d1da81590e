#include "viewer/practice/measure/pace_measure.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numbers/normal.hpp"
#include "viewer/practice/drill/random_stream.hpp"
#include "viewer/practice/measure/posterior.hpp"

namespace dewtrail {
namespace {

constexpr double mishits = 0.03, mishit_scatter = 4;
constexpr double least_density = 1e-150;  // of a ball: beyond all sense, it tells nothing
constexpr double bias_prior_sd = 0.2, tilt_prior_sd = 0.15;
constexpr double least_spread = 0.02, most_spread = 0.5;
constexpr double floors_m[] = {0.03, 0.06, 0.1, 0.15};
constexpr int pace_spreads = 28, places = 21;  // of the grid
constexpr double reach = 4.5;                  // standard deviations that the grid covers

constexpr RecordField<PaceBall> ball_fields[] = {
    field<PaceBall, &PaceBall::at>("at"),
    field<PaceBall, &PaceBall::called_m>("called_m"),
    field<PaceBall, &PaceBall::stopped_m>("stopped_m"),
};

double spread_at(int i) {
    return least_spread * std::pow(most_spread / least_spread, (i + 0.5) / pace_spreads);
}

class PaceModel {
  public:
    explicit PaceModel(const std::vector<PaceBall>& balls) {
        for (const PaceBall& ball : balls) middle_ += std::log(ball.called_m);
        middle_ /= static_cast<double>(balls.size());
        for (const PaceBall& ball : balls)
            balls_.push_back({ball.called_m, std::log(ball.called_m) - middle_,
                              ball.stopped_m / ball.called_m - 1});
        look_around();
        weigh();
    }

    Credible bias_at(double length_m) const {
        Weighted values;
        for (const Cell& cell : cells_)
            values.emplace_back(cell.bias + cell.tilt * (std::log(length_m) - middle_),
                                cell.weight);
        return credible_of(std::move(values));
    }
    Credible spread() const {
        Weighted values;
        for (int i = 0; i < pace_spreads; ++i)
            values.emplace_back(spread_at(i), spread_weights_[i]);
        return credible_of(std::move(values));
    }
    Credible floor() const {
        Weighted values;
        for (std::size_t i = 0; i < std::size(floors_m); ++i)
            values.emplace_back(floors_m[i], floor_weights_[i]);
        return credible_of(std::move(values));
    }
    double middle_m() const { return std::exp(middle_); }

  private:
    struct Ball {
        double length_m, tilt_by, off;  ///< off: part of the length
    };
    struct Cell {
        double bias, tilt, weight;
    };

    /// Where bias and tilt lie, and how wide a grid they need: least squares of the balls nearest
    /// to their median, their errors widened.
    void look_around() {
        std::vector<double> offs;
        for (const Ball& ball : balls_) offs.push_back(ball.off);
        const double median = middle_of(offs);
        for (double& off : offs) off = std::abs(off - median);
        scale_ = std::max(1.5 * middle_of(offs), 0.03);
        double tilts = 0, sum = 0, tilted = 0, count = 0;
        for (const Ball& ball : balls_) {
            if (std::abs(ball.off - median) > 4 * scale_) continue;
            ++count, sum += ball.off;
            tilts += ball.tilt_by * ball.tilt_by, tilted += ball.tilt_by * ball.off;
        }
        const double known = scale_ * scale_ / (tilt_prior_sd * tilt_prior_sd);
        bias_ = sum / count, tilt_ = tilted / (tilts + known);
        bias_sd_ = 1.4 * scale_ / std::sqrt(count);
        tilt_sd_ = 1.4 * scale_ / std::sqrt(tilts + known);
    }

    static double middle_of(std::vector<double> values) {
        const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
        std::nth_element(values.begin(), middle, values.end());
        return *middle;
    }

    static double place(int i, double middle, double sd) {
        return middle + reach * sd * (2.0 * i / (places - 1) - 1);
    }

    /// One over each ball's standard deviation.
    std::vector<double> per_deviation(double spread, double floor_m) const {
        std::vector<double> all;
        for (const Ball& ball : balls_)
            all.push_back(1 / std::max(spread, floor_m / ball.length_m));
        return all;
    }

    double log_likelihood(double bias, double tilt, const std::vector<double>& per_sd) const {
        double sum = -0.5 * (bias * bias / (bias_prior_sd * bias_prior_sd) +
                             tilt * tilt / (tilt_prior_sd * tilt_prior_sd));
        // A logarithm of products is cheaper than a sum of logarithms.
        double product = 1;
        for (std::size_t i = 0; i < balls_.size(); ++i) {
            const Ball& ball = balls_[i];
            const double z = (ball.off - bias - tilt * ball.tilt_by) * per_sd[i];
            product *= density(z) * per_sd[i] + least_density;
            if (least_density < product && product < 1 / least_density) continue;
            sum += std::log(product);
            product = 1;
        }
        return sum + std::log(product);
    }

    /// Of a stroke or a mishit, both normal: exp(-z^2/2) is the 16th power of exp(-(z/4)^2/2).
    static double density(double z) {
        static_assert(mishit_scatter == 4);
        const double mishit = normal_density(z / mishit_scatter);
        double stroke = mishit / normal_density_at_0;
        for (int i = 0; i < 4; ++i) stroke *= stroke;
        return (1 - mishits) * normal_density_at_0 * stroke + mishits / mishit_scatter * mishit;
    }

    void weigh() {
        std::vector<double> logs;
        for (int b = 0; b < places; ++b)
            for (int t = 0; t < places; ++t)
                cells_.push_back({place(b, bias_, bias_sd_), place(t, tilt_, tilt_sd_), 0});
        for (const double floor_m : floors_m)
            for (int s = 0; s < pace_spreads; ++s) {
                const auto per_sd = per_deviation(spread_at(s), floor_m);
                for (const Cell& cell : cells_)
                    logs.push_back(log_likelihood(cell.bias, cell.tilt, per_sd));
            }
        const double most = *std::max_element(logs.begin(), logs.end());
        spread_weights_.resize(pace_spreads);
        floor_weights_.resize(std::size(floors_m));
        auto log = logs.begin();
        for (double& of_floor : floor_weights_)
            for (double& of_spread : spread_weights_)
                for (Cell& cell : cells_) {
                    const double weight = std::exp(*log++ - most);
                    cell.weight += weight;
                    of_spread += weight;
                    of_floor += weight;
                }
    }

    std::vector<Ball> balls_;
    double middle_ = 0;  ///< mean logarithm of the lengths
    double scale_ = 0, bias_ = 0, tilt_ = 0, bias_sd_ = 0, tilt_sd_ = 0;
    std::vector<Cell> cells_;
    std::vector<double> spread_weights_, floor_weights_;
};

}  // namespace

std::span<const RecordField<PaceBall>> pace_ball_fields() {
    return ball_fields;
}

std::string out_of_range(const PaceBall& ball) {
    const Range length{0.3, 40};
    if (!length.holds(ball.called_m)) return "a called length beyond 0.3 to 40 m";
    if (!(ball.stopped_m >= 0 && ball.stopped_m <= 2 * length.most)) return "a stop beyond 80 m";
    return "";
}

std::optional<PaceFound> pace_found(const std::vector<PaceBall>& balls) {
    if (static_cast<int>(balls.size()) < least_pace_balls) return std::nullopt;
    const auto [least, most] = std::minmax_element(
        balls.begin(), balls.end(),
        [](const PaceBall& a, const PaceBall& b) { return a.called_m < b.called_m; });
    const PaceModel model(balls);
    PaceFound found;
    found.balls = static_cast<int>(balls.size());
    found.short_m = least->called_m, found.long_m = most->called_m;
    found.bias = model.bias_at(model.middle_m());
    found.short_bias = model.bias_at(found.short_m);
    found.long_bias = model.bias_at(found.long_m);
    found.spread = model.spread();
    found.floor_m = model.floor();
    return found;
}

std::vector<double> called_lengths_m(double least_m, double most_m, int balls, std::uint64_t seed) {
    constexpr int lengths = 5;
    RandomStream random(seed);
    std::vector<double> called;
    while (static_cast<int>(called.size()) < balls) {
        std::vector<double> round;
        for (int i = 0; i < lengths; ++i)
            round.push_back(least_m + (most_m - least_m) * i / (lengths - 1));
        for (int i = lengths; i > 1; --i)
            std::swap(round[static_cast<std::size_t>(i - 1)],
                      round[static_cast<std::size_t>(random.below(i))]);
        called.insert(called.end(), round.begin(), round.end());
    }
    called.resize(static_cast<std::size_t>(balls));
    return called;
}

}  // namespace dewtrail
