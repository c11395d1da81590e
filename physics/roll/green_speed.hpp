#pragma once

namespace dewtrail {

/// Green speed. The stimp S is how far a ball let go at 6 ft/s (exactly 1.8288 m/s) rolls on the
/// level. Lengths in metres here; feet only at the edges. All arguments must be positive and
/// finite, else std::invalid_argument.
///
/// Resistance is constant: rho is the rolling-resistance coefficient in the convention of Penner
/// 2002 (Can. J. Phys. 80, 83-96): level deceleration a = (5/7) rho g, so the 5/7 is applied once.

/// rho = 7 v_s^2 / (10 g S), dimensionless.
double resistance_of_stimp(double stimp_m);

/// The inverse: S = 7 v_s^2 / (10 g rho), metres.
double stimp_of_resistance(double resistance);

/// a = (5/7) rho g, m/s^2.
double level_deceleration_m_s2(double resistance);

/// How far a launch speed rolls on the level, v^2 / (2 a), metres; 0 for speed 0.
double level_roll_m(double speed_m_s, double resistance);

/// The launch speed that rolls this far on the level, m/s.
double speed_of_level_roll_m_s(double level_roll_m, double resistance);

/// What stimpmeter readings up and down one slope say. Exact for constant resistance on a plane.
struct TwoWayReading {
    double stimp_m;  ///< 2 Su Sd / (Su + Sd) (Brede, USGA Green Section Record 28(6), 1990)
    double slope_over_resistance;  ///< (Sd - Su) / (Sd + Su)
};
TwoWayReading stimp_from_up_and_down(double up_m, double down_m);

/// Stimp from a roll to rest over `distance_m` on the level in `time_s`: a = 2 d / t^2.
double stimp_from_timed_roll_m(double distance_m, double time_s);

}  // namespace dewtrail
