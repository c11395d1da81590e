#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/answer.hpp"

/// What a player habitually does: the part of the break played, the part of the pace.
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

struct GroupBias {
    int group = 0;
    int putts = 0;
    Credible share;
};

/// The prior: the mean of all groups is normal; the differences between groups are half normal; the
/// scatter of one putt is uniform in its logarithm from 0.02 to 0.8.
struct BiasPrior {
    double mean = 0.9, mean_sd = 0.4;
    double between_sd = 0.15;
};

/// A hierarchical normal model: share ~ N(group, scatter^2 + error^2), group ~ N(mean, between^2),
/// integrated over mean (exactly) and over scatter and between (on a grid). Groups with few putts
/// lean on the others. For players as the prior describes them the intervals hold 90 %.
std::vector<GroupBias> group_biases(const std::vector<Observation>& observations,
                                    const BiasPrior& prior = {});

inline constexpr int least_putts = 6;    ///< with fewer we claim nothing
inline constexpr int recent_putts = 30;  ///< of each group, the last so many count

/// One line of the trend.
struct Habit {
    std::string group;  ///< 'right-to-left downhill'
    int putts = 0;
    std::optional<Credible> share;  ///< none under least_putts
};

/// An aim on the wrong side of the hole, beyond what rounding does, is a slip and no habit.
inline constexpr double wrong_side_below = -0.25;

/// The part of the break, by side and grade; of the answers to `line` and `read` on the right side.
std::vector<Habit> break_habits(const std::vector<Answer>& answers);
/// The part of the pace, by grade and reach; of all answers to `pace` and `read`.
std::vector<Habit> pace_habits(const std::vector<Answer>& answers);

/// Slope as felt over slope as the level shows: 'you feel 1.4 % where it is 2 %'. None under
/// least_putts answers.
struct SlopeHabit {
    int answers = 0;
    double felt = 0, shown = 0;  ///< means, rise over run
    double fall_off_deg = 0;     ///< mean size of the error of the fall's direction
};
std::optional<SlopeHabit> slope_habit(const std::vector<Answer>& answers);

}  // namespace dewtrail
