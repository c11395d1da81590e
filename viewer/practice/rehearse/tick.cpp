#include "viewer/practice/rehearse/tick.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "greens/input_error.hpp"
#include "greens/number.hpp"

namespace dewtrail {
namespace {

constexpr double click_s = 0.03, fades_within_s = 0.006, loudness = 0.5;

/// A short tone that dies away.
void add_click(std::vector<std::int16_t>& samples, double at_s, double pitch_hz, int per_second) {
    const auto from = static_cast<std::size_t>(std::lround(at_s * per_second));
    const auto count = static_cast<std::size_t>(click_s * per_second);
    for (std::size_t i = 0; i < count && from + i < samples.size(); ++i) {
        const double t = static_cast<double>(i) / per_second;
        const double wave = loudness * std::exp(-t / fades_within_s) *
                            std::sin(2 * std::numbers::pi * pitch_hz * t);
        samples[from + i] = static_cast<std::int16_t>(std::lround(32767 * wave));
    }
}

}  // namespace

TickTimes tick_times(const Tempo& tempo) {
    TickTimes times;
    times.top_s = tempo.ratio * tempo.forward_s;
    times.ball_s = times.top_s + tempo.forward_s;
    times.whole_s = times.ball_s + tempo.rest_s;
    return times;
}

std::vector<std::int16_t> tick_samples(const Tempo& tempo, int per_second) {
    const TickTimes times = tick_times(tempo);
    std::vector<std::int16_t> samples(
        static_cast<std::size_t>(std::lround(times.whole_s * per_second)), 0);
    add_click(samples, times.back_s, 700, per_second);
    add_click(samples, times.top_s, 900, per_second);
    add_click(samples, times.ball_s, 1300, per_second);
    return samples;
}

// The WAV form of RIFF (Microsoft and IBM, Multimedia Programming Interface and Data Specifications
// 1.0, August 1991, from memory): one 'fmt ' chunk of plain samples, one 'data' chunk.
std::string wave_file(const std::vector<std::int16_t>& samples, int per_second) {
    constexpr std::uint32_t plain = 1, channels = 1, bytes_each = 2, head = 36, format = 16;
    const auto rate = static_cast<std::uint32_t>(per_second);
    const auto data = static_cast<std::uint32_t>(bytes_each * samples.size());
    std::string bytes;
    const auto add = [&](std::uint32_t value, int size) {
        for (int i = 0; i < size; ++i) bytes += static_cast<char>(value >> 8 * i & 0xff);
    };
    bytes += "RIFF", add(head + data, 4);
    bytes += "WAVEfmt ", add(format, 4);
    add(plain, 2), add(channels, 2);
    add(rate, 4), add(rate * bytes_each, 4);
    add(bytes_each, 2), add(8 * bytes_each, 2);
    bytes += "data", add(data, 4);
    for (const std::int16_t sample : samples) add(static_cast<std::uint16_t>(sample), bytes_each);
    return bytes;
}

double parse_ratio(std::string_view text) {
    const std::size_t colon = text.find(':');
    const auto back = plain_number(text.substr(0, colon));
    const auto forward = colon == text.npos ? 1.0 : plain_number(text.substr(colon + 1));
    const double ratio = back && forward && *forward > 0 ? *back / *forward : 0;
    if (!(ratio >= least_ratio && ratio <= most_ratio))
        throw InputError(fmt::format("tempo '{}' is no ratio from 0.5 to 5", text),
                         "Say how much longer back than forward: 2:1.");
    return ratio;
}

}  // namespace dewtrail
