#pragma once

#include <optional>
#include <vector>

#include "viewer/practice/habits/bias.hpp"
#include "viewer/practice/log/logged_putt.hpp"
#include "viewer/practice/player.hpp"

namespace dewtrail {

/// What the sides of real misses say about the part of the break that is played.
struct LowMisses {
    int low = 0, high = 0;                ///< misses by side
    std::optional<Credible> break_share;  ///< none under least_putts misses
};

/// The share of low misses alone finds the bias: a player who plays the part b of a break B aims
/// (1 - b) B too low; with a start line and a slope read of this spread the ball passes low by
/// Phi((m - R)/s) and high by Phi((-m - R)/s), m = (1 - b) B. The posterior of b on a grid, prior
/// 0.9 +- 0.4. The break of a putt without a slope is taken as that of a 2 % side slope, without a
/// stimp as on stimp 10; straight putts say nothing.
LowMisses low_misses(const std::vector<LoggedPutt>& putts, const Player& player);

}  // namespace dewtrail
