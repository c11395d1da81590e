#include "viewer/practice/measure/measure_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "physics/numbers/normal.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

bool is_told(const Credible& bias) {
    return bias.lo > 0 || bias.hi < 0;
}

/// Its size: of one below nought the ends change places.
Credible size_of(const Credible& bias) {
    return bias.mean < 0 ? Credible{-bias.mean, -bias.hi, -bias.lo} : bias;
}

std::string degrees(const Credible& angle) {
    return fmt::format("{:.1f}° ({:.1f}–{:.1f}°)", angle.mean, angle.lo, angle.hi);
}

std::string bias_words(const char* which, double length_m, const Credible& bias,
                       const Units& units) {
    return fmt::format("{} ones ({}) stop {} {}", which, format_distance(length_m, units),
                       share_words(size_of(bias)), bias.mean > 0 ? "long" : "short");
}

std::string biases_words(const PaceFound& found, const Units& units) {
    const bool shorts = is_told(found.short_bias), longs = is_told(found.long_bias);
    if (!shorts && !longs)
        return is_told(found.bias)
                   ? fmt::format("Your balls stop {} {}.", share_words(size_of(found.bias)),
                                 found.bias.mean > 0 ? "long" : "short")
                   : "No bias shows: long and short even out.";
    std::string words;
    if (shorts) words = bias_words("Short", found.short_m, found.short_bias, units);
    if (longs)
        words += (shorts ? ", " : "") +
                 bias_words(shorts ? "long" : "Long", found.long_m, found.long_bias, units);
    return words + ".";
}

/// What it means on the course: a putt as long as the longest called.
std::string stops_near_words(const PaceFound& found, const Units& units) {
    const double near_m = units.metric ? 0.9 : 3 * metres_per_foot, length = found.long_m;
    const double sd = std::max(found.spread.mean * length, found.floor_m.mean);
    const double off = found.long_bias.mean * length;
    const double share = normal_below((near_m - off) / sd) - normal_below((-near_m - off) / sd);
    return fmt::format("A level putt of {} stops within {} of its length: {}.",
                       format_distance(length, units), format_length(near_m, units),
                       chance_words(share));
}

}  // namespace

std::vector<std::string> pace_words(const PaceFound& found, const Units& units) {
    return {biases_words(found, units),
            fmt::format("Your pace scatters by {}.", share_words(found.spread)),
            stops_near_words(found, units)};
}

std::vector<std::string> line_words(const LineFound& found, const Units& units) {
    const Credible& bias = found.bias_deg;
    const double away_m = units.metric ? 3 : 10 * metres_per_foot;
    const double aside_m = away_m * std::tan(found.spread_deg.mean * M_PI / 180);
    return {is_told(bias) ? fmt::format("Your line starts {} {} of where it is meant.",
                                        degrees(size_of(bias)), bias.mean > 0 ? "right" : "left")
                          : "No bias shows: left and right even out.",
            fmt::format("It scatters by {}.", degrees(found.spread_deg)),
            fmt::format("At {} that is {} to either side, two times in three.",
                        format_distance(away_m, units), format_length(aside_m, units))};
}

std::string gate_words(const GateSize& gate, const Units& units) {
    const std::string width = units.metric ? fmt::format("{:g} cm", 100 * gate.width_m)
                                           : format_length(gate.width_m, units);
    return fmt::format("{} wide, {} away", width, format_distance(gate.away_m, units));
}

}  // namespace dewtrail
