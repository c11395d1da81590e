#include "viewer/practice/rehearse/tick.hpp"

#include <fmt/format.h>

#include <sndfile.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"

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

std::string wave_file(const std::vector<std::int16_t>& samples, int per_second) {
    // libsndfile writes into memory through these.
    struct Memory {
        std::string bytes;
        std::size_t at = 0;
    } memory;
    SF_VIRTUAL_IO io{};
    io.get_filelen = [](void* m) { return sf_count_t(static_cast<Memory*>(m)->bytes.size()); };
    io.tell = [](void* m) { return sf_count_t(static_cast<Memory*>(m)->at); };
    io.seek = [](sf_count_t offset, int whence, void* m) {
        auto* to = static_cast<Memory*>(m);
        const sf_count_t from = whence == SEEK_SET   ? 0
                                : whence == SEEK_CUR ? sf_count_t(to->at)
                                                     : sf_count_t(to->bytes.size());
        to->at = static_cast<std::size_t>(from + offset);
        return sf_count_t(to->at);
    };
    io.read = [](void* to, sf_count_t count, void* m) {
        auto* from = static_cast<Memory*>(m);
        const auto n = from->bytes.copy(static_cast<char*>(to), static_cast<std::size_t>(count),
                                        std::min(from->at, from->bytes.size()));
        from->at += n;
        return sf_count_t(n);
    };
    io.write = [](const void* from, sf_count_t count, void* m) {
        auto* to = static_cast<Memory*>(m);
        const auto n = static_cast<std::size_t>(count);
        to->bytes.resize(std::max(to->bytes.size(), to->at + n));
        to->bytes.replace(to->at, n, static_cast<const char*>(from), n);
        to->at += n;
        return count;
    };
    SF_INFO info{};
    info.samplerate = per_second;
    info.channels = 1;
    info.format = SF_FORMAT_WAV | SF_FORMAT_PCM_16;
    SNDFILE* file = sf_open_virtual(&io, SFM_WRITE, &info, &memory);
    if (!file) throw OutsideError("no sound could be made");
    const auto count = static_cast<sf_count_t>(samples.size());
    const bool whole = sf_write_short(file, samples.data(), count) == count;
    sf_close(file);
    if (!whole) throw OutsideError("the sound could not be written");
    return memory.bytes;
}

double parse_ratio(std::string_view text) {
    double parts[2] = {0, 1};
    const char* at = text.data();
    const char* const end = at + text.size();
    bool read = true;
    for (int i = 0; i < 2 && read; ++i) {
        const auto [next, error] = std::from_chars(at, end, parts[i]);
        read = error == std::errc();
        at = next;
        if (i == 0 && at == end) break;
        if (i == 0) read = read && *at++ == ':';
    }
    const bool whole = read && at == end && parts[1] > 0;
    const double ratio = whole ? parts[0] / parts[1] : 0;
    if (!(ratio >= least_ratio && ratio <= most_ratio))
        throw InputError(fmt::format("tempo '{}' is no ratio from 0.5 to 5", text),
                         "Say how much longer back than forward: 2:1.");
    return ratio;
}

}  // namespace dewtrail
