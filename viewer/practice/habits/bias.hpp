#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/answer.hpp"

/// What a player habitually does: a share, of all putts together and of each kind.
namespace dewtrail {

/// One putt's share, of which group, and its own error (typed aims are rounded).
struct Observation {
    int group = 0;
    double share = 1;
    double error = 0;  ///< one standard deviation
};

/// A posterior: mean and the interval that holds 90 % of it.
struct Credible {
    double mean = 1, lo = 1, hi = 1;
};
/// Of a normal, to either side: standard deviations that hold 90 % of it.
inline constexpr double ninety_sds = 1.6448536;

/// One group's share, and how far it lies off the whole.
struct GroupBias {
    int group = 0;
    int putts = 0;
    Credible share;
    Credible beside;  ///< share minus the whole
};

/// The mean over all groups, those included of which no putt is known yet, and each that is known.
struct Biases {
    Credible whole;
    std::vector<GroupBias> groups;
};

/// The prior: the mean of all groups is normal; the differences between groups are half normal; the
/// scatter of one putt is uniform in its logarithm from 0.02 to 0.8.
struct BiasPrior {
    double mean = 0.9, mean_sd = 0.4;
    double between_sd = 0.15;
};

/// A hierarchical normal model (Gelman and Hill, Data Analysis Using Regression and
/// Multilevel/Hierarchical Models, 2007, ch. 12): share ~ N(group, scatter^2 + error^2),
/// group ~ N(mean, between^2), integrated over mean (exactly) and over scatter and between (on a
/// grid). Groups with few putts lean on the others. `groups`: how many kinds there are, numbered
/// from 0; the whole is the mean of them all, each counted once however often it was dealt. For
/// players as the prior describes them the intervals hold 90 %. None without a putt.
std::optional<Biases> biases_of(const std::vector<Observation>& observations, int groups,
                                const BiasPrior& prior = {});

/// Slope as felt over slope as the level shows: 'you feel 1.4 % where it is 2 %'. None under
/// least_putts answers.
struct SlopeHabit {
    int answers = 0;
    double felt = 0, shown = 0;  ///< means, rise over run
    double fall_off_deg = 0;     ///< mean size of the error of the fall's direction
};
std::optional<SlopeHabit> slope_habit(const std::vector<Answer>& answers);

inline constexpr int least_putts = 6;    ///< with fewer we claim nothing
inline constexpr int recent_putts = 30;  ///< of each group, the last so many count

}  // namespace dewtrail
