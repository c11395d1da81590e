#include "viewer/practice/habits/bias.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "physics/numbers/normal.hpp"

namespace dewtrail {
namespace {

constexpr int betweens = 16, scatters = 24;
constexpr double least_scatter = 0.02, most_scatter = 0.8;
constexpr double z_widest = 6;
constexpr double least_weight = 1e-9;  // of a cell: all that are lighter hold less than a millionth

/// A normal in the mixture; its weight stands beside the cell of the grid that it belongs to.
struct Normal {
    double mean = 0, sd = 0;
};
using Mixture = std::vector<Normal>;

/// One group's putts, given the scatter of one putt.
struct Summary {
    int putts = 0;
    double mean = 0, variance = HUGE_VAL;
};

class Model {
  public:
    Model(const std::vector<Observation>& observations, int groups, const BiasPrior& prior)
        : prior_(prior), putts_(static_cast<std::size_t>(groups)) {
        for (const Observation& o : observations)
            putts_.at(static_cast<std::size_t>(o.group)).push_back(o);
        shares_.resize(putts_.size());
        beside_.resize(putts_.size());
        for (int s = 0; s < scatters; ++s)
            add_scatter(least_scatter *
                        std::pow(most_scatter / least_scatter, (s + 0.5) / scatters));
        weigh();
    }

    Biases biases() const {
        Biases biases{credible(whole_), {}};
        for (std::size_t g = 0; g < putts_.size(); ++g)
            if (!putts_[g].empty())
                biases.groups.push_back({static_cast<int>(g), static_cast<int>(putts_[g].size()),
                                         credible(shares_[g]), credible(beside_[g])});
        return biases;
    }

  private:
    void add_scatter(double scatter) {
        double log_likelihood = 0;
        std::vector<Summary> summaries;
        for (const auto& putts : putts_)
            summaries.push_back(summary(putts, scatter, log_likelihood));
        for (int b = 0; b < betweens; ++b)
            add_cell(summaries, prior_.between_sd * 3 * (b + 0.5) / betweens, log_likelihood);
    }

    static Summary summary(const std::vector<Observation>& putts, double scatter,
                           double& log_likelihood) {
        if (putts.empty()) return {};
        double weights = 0, sum = 0, squares = 0;
        for (const Observation& o : putts) {
            const double weight = 1 / (scatter * scatter + o.error * o.error);
            weights += weight;
            sum += weight * o.share;
            squares += weight * o.share * o.share;
            log_likelihood += 0.5 * std::log(weight);
        }
        log_likelihood -= 0.5 * (squares - sum * sum / weights) + 0.5 * std::log(weights);
        return {static_cast<int>(putts.size()), sum / weights, 1 / weights};
    }

    /// The mean of all groups integrated out; then every group's posterior is a normal.
    void add_cell(const std::vector<Summary>& summaries, double between, double log_likelihood) {
        const double known = 1 / (prior_.mean_sd * prior_.mean_sd);
        double precision = known, pull = known * prior_.mean, squares = pull * prior_.mean;
        for (const Summary& s : summaries) {
            if (s.putts == 0) continue;
            const double spread = s.variance + between * between;
            precision += 1 / spread;
            pull += s.mean / spread;
            squares += s.mean * s.mean / spread;
            log_likelihood -= 0.5 * std::log(spread);
        }
        log_likelihood -= 0.5 * (squares - pull * pull / precision) + 0.5 * std::log(precision);
        const double z = between / prior_.between_sd;
        weights_.push_back(log_likelihood - 0.5 * z * z);
        add_groups(summaries, between, pull / precision, 1 / precision);
    }

    /// Given the cell, a group is `own` + `lean` times the mean of all groups, +- its own variance.
    void add_groups(const std::vector<Summary>& summaries, double between, double middle,
                    double middle_variance) {
        struct Given {
            double own, lean, variance;
        };
        const double n = static_cast<double>(summaries.size());
        std::vector<Given> given;
        Given whole{0, 0, 0};
        for (const Summary& s : summaries) {
            const double between2 = between * between;
            const double lean = s.putts == 0 ? 1 : s.variance / (s.variance + between2);
            const double variance = s.putts == 0 ? between2 : (1 - lean) * s.variance;
            given.push_back({(1 - lean) * s.mean, lean, variance});
            whole.own += given.back().own / n;
            whole.lean += lean / n;
            whole.variance += variance / (n * n);
        }
        const auto normal = [&](double own, double lean, double variance) {
            return Normal{own + lean * middle, std::sqrt(variance + lean * lean * middle_variance)};
        };
        whole_.push_back(normal(whole.own, whole.lean, whole.variance));
        for (std::size_t g = 0; g < given.size(); ++g) {
            const Given& own = given[g];
            shares_[g].push_back(normal(own.own, own.lean, own.variance));
            beside_[g].push_back(normal(own.own - whole.own, own.lean - whole.lean,
                                        own.variance * (1 - 2 / n) + whole.variance));
        }
    }

    /// From logarithms to weights that add up to one; the lightest are left out.
    void weigh() {
        const double highest = *std::max_element(weights_.begin(), weights_.end());
        double total = 0;
        for (double& weight : weights_) total += weight = std::exp(weight - highest);
        for (double& weight : weights_)
            if ((weight /= total) < least_weight) weight = 0;
    }

    /// How much of a mixture lies below, and its density there.
    std::pair<double, double> below(const Mixture& mixture, double x) const {
        double sum = 0, density = 0;
        for (std::size_t i = 0; i < mixture.size(); ++i) {
            if (weights_[i] == 0) continue;
            const double z = (x - mixture[i].mean) / mixture[i].sd;
            sum += weights_[i] * normal_below(z);
            density += weights_[i] * normal_density(z) / mixture[i].sd;
        }
        return {sum, density};
    }

    double quantile(const Mixture& mixture, double share, double guess) const {
        double lo = HUGE_VAL, hi = -HUGE_VAL;
        for (const Normal& part : mixture) {
            lo = std::min(lo, part.mean - z_widest * part.sd);
            hi = std::max(hi, part.mean + z_widest * part.sd);
        }
        constexpr int bits = 30;  // of a share's size
        std::uintmax_t most_asked = 60;
        return boost::math::tools::newton_raphson_iterate(
            [&](double x) {
                const auto [sum, density] = below(mixture, x);
                return std::pair(sum - share, density);
            },
            guess, lo, hi, bits, most_asked);
    }

    Credible credible(const Mixture& mixture) const {
        double mean = 0;
        for (std::size_t i = 0; i < mixture.size(); ++i) mean += weights_[i] * mixture[i].mean;
        return {mean, quantile(mixture, 0.05, mean), quantile(mixture, 0.95, mean)};
    }

    BiasPrior prior_;
    std::vector<std::vector<Observation>> putts_;  ///< by group
    std::vector<double> weights_;                  ///< by cell of the grid
    Mixture whole_;
    std::vector<Mixture> shares_, beside_;  ///< by group
};

}  // namespace

std::optional<Biases> biases_of(const std::vector<Observation>& observations, int groups,
                                const BiasPrior& prior) {
    if (observations.empty()) return std::nullopt;
    return Model(observations, groups, prior).biases();
}

std::optional<SlopeHabit> slope_habit(const std::vector<Answer>& answers) {
    SlopeHabit habit;
    int falls = 0;
    for (const Answer& a : answers) {
        if (!a.slope_said || !a.slope_shown) continue;
        ++habit.answers;
        habit.felt += *a.slope_said;
        habit.shown += *a.slope_shown;
        if (!a.falls_said_deg || !a.falls_shown_deg) continue;
        ++falls;
        habit.fall_off_deg += std::abs(std::remainder(*a.falls_said_deg - *a.falls_shown_deg, 360));
    }
    if (habit.answers < least_putts) return std::nullopt;
    habit.felt /= habit.answers;
    habit.shown /= habit.answers;
    if (falls > 0) habit.fall_off_deg /= falls;
    return habit;
}

}  // namespace dewtrail
