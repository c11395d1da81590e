#include "viewer/practice/rehearse/swell.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "viewer/practice/rehearse/rehearse.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {
namespace {

// The ball's speed over the putter's: (1 + e) M / (M + m) for a head of 0.35 kg, a ball of 0.046 kg
// and a restitution of 0.8 (derived here; the masses and e from memory).
constexpr double blow = 1.8 * 0.35 / (0.35 + 0.046);

constexpr double loudness = 0.4, low_hz = 220, high_hz = 330;

}  // namespace

std::optional<double> swing_of(const Player& player, double table_stimp_ft) {
    const auto pendulum = pendulum_of(player, table_stimp_ft);
    if (!pendulum) return std::nullopt;
    const double swing_s = 2 * std::numbers::pi * blow * pendulum->backswing_s;
    return std::clamp(swing_s, least_swing_s, most_swing_s);
}

double swing_s(const Player& player) {
    return swing_of(player, player.stimp_ft.value_or(usual_stimp_ft)).value_or(usual_swing_s);
}

std::vector<std::int16_t> swell_samples(double swing_s, int per_second) {
    const auto count = static_cast<std::size_t>(std::lround(swing_s * per_second));
    std::vector<std::int16_t> samples;
    double phase = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(count);
        const double away = std::abs(std::sin(2 * std::numbers::pi * share));
        phase += 2 * std::numbers::pi * (low_hz + (high_hz - low_hz) * away) / per_second;
        samples.push_back(
            static_cast<std::int16_t>(std::lround(32767 * loudness * away * std::sin(phase))));
    }
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

}  // namespace dewtrail
