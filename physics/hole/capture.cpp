#include "physics/hole/capture.hpp"

#include <algorithm>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {

double penner_limit_m_s(double offset_m) {
    const double q = offset_m / hole_radius_m;
    return std::max(0.0, 1.63 * (1 - q * q));
}

}  // namespace dewtrail
