#pragma once

#include <Eigen/Core>

/// A second way to the skid on a plane: a rigid sphere with its velocity and its spin as vectors in
/// space, friction against the contact point's motion, by GSL's Prince-Dormand 8(9) over plain
/// time. No slip variables, no path variables. And a third: the closed form, the slip's own
/// hodograph.
namespace dewtrail::oracle {

/// In the slope plane: x across, y up the slope, z out of it.
struct Skid {
    Eigen::Vector3d place = Eigen::Vector3d::Zero();     ///< of the contact point, m
    Eigen::Vector3d velocity = Eigen::Vector3d::Zero();  ///< of the centre, m/s
    double time_s = 0;
};

struct SkidStart {
    double slope = 0;        ///< rise over run, toward y
    double friction = 0.4;   ///< sliding
    double bearing_rad = 0;  ///< from y toward x, in the slope plane
    double speed_m_s = 2;
    double spin = 0;  ///< as a share of rolling, about the axis of rolling
};

/// The moment when the ball begins to roll. Accurate to about 1e-8 m and m/s.
Skid gsl_skid(const SkidStart& start);

/// The same by formulas: exact but for rounding. Spin below 1.
Skid closed_skid(const SkidStart& start);

}  // namespace dewtrail::oracle
