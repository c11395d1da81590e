#pragma once

#include <Eigen/Core>
#include <optional>

#include "physics/read/read.hpp"

namespace dewtrail {

/// A player's spread, one standard deviation each. All at least 0.
struct Scatter {
    double line_rad = 0;       ///< of the start angle
    double pace = 0;           ///< of the level roll, as a fraction of it
    double pace_floor_m = 0;   ///< of the level roll beside that, metres
    double slope_read = 0;     ///< of the slope as the player sees it, along any direction
    double fall_read_rad = 0;  ///< of the direction in which the player sees it fall, beside that
};

/// A stroke never rolls less than this share of the level roll that was meant.
inline constexpr double least_pace = 0.05;

/// How a player's strokes scatter about the one intended: a normal distribution of start angle
/// (rad) and level roll (m); what falls below least_pace x `level_roll_m` is taken as that.
struct StrokeSpread {
    double angle_rad = 0, level_roll_m = 0;                    ///< as meant
    Eigen::Matrix2d covariance = Eigen::Matrix2d::Identity();  ///< of (angle, level roll)
};

/// d(start angle, level roll) / d(gradient of the whole green along x, along y, direction of its
/// fall in rad).
using SlopeSensitivity = Eigen::Matrix<double, 2, 3>;

/// How the read moves with the slope that the player sees. A misread is a vector: along the fall
/// line and across it, or along any other two directions at right angles, independent and alike;
/// and beside that the fall is seen to turn, which adds to what is across in proportion to the
/// slope. The slope that turns is the mean one between ball and hole. None where the read has no
/// derivative.
std::optional<SlopeSensitivity> read_slope_sensitivity(const Putt& putt, const Stroke& stroke);

/// The spread of a stroke: line and pace scatter, and the slope misread to first order through
/// `sensitivity` (ODDS.md section 1): covariance = diag(line^2, (pace L)^2 + floor^2) + J S J^T, S
/// = diag(slope_read^2, slope_read^2, fall_read^2).
/// Standard deviations are kept above 1e-6 (rad, and of L), so that a spread of 0 needs no case of
/// its own. Throws std::invalid_argument for a negative or infinite entry.
StrokeSpread stroke_spread(double angle_rad, double level_roll_m, const Scatter& scatter,
                           const SlopeSensitivity& sensitivity);

}  // namespace dewtrail
