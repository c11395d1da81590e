#pragma once

#include <numbers>
#include <string_view>

/// The quantities that go round. Errors as in quantity.hpp.
namespace dewtrail {

inline constexpr double hours_per_rad = 6 / std::numbers::pi;
inline constexpr double degrees_per_rad = 180 / std::numbers::pi;

/// Clock in hours, (0, 12]: 3, 3:30, 10.5, 3½, 12; 0 means 12, and 12:30 is 0.5.
double parse_clock_h(std::string_view text, std::string_view what = "clock");

/// Angle right of the ball-hole line, radians, (-pi, pi]: 5.9, -5.9, 5.9deg left, 0.1rad. Right is
/// positive; either a sign or a side, not both. Bare: degrees.
double parse_angle_rad(std::string_view text, std::string_view what = "angle");

}  // namespace dewtrail
