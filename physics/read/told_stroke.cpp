#include "physics/read/told_stroke.hpp"

#include <algorithm>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {

double start_angle_rad(const Putt& putt, double aim_offset_m) {
    return std::atan2(aim_offset_m, putt.distance_m());
}

double launch_speed_m_s(const Putt& putt, double level_roll_m) {
    return speed_of_level_roll_m_s(level_roll_m, putt.resistance, putt.conditions);
}

Stroke told_stroke(const Putt& putt, double aim_offset_m, double level_roll_m) {
    return {start_angle_rad(putt, aim_offset_m), launch_speed_m_s(putt, level_roll_m)};
}

double level_roll_of_putt_m(double level_putt_m, double usual_past_m) {
    return std::max(level_putt_m + usual_past_m, metres_per_inch);
}

}  // namespace dewtrail
