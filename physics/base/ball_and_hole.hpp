#pragma once

/// The constants of the game, SI units. One place, no roundings elsewhere.
namespace dewtrail {

/// Standard gravity, m/s^2 (exact by definition, 3rd CGPM 1901).
inline constexpr double gravity_m_s2 = 9.80665;

inline constexpr double metres_per_inch = 0.0254;
inline constexpr double metres_per_foot = 0.3048;

/// Ball: least diameter 1.680 in (Equipment Rules, Part 4).
inline constexpr double ball_radius_m = 0.840 * metres_per_inch;

/// Hole: diameter 4.25 in (Rules of Golf, Definitions).
inline constexpr double hole_radius_m = 2.125 * metres_per_inch;

/// Speed at which a stimpmeter lets go of the ball: 6 ft/s, taken as exact. It defines the stimp.
inline constexpr double stimp_release_speed_m_s = 6.0 * metres_per_foot;

/// A sphere that rolls without slipping takes 5/7 of a force along the surface
/// as acceleration; the rest turns it (I = 2/5 m r^2).
inline constexpr double rolling_share = 5.0 / 7.0;

}  // namespace dewtrail
