#include "tests/support/gsl_skid.hpp"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include <Eigen/Geometry>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "tests/support/gsl_driver.hpp"
#include "tests/support/plane_putt.hpp"

namespace dewtrail::oracle {
namespace {

using Eigen::Vector3d;
using SkidState = Eigen::Matrix<double, 9, 1>;  // place, velocity, spin

const Vector3d out(0, 0, 1);

struct Gravity {
    double along, into;  ///< the slope, toward -y, and into it, m/s^2
};

Gravity gravity_on(double slope) {
    const double cosine = 1 / std::hypot(1, slope);
    return {gravity_m_s2 * slope * cosine, gravity_m_s2 * cosine};
}

Vector3d slip(const SkidState& s) {
    return s.segment<3>(3) + s.tail<3>().cross(-ball_radius_m * out);
}

int skidding_motion(double, const double* raw, double* raw_rate, void* data) {
    const SkidStart& start = *static_cast<const SkidStart*>(data);
    const Eigen::Map<const SkidState> s(raw);
    Eigen::Map<SkidState> rate(raw_rate);
    const Gravity g = gravity_on(start.slope);
    const Vector3d force = -start.friction * g.into * slip(s).normalized();  // per mass
    rate.head<3>() = s.segment<3>(3);
    rate.segment<3>(3) = force - Vector3d(0, g.along, 0);
    rate.tail<3>() = (-ball_radius_m * out).cross(force) / (0.4 * ball_radius_m * ball_radius_m);
    return GSL_SUCCESS;
}

Vector3d heading(const SkidStart& start) {
    return {std::sin(start.bearing_rad), std::cos(start.bearing_rad), 0};
}

}  // namespace

Skid gsl_skid(const SkidStart& start) {
    SkidStart data = start;
    gsl_odeiv2_system system{skidding_motion, nullptr, 9, &data};
    const GslDriver driver(
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1e-4, 1e-13, 1e-13));
    SkidState s = SkidState::Zero();
    s.segment<3>(3) = start.speed_m_s * heading(start);
    s.tail<3>() = start.spin * start.speed_m_s / ball_radius_m * out.cross(heading(start));
    // Slip falls at about (7/2) mu g; steps shorten with it, since its direction turns like 1/slip.
    const double fall = 3.5 * start.friction * gravity_m_s2;
    double time = 0;
    while (slip(s).norm() > 1e-9) {
        const double until = time + 0.1 * slip(s).norm() / fall;
        if (gsl_odeiv2_driver_apply(driver.get(), &time, until, s.data()) != GSL_SUCCESS)
            throw std::runtime_error("GSL gave up");
    }
    return {s.head<3>(), s.segment<3>(3), time};
}

/// The slip obeys u' = g_t - (7/2) mu g_n u/|u|: the same equation as a rolling ball's velocity, so
/// the rest of that 'ball' tells when the skid ends and what the slip came to. With
/// v' = (5/7) g_t + (2/7) u' the rest follows.
Skid closed_skid(const SkidStart& start) {
    const Gravity g = gravity_on(start.slope);
    const double u0 = start.speed_m_s * (1 - start.spin), grip = 3.5 * start.friction * g.into;
    const Vector3d e = heading(start), down(0, -1, 0), across(1, 0, 0);
    double time = u0 / grip;
    Vector3d slid = e * u0 * u0 / (2 * grip);  // integral of the slip
    if (start.slope > 0) {
        const double psi = std::acos(e.dot(down)), side = e.x() < 0 ? -1 : 1;
        const auto rest = PlaneRoll{g.along, grip / g.along, u0, std::tan(psi / 2)}.rest();
        time = static_cast<double>(rest.time);
        slid = static_cast<double>(rest.downhill) * down +
               side * static_cast<double>(rest.across) * across;
    }
    const Vector3d pull = g.along * down, v0 = start.speed_m_s * e;
    return {(v0 - 2.0 / 7 * u0 * e) * time + 5.0 / 14 * time * time * pull + 2.0 / 7 * slid,
            v0 - 2.0 / 7 * u0 * e + 5.0 / 7 * time * pull, time};
}

}  // namespace dewtrail::oracle
