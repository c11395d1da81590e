#include "viewer/practice/rehearse/swell.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>

#include "viewer/practice/rehearse/rehearse.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

constexpr int per_second = 8000;

/// The loudest sample within a fiftieth of a second round a moment of the swing.
int loudness_at(const std::vector<std::int16_t>& samples, double at_s) {
    const auto middle = static_cast<std::ptrdiff_t>(at_s * per_second);
    int most = 0;
    for (std::ptrdiff_t i = middle - per_second / 100; i <= middle + per_second / 100; ++i)
        if (i >= 0 && i < static_cast<std::ptrdiff_t>(samples.size()))
            most = std::max(most, std::abs(samples[static_cast<std::size_t>(i)]));
    return most;
}

}  // namespace

TEST_CASE("one tone swells to either end of the swing and is silent at the ball") {
    for (const double swing_s : {0.8, 1.2, 1.7}) {
        const auto samples = swell_samples(swing_s, per_second);
        CHECK_THAT(samples.size(), WithinAbs(swing_s * per_second, 1));
        const int top = loudness_at(samples, swing_s / 4);
        CHECK(top > 10000);
        CHECK_THAT(loudness_at(samples, 3 * swing_s / 4), WithinAbs(top, 0.02 * top));
        // Within a hundredth of a second of the ball at most as much as the putter is away from it.
        const double near = std::sin(2 * M_PI * 0.01 / swing_s);
        for (const double ball_s : {0.0, swing_s / 2, swing_s})
            CHECK(loudness_at(samples, ball_s) <= 1.05 * near * top);
        for (double t = 0.05 * swing_s; t < 0.24 * swing_s; t += 0.02 * swing_s)
            CHECK(loudness_at(samples, t) < loudness_at(samples, t + 0.02 * swing_s) + 200);
    }
}

TEST_CASE("nothing clicks: no sample leaves its neighbours by more than the tone does") {
    // A sine of loudness A and frequency f bends by at most (2 pi f / rate)^2 A a sample, its
    // envelope and a whole number's rounding add little. Over the seam too, for it is played over
    // and over.
    for (const double swing_s : {0.6, 1.2, 3.0}) {
        const auto samples = swell_samples(swing_s);
        const std::size_t n = samples.size();
        const double turn = 2 * M_PI * 330 / 44100, most = 1.1 * turn * turn * 0.4 * 32767 + 2;
        for (std::size_t i = 0; i < n; ++i) {
            const double bend = samples[i] - 2.0 * samples[(i + 1) % n] + samples[(i + 2) % n];
            if (std::abs(bend) > most) FAIL_CHECK(i << " of " << n << " bends by " << bend);
        }
    }
}

TEST_CASE("the swing is that of the player's own stroke table") {
    Player player;
    CHECK_FALSE(swing_of(player, 10));
    // Backswings in proportion to the ball's speed: one pendulum. From a stimp of 10 a ball rolls
    // 10 ft at 6 ft/s, and as the square of its speed.
    const double speed_m_s = 6 * metres_per_foot, roll_m = 10 * metres_per_foot;
    player.stroke_table = {{0.2, roll_m}, {0.4, 4 * roll_m}};
    // The putter passes the ball at 2 pi b / T; the ball leaves at 1.59 times that.
    const double expected_s = 2 * M_PI * 0.2 / (speed_m_s / 1.59);
    CHECK_THAT(*swing_of(player, 10), WithinAbs(expected_s, 0.01));
    player.stroke_table[0].backswing_m *= 1.2;
    player.stroke_table[1].backswing_m *= 1.2;
    CHECK_THAT(*swing_of(player, 10), WithinAbs(1.2 * expected_s, 0.012));
}

TEST_CASE("the sound file is a WAV of the samples") {
    const auto samples = swell_samples(1.2, per_second);
    const std::string file = wave_file(samples, per_second);
    REQUIRE(file.size() == 44 + 2 * samples.size());  // canonical header, 16 bits mono
    CHECK(file.substr(0, 4) == "RIFF");
    CHECK(file.substr(8, 8) == "WAVEfmt ");
    CHECK(file.substr(36, 4) == "data");
    const auto number = [&](std::size_t at, int size) {
        std::uint32_t value = 0;
        for (int i = size; i-- > 0;)
            value =
                256 * value + static_cast<unsigned char>(file[at + static_cast<std::size_t>(i)]);
        return value;
    };
    CHECK(number(4, 4) == file.size() - 8);
    CHECK(number(16, 4) == 16);
    CHECK(number(20, 2) == 1);  // plain samples
    CHECK(number(22, 2) == 1);
    CHECK(number(24, 4) == per_second);
    CHECK(number(28, 4) == 2 * per_second);
    CHECK(number(32, 2) == 2);
    CHECK(number(34, 2) == 16);
    CHECK(number(40, 4) == file.size() - 44);
    CHECK(std::memcmp(file.data() + 44, samples.data(), 2 * samples.size()) == 0);
}
