#include "viewer/practice/measure/timed_floor.hpp"

#include <algorithm>
#include <cmath>

#include "greens/units.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/practice/rehearse/rehearse.hpp"

namespace dewtrail {
namespace {

constexpr double usual_stroke_sd = 0.03;  ///< of the ball's speed; no hand repeats a stroke better

double slowing_of(double stimp_ft) {
    return level_deceleration_m_s2(resistance_of_stimp(stimp_ft * metres_per_foot));
}

/// Logarithms of the stimps that the balls say one by one.
std::vector<double> log_stimps(const std::vector<BallStop>& balls, double backswing_s,
                               double table_stimp_ft) {
    const double resistance = resistance_of_stimp(table_stimp_ft * metres_per_foot);
    std::vector<double> logs;
    for (const auto& [stopped_m, backswing_m] : balls)
        if (backswing_m && *backswing_m > 0 && stopped_m > 0)
            logs.push_back(std::log(table_stimp_ft * stopped_m /
                                    level_roll_m(*backswing_m / backswing_s, resistance)));
    return logs;
}

double mean_of(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

double sd_of(const std::vector<double>& values, double mean) {
    if (values.size() < 2) return 0;
    double sum = 0;
    for (const double value : values) sum += (value - mean) * (value - mean);
    return std::sqrt(sum / static_cast<double>(values.size() - 1));
}

}  // namespace

std::optional<double> roll_by_time_m(const Stretch& stretch, double time_s, double stimp_ft) {
    const double a = slowing_of(stimp_ft);
    const double u = (stretch.to_m - stretch.from_m) / time_s + 0.5 * a * time_s;
    if (u < a * time_s) return std::nullopt;
    return stretch.from_m + 0.5 * u * u / a;
}

std::optional<double> time_of_roll_s(const Stretch& stretch, double roll_m, double stimp_ft) {
    if (roll_m < stretch.to_m) return std::nullopt;
    const double a = slowing_of(stimp_ft);
    const auto speed_at = [&](double along_m) { return std::sqrt(2 * a * (roll_m - along_m)); };
    return (speed_at(stretch.from_m) - speed_at(stretch.to_m)) / a;
}

std::optional<Credible> floor_stimp_ft(const std::vector<BallStop>& balls, const Player& player,
                                       int least) {
    const double table_stimp_ft = player.stimp_ft.value_or(usual_stimp_ft);
    const auto pendulum = pendulum_of(player, table_stimp_ft);
    if (!pendulum) return std::nullopt;
    const auto logs = log_stimps(balls, pendulum->backswing_s, table_stimp_ft);
    if (static_cast<int>(logs.size()) < std::max(least, 1)) return std::nullopt;
    // A roll goes by the square of the speed.
    const double of_table = 2 * std::max(pendulum->relative_sd, usual_stroke_sd);
    const double mean = mean_of(logs), of_balls = std::max(sd_of(logs, mean), of_table);
    const double off =
        ninety_sds *
        std::hypot(of_balls / std::sqrt(static_cast<double>(logs.size())),
                   of_table / std::sqrt(static_cast<double>(player.stroke_table.size())));
    return Credible{std::exp(mean), std::exp(mean - off), std::exp(mean + off)};
}

}  // namespace dewtrail
