#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace dewtrail {

/// A rhythm to putt to: ticks at the start of the backswing, at its end and at the ball. Putting
/// strokes of good players take about twice as long back as forward, whatever their length (Grober
/// 2009, arXiv:0903.1762); the ratio is free.
struct Tempo {
    double ratio = 2;        ///< back to forward
    double forward_s = 0.3;  ///< from the end of the backswing to the ball
    double rest_s = 2.5;     ///< until the next stroke
};
inline constexpr double least_ratio = 0.5, most_ratio = 5;

/// When the three ticks of one stroke come, seconds, and how long it all takes with its rest.
struct TickTimes {
    double back_s = 0, top_s = 0, ball_s = 0, whole_s = 0;
};
TickTimes tick_times(const Tempo& tempo);

/// One stroke and its rest as sound: mono, `per_second` samples a second, soft clicks, the ball's
/// the highest. To be played over and over.
std::vector<std::int16_t> tick_samples(const Tempo& tempo, int per_second = 44100);

/// The same as a WAV file's bytes.
std::string wave_file(const std::vector<std::int16_t>& samples, int per_second = 44100);

/// '2', '2:1', '1.8:1': the ratio. Throws InputError outside 0.5 to 5.
double parse_ratio(std::string_view text);

}  // namespace dewtrail
