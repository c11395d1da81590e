#include "viewer/practice/rehearse/rehearse.hpp"

#include <cmath>
#include <stdexcept>

#include "physics/roll/green_speed.hpp"

namespace dewtrail {

std::optional<Pendulum> pendulum_of(const Player& player, double table_stimp_ft) {
    const std::vector<StrokeRow>& rows = player.stroke_table;
    if (rows.empty()) return std::nullopt;
    const double resistance = resistance_of_stimp(table_stimp_ft * metres_per_foot);
    double products = 0, squares = 0;
    for (const StrokeRow& row : rows) {
        const double speed = speed_of_level_roll_m_s(row.level_roll_m, resistance);
        products += row.backswing_m * speed;
        squares += speed * speed;
    }
    Pendulum pendulum{products / squares, 0};
    if (rows.size() < 2) return pendulum;
    double sum = 0;
    for (const StrokeRow& row : rows) {
        const double fitted =
            pendulum.backswing_s * speed_of_level_roll_m_s(row.level_roll_m, resistance);
        sum += std::pow(row.backswing_m / fitted - 1, 2);
    }
    pendulum.relative_sd = std::sqrt(sum / static_cast<double>(rows.size() - 1));
    return pendulum;
}

Rehearsal rehearse(double roll_m, double green_stimp_ft, double mat_stimp_ft,
                   std::optional<double> mat_m, const Player& player, double table_stimp_ft) {
    if (!(roll_m > 0) || (mat_m && !(*mat_m > 0)))
        throw std::invalid_argument("rehearse: lengths must be positive");
    const double green = resistance_of_stimp(green_stimp_ft * metres_per_foot);
    const double mat = resistance_of_stimp(mat_stimp_ft * metres_per_foot);
    Rehearsal result;
    result.speed_m_s = speed_of_level_roll_m_s(roll_m, green);
    result.level_roll_m = level_roll_m(result.speed_m_s, mat);
    result.level_putt_m = result.level_roll_m - player.usual_past_m;
    if (mat_m && *mat_m < result.level_roll_m) {
        const double slowing = level_deceleration_m_s2(mat);
        const double end = std::sqrt(result.speed_m_s * result.speed_m_s - 2 * slowing * *mat_m);
        result.end_speed_m_s = end;
        result.end_time_s = (result.speed_m_s - end) / slowing;
    }
    if (const auto pendulum = pendulum_of(player, table_stimp_ft)) {
        result.backswing_m = pendulum->backswing_s * result.speed_m_s;
        result.backswing_sd_m = pendulum->relative_sd * *result.backswing_m;
    }
    return result;
}

}  // namespace dewtrail
