#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/player.hpp"

/// A rhythm to putt to: one tone that swells and fades as the putter swings, silent at the ball.
namespace dewtrail {

/// The whole swing of a putter that takes 0.3 s from the top to the ball, as good players' do
/// whatever its length (Grober 2009, arXiv:0903.1762): a quarter of it.
inline constexpr double usual_swing_s = 1.2;
inline constexpr double least_swing_s = 0.6, most_swing_s = 3;

/// The period of the player's own pendulum, by the stroke table for a green of `table_stimp_ft`;
/// none without a table. A pendulum of period T drawn back by b passes the ball at 2 pi b / T, and
/// the ball leaves faster by the blow. Held to 0.6 to 3 s.
std::optional<double> swing_of(const Player& player, double table_stimp_ft);

/// The same on the greens that the player is used to, or the usual swing.
double swing_s(const Player& player);

/// One whole swing as sound, mono, to be played over and over: loudness and pitch rise with the
/// putter's distance from the ball, to either side.
std::vector<std::int16_t> swell_samples(double swing_s, int per_second = 44100);

/// The same as a WAV file's bytes.
std::string wave_file(const std::vector<std::int16_t>& samples, int per_second = 44100);

}  // namespace dewtrail
