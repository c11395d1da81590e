#include "physics/read/aim_offset.hpp"

#include <cmath>

namespace dewtrail {

std::optional<double> aim_offset_m(const Putt& putt, double start_angle_rad) {
    constexpr double most_distances = 10;
    if (std::abs(start_angle_rad) >= M_PI / 2) return std::nullopt;
    const double offset = putt.distance_m() * std::tan(start_angle_rad);
    if (std::abs(offset) > most_distances * putt.distance_m()) return std::nullopt;
    return offset + 0.0;
}

}  // namespace dewtrail
