#pragma once

#include <optional>
#include <vector>

#include "viewer/practice/habits/bias.hpp"
#include "viewer/practice/player.hpp"

/// A level floor at home: what a ball that leaves it would have rolled, and how fast it is.
namespace dewtrail {

/// What a ball is timed over: from the ball's place, or from a first mark, to a line.
struct Stretch {
    double from_m = 0, to_m = 0;

    bool operator==(const Stretch&) const = default;
};

/// How far a ball would have rolled that took `time_s` over the stretch. Rolling slows evenly, by a
/// (MODEL.md section 1): over d = u t - a t^2 / 2 it came in at u = d / t + a t / 2,
/// and from the first mark on it rolls u^2 / 2a. None for one that could not have got to the line.
/// The ball is taken to roll all the way; behind a first mark it does, whatever it skidded before.
std::optional<double> roll_by_time_m(const Stretch& stretch, double time_s, double stimp_ft);

/// The other way round: the time over the stretch of a ball that rolls so far. None where it stops
/// before the line.
std::optional<double> time_of_roll_s(const Stretch& stretch, double roll_m, double stimp_ft);

/// A ball of the pace test as it is typed: where it stopped and, where the floor's own speed is to
/// be found, how far the putter was drawn back for it.
struct BallStop {
    double stopped_m = 0;
    std::optional<double> backswing_m{};
};

inline constexpr int least_drawn_back = 3;

/// The floor's stimp in feet, by the player's own stroke table: a stroke drawn back so far rolls so
/// far on a green of the table's speed, and a level roll is proportional to the stimp. The mean of
/// the balls that say how far the putter was drawn back, and the middle 90 %: their scatter, never
/// taken for less than the table's own, and the table's error, which they share. None without a
/// table or under `least` such balls.
std::optional<Credible> floor_stimp_ft(const std::vector<BallStop>& balls, const Player& player,
                                       int least = least_drawn_back);

}  // namespace dewtrail
