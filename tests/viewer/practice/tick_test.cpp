#include "viewer/practice/rehearse/tick.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>

#include "greens/input_error.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

constexpr int per_second = 8000;

/// Where sound begins after silence, seconds.
std::vector<double> onsets(const std::vector<std::int16_t>& samples) {
    std::vector<double> found;
    int silent = per_second;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (std::abs(samples[i]) < 50) {
            ++silent;
            continue;
        }
        if (silent > per_second / 20) found.push_back(static_cast<double>(i) / per_second);
        silent = 0;
    }
    return found;
}

}  // namespace

TEST_CASE("ticks come at back, top and ball, in the ratio that was asked for") {
    for (const double ratio : {1.0, 2.0, 2.5}) {
        Tempo tempo;
        tempo.ratio = ratio;
        const auto at = onsets(tick_samples(tempo, per_second));
        REQUIRE(at.size() == 3);
        CHECK_THAT(at[0], WithinAbs(0, 0.002));
        CHECK_THAT((at[1] - at[0]) / (at[2] - at[1]), WithinAbs(ratio, 0.02));
        CHECK_THAT(at[2] - at[1], WithinAbs(tempo.forward_s, 0.002));
    }
}

TEST_CASE("the sound file is a WAV of the samples") {
    const auto samples = tick_samples({}, per_second);
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

TEST_CASE("a ratio is read as people write it") {
    CHECK(parse_ratio("2") == 2);
    CHECK(parse_ratio("2:1") == 2);
    CHECK_THAT(parse_ratio("1.8:1"), WithinAbs(1.8, 1e-12));
    CHECK_THAT(parse_ratio("3:2"), WithinAbs(1.5, 1e-12));
    for (const char* bad : {"", "2:", "fast", "0", "2:0", "9", "2:1:1"})
        CHECK_THROWS_AS(parse_ratio(bad), InputError);
}
