#include "physics/roll/conditions.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double release_m_s = stimp_release_speed_m_s;
constexpr double ball_mass_kg = 45.93e-3;  // at most 1.620 oz avoirdupois, Equipment Rules
constexpr double air_density_kg_m3 = 1.2;
constexpr double drag_coefficient = 0.45;

void within(double value, double least, double most, const char* name) {
    if (!(value >= least && value <= most))
        throw std::invalid_argument("conditions: " + std::string(name) + " must be from " +
                                    std::to_string(least) + " to " + std::to_string(most) +
                                    ", got " + std::to_string(value));
}

/// (z - ln(1 + z))/z^2, 1/2 at 0.
double rolled_share(double z) {
    if (std::abs(z) < 1e-3) return 0.5 - z / 3 + z * z / 4 - z * z * z / 5;
    return (z - std::log1p(z)) / (z * z);
}

/// Root of an increasing f, to the last bits.
template <class F>
double rising_root(F f, double lo, double hi) {
    std::uintmax_t most = 100;
    const auto found = boost::math::tools::toms748_solve(
        f, lo, hi, boost::math::tools::eps_tolerance<double>(51), most);
    return 0.5 * (found.first + found.second);
}

/// Of the ball that has begun to roll.
double roll_after_skid(double speed, double resistance, double slow_share) {
    const double growth = resistance_growth(slow_share), x = speed / release_m_s;
    const double slow_deceleration = level_deceleration_m_s2(resistance * slow_share);
    return release_m_s * release_m_s / slow_deceleration * x * x * rolled_share(growth * x);
}

struct LevelSkid {
    double rolling_share = 1;  ///< speed when it begins to roll, over speed off the face
    double length_s2_m = 0;    ///< skid length over speed squared
};

LevelSkid level_skid(const Conditions& conditions) {
    if (!conditions.launch_spin) return {};
    const double spin = *conditions.launch_spin;
    const double after = (5 + 2 * spin) / 7;
    const double time = 2.0 / 7 * std::abs(1 - spin) / (conditions.sliding_friction * gravity_m_s2);
    return {after, 0.5 * (1 + after) * time};
}

}  // namespace

void check(const Conditions& c) {
    within(c.wind_m_s.norm(), 0, most_wind_m_s, "wind");
    within(c.grain.norm(), 0, most_grain, "grain");
    within(c.slow_share, least_slow_share, 1, "slow_share");
    within(c.sliding_friction, 0.05, 2, "sliding_friction");
    within(c.launch_spin.value_or(1), least_launch_spin, most_launch_spin, "launch_spin");
}

double air_drag_per_m() {
    return rolling_share * 0.5 * air_density_kg_m3 * drag_coefficient * M_PI * ball_radius_m *
           ball_radius_m / ball_mass_kg;
}

double wind_at_ball_m_s(double wind_m_s, double height_m, double roughness_m) {
    if (!(roughness_m > 0 && roughness_m < ball_radius_m))
        throw std::invalid_argument("roughness_m must be positive and below the ball's radius");
    if (!(height_m >= ball_radius_m))
        throw std::invalid_argument("height_m must be at least the ball's radius");
    return wind_m_s * std::log(ball_radius_m / roughness_m) / std::log(height_m / roughness_m);
}

GrainReading grain_from_stimps(double down_m, double into_m) {
    const TwoWayReading mean = stimp_from_up_and_down(into_m, down_m);
    return {mean.stimp_m, mean.slope_over_resistance};
}

double resistance_growth(double slow_share) {
    within(slow_share, least_slow_share, 1, "slow_share");
    if (slow_share == 1) return 0;
    return rising_root([&](double growth) { return slow_share - 2 * rolled_share(growth); }, 0.0,
                       10.0);
}

double level_roll_m(double speed_m_s, double resistance, const Conditions& conditions) {
    if (!conditions.launch_spin && conditions.slow_share == 1)
        return level_roll_m(speed_m_s, resistance);
    const LevelSkid skid = level_skid(conditions);
    return level_skid_m(speed_m_s, conditions) +
           roll_after_skid(skid.rolling_share * speed_m_s, resistance, conditions.slow_share);
}

double level_skid_m(double speed_m_s, const Conditions& conditions) {
    return level_skid(conditions).length_s2_m * speed_m_s * speed_m_s;
}

double speed_of_level_roll_m_s(double level, double resistance, const Conditions& conditions) {
    const double plain = speed_of_level_roll_m_s(level, resistance);
    if (!conditions.launch_spin && conditions.slow_share == 1) return plain;
    // Every part of the roll grows at least like v^1 and at most like v^2.
    return rising_root(
        [&](double speed) { return level_roll_m(speed, resistance, conditions) - level; },
        0.2 * plain, 5 * plain + release_m_s);
}

double level_roll_per_speed(double speed_m_s, double resistance, const Conditions& conditions) {
    const LevelSkid skid = level_skid(conditions);
    const double rolling = skid.rolling_share * speed_m_s;
    const double growth = resistance_growth(conditions.slow_share);
    const double deceleration = level_deceleration_m_s2(resistance * conditions.slow_share) *
                                (1 + growth * rolling / release_m_s);
    return 2 * skid.length_s2_m * speed_m_s + skid.rolling_share * rolling / deceleration;
}

}  // namespace dewtrail
