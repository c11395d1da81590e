#include "physics/roll/green_speed.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {
namespace {

double positive(double value, const char* name) {
    if (!(value > 0) || !std::isfinite(value))
        throw std::invalid_argument(std::string(name) + " must be positive, got " +
                                    std::to_string(value));
    return value;
}

constexpr double v_s = stimp_release_speed_m_s;

}  // namespace

double resistance_of_stimp(double stimp_m) {
    return 0.7 * v_s * v_s / (gravity_m_s2 * positive(stimp_m, "stimp_m"));
}

double stimp_of_resistance(double resistance) {
    return 0.7 * v_s * v_s / (gravity_m_s2 * positive(resistance, "resistance"));
}

double level_deceleration_m_s2(double resistance) {
    return rolling_share * gravity_m_s2 * positive(resistance, "resistance");
}

double level_roll_m(double speed_m_s, double resistance) {
    return speed_m_s * speed_m_s / (2 * level_deceleration_m_s2(resistance));
}

double speed_of_level_roll_m_s(double level_roll_m, double resistance) {
    return std::sqrt(2 * level_deceleration_m_s2(resistance) *
                     positive(level_roll_m, "level_roll_m"));
}

TwoWayReading stimp_from_up_and_down(double up_m, double down_m) {
    const double sum = positive(up_m, "up_m") + positive(down_m, "down_m");
    return {2 * up_m * down_m / sum, (down_m - up_m) / sum};
}

double stimp_from_timed_roll_m(double distance_m, double time_s) {
    const double deceleration =
        2 * positive(distance_m, "distance_m") / (positive(time_s, "time_s") * time_s);
    return v_s * v_s / (2 * deceleration);
}

}  // namespace dewtrail
