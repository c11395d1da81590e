#include "viewer/practice/habits/bias.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>

#include "physics/numbers/normal.hpp"

namespace dewtrail {
namespace {

constexpr int betweens = 16, scatters = 24;
constexpr double least_scatter = 0.02, most_scatter = 0.8;
constexpr double z_widest = 6;

/// A normal with its weight in the mixture.
struct Part {
    double weight, mean, sd;
};

double below(const std::vector<Part>& parts, double x) {
    double sum = 0;
    for (const Part& part : parts) sum += part.weight * normal_below((x - part.mean) / part.sd);
    return sum;
}

double quantile(const std::vector<Part>& parts, double share) {
    double lo = HUGE_VAL, hi = -HUGE_VAL;
    for (const Part& part : parts) {
        lo = std::min(lo, part.mean - z_widest * part.sd);
        hi = std::max(hi, part.mean + z_widest * part.sd);
    }
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (lo + hi);
        (below(parts, middle) < share ? lo : hi) = middle;
    }
    return 0.5 * (lo + hi);
}

Credible credible(const std::vector<Part>& parts) {
    double mean = 0;
    for (const Part& part : parts) mean += part.weight * part.mean;
    return {mean, quantile(parts, 0.05), quantile(parts, 0.95)};
}

/// One group's putts, given the scatter of one putt.
struct Summary {
    double mean, variance;
};

class Model {
  public:
    Model(const std::vector<Observation>& observations, const BiasPrior& prior) : prior_(prior) {
        for (const Observation& o : observations) groups_[o.group].push_back(o);
        for (int s = 0; s < scatters; ++s)
            add_scatter(least_scatter *
                        std::pow(most_scatter / least_scatter, (s + 0.5) / scatters));
    }

    std::vector<GroupBias> biases() {
        double highest = -HUGE_VAL, total = 0;
        for (const double log_weight : log_weights_) highest = std::max(highest, log_weight);
        for (double& log_weight : log_weights_) total += std::exp(log_weight - highest);
        std::vector<GroupBias> biases;
        std::size_t g = 0;
        for (const auto& [group, putts] : groups_) {
            std::vector<Part>& parts = parts_[g++];
            for (std::size_t i = 0; i < parts.size(); ++i)
                parts[i].weight = std::exp(log_weights_[i] - highest) / total;
            biases.push_back({group, static_cast<int>(putts.size()), credible(parts)});
        }
        return biases;
    }

  private:
    void add_scatter(double scatter) {
        double log_likelihood = 0;
        std::vector<Summary> summaries;
        for (const auto& [group, putts] : groups_)
            summaries.push_back(summary(putts, scatter, log_likelihood));
        for (int b = 0; b < betweens; ++b) {
            const double between = prior_.between_sd * 3 * (b + 0.5) / betweens;
            add_part(summaries, between, log_likelihood);
        }
    }

    static Summary summary(const std::vector<Observation>& putts, double scatter,
                           double& log_likelihood) {
        double weights = 0, sum = 0, squares = 0;
        for (const Observation& o : putts) {
            const double weight = 1 / (scatter * scatter + o.error * o.error);
            weights += weight;
            sum += weight * o.share;
            squares += weight * o.share * o.share;
            log_likelihood += 0.5 * std::log(weight);
        }
        log_likelihood -= 0.5 * (squares - sum * sum / weights) + 0.5 * std::log(weights);
        return {sum / weights, 1 / weights};
    }

    /// The mean of all groups integrated out; then each group's posterior is a normal.
    void add_part(const std::vector<Summary>& summaries, double between, double log_likelihood) {
        const double known = 1 / (prior_.mean_sd * prior_.mean_sd);
        double precision = known, pull = known * prior_.mean, squares = pull * prior_.mean;
        for (const auto& [mean, variance] : summaries) {
            const double spread = variance + between * between;
            precision += 1 / spread;
            pull += mean / spread;
            squares += mean * mean / spread;
            log_likelihood -= 0.5 * std::log(spread);
        }
        const double middle = pull / precision;
        log_likelihood -= 0.5 * (squares - pull * middle) + 0.5 * std::log(precision);
        const double z = between / prior_.between_sd;
        log_weights_.push_back(log_likelihood - 0.5 * z * z);
        parts_.resize(summaries.size());
        for (std::size_t g = 0; g < summaries.size(); ++g) {
            const auto& [mean, variance] = summaries[g];
            const double lean = variance / (variance + between * between);
            parts_[g].push_back({0, (1 - lean) * mean + lean * middle,
                                 std::sqrt((1 - lean) * variance + lean * lean / precision)});
        }
    }

    BiasPrior prior_;
    std::map<int, std::vector<Observation>> groups_;
    std::vector<double> log_weights_;
    std::vector<std::vector<Part>> parts_;
};

/// Aims are typed to an inch up to a foot and to half a cup beyond, level putts to half a foot.
double aim_error_m(double aim_m) {
    const double step = std::abs(aim_m) < 12 * metres_per_inch ? metres_per_inch : hole_radius_m;
    return step / std::sqrt(12.0);
}
constexpr double pace_error_m = 0.5 * metres_per_foot / 3.4641016151377544;

constexpr std::array<std::string_view, 3> grades{"uphill", "level", "downhill"};

/// The last putts of every group, oldest first.
std::vector<Observation> recent(const std::vector<Observation>& all) {
    std::map<int, int> seen;
    std::vector<Observation> last;
    for (auto o = all.rbegin(); o != all.rend(); ++o)
        if (++seen[o->group] <= recent_putts) last.push_back(*o);
    std::reverse(last.begin(), last.end());
    return last;
}

std::vector<Habit> habits(const std::vector<Observation>& all,
                          const std::function<std::string(int)>& name, const BiasPrior& prior) {
    std::vector<Habit> habits;
    if (all.empty()) return habits;
    for (const GroupBias& bias : group_biases(recent(all), prior)) {
        Habit habit{name(bias.group), bias.putts, std::nullopt};
        if (bias.putts >= least_putts) habit.share = bias.share;
        habits.push_back(habit);
    }
    return habits;
}

}  // namespace

std::vector<GroupBias> group_biases(const std::vector<Observation>& observations,
                                    const BiasPrior& prior) {
    if (observations.empty()) return {};
    return Model(observations, prior).biases();
}

std::vector<Habit> break_habits(const std::vector<Answer>& answers) {
    std::vector<Observation> all;
    for (const Answer& a : answers) {
        if (a.drill != Drill::line && a.drill != Drill::read) continue;
        if (!a.break_share || !a.fit_aim_m || !a.aim_m || a.category.side == BreakSide::straight)
            continue;
        if (*a.break_share < wrong_side_below) continue;
        all.push_back({static_cast<int>(a.category.side) * 3 + static_cast<int>(a.category.grade),
                       *a.break_share, aim_error_m(*a.aim_m) / std::abs(*a.fit_aim_m)});
    }
    const auto name = [](int group) {
        return fmt::format("{} {}", name_of(static_cast<BreakSide>(group / 3)), grades[group % 3]);
    };
    return habits(all, name, {});
}

std::vector<Habit> pace_habits(const std::vector<Answer>& answers) {
    std::vector<Observation> all;
    for (const Answer& a : answers) {
        if (a.drill != Drill::pace && a.drill != Drill::read) continue;
        if (!a.pace_share || !a.level_putt_m) continue;
        const double level_m = std::max(*a.level_putt_m, metres_per_foot);
        all.push_back({static_cast<int>(a.category.grade) * 3 + static_cast<int>(a.category.reach),
                       *a.pace_share, pace_error_m / level_m});
    }
    const auto name = [](int group) {
        return fmt::format("{} {}", name_of(static_cast<Reach>(group % 3)), grades[group / 3]);
    };
    return habits(all, name, {.mean = 1, .mean_sd = 0.3, .between_sd = 0.1});
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
