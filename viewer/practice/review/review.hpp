#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "physics/read/read.hpp"
#include "viewer/practice/player.hpp"

/// After the putt: which stroke was played, and which of four things most likely went wrong - the
/// slope as read, the green speed, the start line, the pace.
namespace dewtrail {

/// A putt that was played: the ground as it was believed to be, what was meant, where it ended.
struct PlayedPutt {
    Putt putt;
    double stimp_ft = 10;
    Stroke meant;
    Vec2 rest = Vec2::Zero();     ///< green frame, metres
    Eigen::Vector2d rest_sd_m{};  ///< how well that is known, along and across the ball-hole line
};

/// The stroke that ends there on the ground as believed: rolled again by the integrator it ends
/// within 1 mm. None where no stroke was found, or nothing stops. The hole is taken as covered.
struct SolvedStroke {
    Stroke stroke;
    double level_roll_m = 0;
    double error_m = 0;  ///< of the roll that checks it
};
std::optional<SolvedStroke> stroke_that_ends_at(const PlayedPutt& played);

/// What causes are told against: of several putts the means.
struct Reviewed {
    double distance_m = 0;  ///< for the start line
    double slope = 0;       ///< as it was believed, rise over run
};
Reviewed means_of(const std::vector<PlayedPutt>& putts);

/// What could have gone wrong, in the order of Split::cause.
enum class Cause { slope, stimp, line, pace };
inline constexpr int cause_count = 4;

/// How far each may be off before the putt is seen, one standard deviation.
struct Doubts {
    double slope = 0.005;     ///< rise over run, along the fall line at the hole (on
                              ///< level ground along the putt)
    double stimp_ft = 0.75;   ///< no source: what players guess a stimp to
    double line_rad = 0.032;  ///< of one stroke
    double pace = 0.14;       ///< of one stroke, of the level roll
    double pace_floor_m = 0;
};
Doubts doubts_of(const Spread& spread);

/// One cause: how much of it, and how sure that is.
struct Part {
    double size = 0;  ///< slope: rise over run steeper than believed; stimp: feet faster; line: rad
                      ///< to the right of what was meant; pace: fraction too firm
    double sd = 0;    ///< one standard deviation, after the putts
    bool moved = false;  ///< enough to be told: words round what is less to 'as meant'
    double moved_m = 0;  ///< how far it moved the ball at rest, on average over the putts
    double chance = 0;   ///< that of those that moved it, it moved the ball farthest
};

struct Split {
    Part parts[cause_count];
    std::vector<Cause> likely;  ///< those that moved the ball, the greatest chance first
    int putts = 0;

    /// The first is less than 6 in 10 likely.
    bool cannot_tell() const { return !likely.empty() && part(likely.front()).chance < 0.6; }
    /// The first is 4 in 10 likely at least.
    bool stands_out() const { return !likely.empty() && part(likely.front()).chance >= 0.4; }

    const Part& part(Cause cause) const { return parts[static_cast<int>(cause)]; }

    /// The chances as they are told, in whole percent that add up as the chances do.
    std::array<int, cause_count> told_chances() const;
};

/// The most likely split by a Gaussian model, linearised again until it stays (Gauss-Newton on the
/// posterior), with the player's spread and the stated doubts. Slope and stimp are off by the same
/// on all putts. With one putt, line and pace are those of that stroke; with several they are the
/// player's habit (half of one stroke's doubt), and each stroke scatters besides. None where a
/// putt has no stop.
///
/// On simulated misses it is unbiased and its 90 % intervals hold about 90 %.
std::optional<Split> split_of(const std::vector<PlayedPutt>& putts, const Doubts& doubts);

}  // namespace dewtrail
