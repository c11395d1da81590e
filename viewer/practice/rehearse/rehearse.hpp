#pragma once

#include <optional>
#include <vector>

#include "viewer/practice/player.hpp"

namespace dewtrail {

/// The same stroke at home: what a putt's pace is on a mat or floor of another green speed.
struct Rehearsal {
    double level_roll_m = 0;  ///< on the mat, all of it
    double level_putt_m = 0;  ///< minus the usual past: the putt that it is there
    double speed_m_s = 0;     ///< the same on both
    /// Where the mat is shorter than the roll: how fast the ball leaves its end, and after how
    /// long.
    std::optional<double> end_speed_m_s, end_time_s;
    /// Length of the backswing by the stroke table, and its standard error; none without a table.
    std::optional<double> backswing_m, backswing_sd_m;
};

/// The player's stroke as a pendulum of a fixed tempo, by the stroke table.
struct Pendulum {
    double backswing_s = 0;  ///< length of the backswing over the ball's speed
    double relative_sd = 0;  ///< how far the rows are from it
};
/// For a green of `table_stimp_ft`; none without a table.
std::optional<Pendulum> pendulum_of(const Player& player, double table_stimp_ft);

/// `mat_m`: how much mat there is; none: enough. A level roll is proportional to the stimp, so the
/// mat's is level_roll x mat stimp / green stimp; the mat is taken as level.
///
/// The backswing is that of a pendulum with a fixed tempo: proportional to the ball's speed,
/// through the origin (Grober 2009, arXiv:0903.1762: duration nearly independent of length,
/// backswing proportional to impact speed), fitted to the table by least squares. The table is for
/// a green of `table_stimp_ft`. Throws std::invalid_argument for lengths or stimps that are not
/// positive.
Rehearsal rehearse(double level_roll_m, double green_stimp_ft, double mat_stimp_ft,
                   std::optional<double> mat_m, const Player& player, double table_stimp_ft);

}  // namespace dewtrail
