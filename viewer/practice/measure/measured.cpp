#include "viewer/practice/measure/measured.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "physics/numbers/normal.hpp"
#include "viewer/text/english.hpp"

namespace dewtrail {
namespace {

std::optional<LineFound> line_found(const std::vector<GateStroke>& strokes) {
    if (strokes.size() < least_gate_strokes) return std::nullopt;
    LinePosterior known;
    for (const GateStroke& stroke : strokes) known.add(stroke.gate, stroke.passed);
    return known.found();
}

/// One standard deviation of a normal whose middle 90 % this is.
double sd_of(const Credible& value) {
    return (value.hi - value.lo) / (2 * ninety_sds);
}

double chance_through(const LineFound& found, const GateSize& gate) {
    const double half = gate.half_angle_rad() * 180 / M_PI, bias = found.bias_deg.mean,
                 sd = found.spread_deg.mean;
    return normal_below((half - bias) / sd) - normal_below((-half - bias) / sd);
}

}  // namespace

Measured measured(Measures measures) {
    return {pace_found(last_of(std::move(measures.balls))),
            line_found(last_of(std::move(measures.strokes)))};
}

std::vector<MeasuredMonth> measured_by_month(const Measures& measures) {
    std::map<std::string, Measures> months;
    for (const PaceBall& ball : measures.balls) months[ball.at.substr(0, 7)].balls.push_back(ball);
    for (const GateStroke& stroke : measures.strokes)
        months[stroke.at.substr(0, 7)].strokes.push_back(stroke);
    std::vector<MeasuredMonth> found;
    for (const auto& [month, rows] : months) {
        const Measured then{pace_found(rows.balls), line_found(rows.strokes)};
        if (!then.nothing()) found.push_back({month, then});
    }
    return found;
}

bool more_than_chance(const Credible& before, const Credible& now) {
    return std::abs(now.mean - before.mean) > ninety_sds * std::hypot(sd_of(before), sd_of(now));
}

Spread spread_by(const Measured& found, Spread spread) {
    const auto rounded = [](double value, double step) { return step * std::round(value / step); };
    if (found.pace) {
        spread.pace = rounded(found.pace->spread.mean, 0.001);
        spread.pace_floor_m = rounded(found.pace->floor_m.mean, 0.001);
    }
    if (found.line) spread.line_deg = rounded(found.line->spread_deg.mean, 0.01);
    return spread;
}

std::string measured_from(const Measured& found) {
    std::string words;
    if (found.pace) words = counted(found.pace->balls, "ball");
    if (found.line) words += (words.empty() ? "" : ", ") + counted(found.line->strokes, "stroke");
    return words;
}

std::optional<PaceDrill> pace_drill(const PaceFound& found, const Units& units) {
    const double short_bias = is_told(found.short_bias) ? found.short_bias.mean : 0,
                 long_bias = is_told(found.long_bias) ? found.long_bias.mean : 0;
    const double more = std::max(std::abs(short_bias), std::abs(long_bias)),
                 less = std::min(std::abs(short_bias), std::abs(long_bias));
    const bool alike = short_bias * long_bias > 0 && more < 2 * less;
    if (alike || (more == 0 && is_told(found.bias)))
        return PaceDrill{found.short_m, found.long_m, found.bias.mean};
    if (more == 0) return std::nullopt;
    const double step = units.metric ? 0.5 : metres_per_foot;
    const double middle = step * std::round(std::sqrt(found.short_m * found.long_m) / step);
    return std::abs(long_bias) > std::abs(short_bias)
               ? PaceDrill{middle, found.long_m, long_bias}
               : PaceDrill{found.short_m, middle, short_bias};
}

GateSize gate_drill(const LineFound& found, const std::vector<GateSize>& gates) {
    std::vector<GateSize> sizes = gates;
    std::sort(sizes.begin(), sizes.end(), [](const GateSize& a, const GateSize& b) {
        return a.half_angle_rad() < b.half_angle_rad();
    });
    constexpr double passed = 2.0 / 3;
    const auto usual = std::find_if(sizes.begin(), sizes.end(), [&](const GateSize& gate) {
        return chance_through(found, gate) >= passed;
    });
    return usual == sizes.begin() ? *usual : *std::prev(usual);
}

}  // namespace dewtrail
