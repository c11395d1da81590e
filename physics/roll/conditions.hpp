#pragma once

#include <optional>

#include "physics/surface/surface.hpp"

namespace dewtrail {

/// What may act on a ball besides gravity and the constant resistance of the stimp. Everything is
/// off by default, and off means exactly the plain roll, bit for bit (MODEL.md section 8).
struct Conditions {
    /// The air at the ball's height, the way it blows, green frame, m/s. The stimp was read in
    /// still air, so only what wind adds to the drag of still air acts.
    Vec2 wind_m_s = Vec2::Zero();

    /// The way the grass lies, green frame; its length is the strength, 0 to less than 1:
    /// resistance straight down the grain is (1 - strength) of the mean and into it (1 + strength).
    /// An approximation: no coefficient is published.
    Vec2 grain = Vec2::Zero();

    /// Resistance of a ball near rest, as a share of what the stimp says on average: 1 is constant
    /// resistance, less lets it grow with speed so that the stimp reading stays the same.
    double slow_share = 1;

    /// Spin off the putter's face as a share of the spin of rolling: 1 rolls at once, 0 has none,
    /// negative is backspin. Set: the launch speed is that of the ball off the face, and the ball
    /// skids until it rolls.
    std::optional<double> launch_spin;
    double sliding_friction = 0.4;  ///< ball on green; from memory (Penner, Daish)

    bool operator==(const Conditions&) const = default;
    bool plain() const {
        return wind_m_s == Vec2::Zero() && grain == Vec2::Zero() && slow_share == 1 && !launch_spin;
    }
};

inline constexpr double least_slow_share = 0.5;
inline constexpr double least_launch_spin = -1, most_launch_spin = 2;
inline constexpr double most_grain = 0.5;
inline constexpr double most_wind_m_s = 15;  ///< at the ball

/// Throws std::invalid_argument unless every entry is finite and within the limits above.
void check(const Conditions& conditions);

/// Acceleration of a rolling ball by air that moves at 1 m/s relative to it, 1/m: drag per mass
/// (5/7)(1/2) rho_air C_d pi r^2/m with C_d = 0.45 and rho_air = 1.2 kg/m^3. A rough sphere near
/// the ground at Reynolds numbers of 5,000 to 20,000 has C_d 0.4 to 0.5; take 30 % either way.
double air_drag_per_m();

/// Wind at the height of the ball's centre from wind at a stated height above short grass, by the
/// logarithmic profile u ~ ln(z/z0). `roughness_m` z0: 1 mm by default, between 0.2 mm (smooth flat
/// ground) and 5 mm (smooth ground, Davenport and Wieringa's classes as given by Stull); the ball
/// then feels 0.40, between 0.51 and 0.24, of the wind at 2 m.
double wind_at_ball_m_s(double wind_m_s, double height_m, double roughness_m = 1e-3);

/// Grain from two stimp readings on the level, down and into it: resistance is their mean, i.e. the
/// stimp is the harmonic mean, and strength (down - into)/(down + into).
struct GrainReading {
    double stimp_m = 0, strength = 0;
};
GrainReading grain_from_stimps(double down_m, double into_m);

/// How much larger than near rest resistance is at the stimpmeter's release speed v_s, less 1: with
/// resistance slow_share (1 + growth v/v_s) a ball let go at v_s rolls the stimp.
double resistance_growth(double slow_share);

/// How far a ball hit at this speed rolls on the level of the same stimp, in still air and without
/// grain: skid and dependence on speed included. Equal to the plain level roll when those are off.
double level_roll_m(double speed_m_s, double resistance, const Conditions& conditions);
/// The part of it over which the ball skids.
double level_skid_m(double speed_m_s, const Conditions& conditions);
/// The inverse, to 1e-12 of itself.
double speed_of_level_roll_m_s(double level_roll_m, double resistance,
                               const Conditions& conditions);
/// d(level roll)/d(speed), m per m/s.
double level_roll_per_speed(double speed_m_s, double resistance, const Conditions& conditions);

}  // namespace dewtrail
