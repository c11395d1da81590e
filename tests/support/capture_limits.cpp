#include "support/capture_limits.hpp"

#include <algorithm>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {
namespace {

constexpr double first_speed_m_s = 0.004;
constexpr double scan_step_m_s = 0.01;
constexpr double last_speed_m_s = 3.0;
constexpr double limit_resolution_m_s = 1e-6;

bool is_holed(RimArrival arrival, double speed_m_s, const HoleModel& model) {
    arrival.speed_m_s = speed_m_s;
    return roll_into_hole(arrival, model).holed;
}

}  // namespace

std::optional<double> simulated_capture_limit_m_s(RimArrival arrival, const HoleModel& model) {
    double slow = first_speed_m_s;
    while (!is_holed(arrival, slow, model))
        if ((slow += scan_step_m_s) > last_speed_m_s) return std::nullopt;
    double fast = slow + scan_step_m_s;
    for (; is_holed(arrival, fast, model); fast += scan_step_m_s) {
        if (fast > last_speed_m_s) return std::nullopt;
        slow = fast;
    }
    while (fast - slow > limit_resolution_m_s) {
        const double middle = 0.5 * (slow + fast);
        (is_holed(arrival, middle, model) ? slow : fast) = middle;
    }
    return 0.5 * (slow + fast);
}

double penner_limit_m_s(double offset_m) {
    const double q = offset_m / hole_radius_m;
    return std::max(0.0, 1.63 * (1 - q * q));
}

}  // namespace dewtrail
