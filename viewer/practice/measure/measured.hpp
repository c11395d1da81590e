#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/measure/line_measure.hpp"
#include "viewer/practice/measure/pace_measure.hpp"
#include "viewer/putt/spread.hpp"

/// What the tests of pace and line add up to.
namespace dewtrail {

/// Balls of the pace test and strokes of the line test.
struct Measures {
    std::vector<PaceBall> balls;
    std::vector<GateStroke> strokes;

    std::size_t size() const { return balls.size() + strokes.size(); }
};

struct Measured {
    std::optional<PaceFound> pace;  ///< none under least_pace_balls
    std::optional<LineFound> line;  ///< none under least_gate_strokes

    bool nothing() const { return !pace && !line; }
};

inline constexpr int least_gate_strokes = 6;

/// A bias is told only where its interval leaves nought out.
inline bool is_told(const Credible& bias) {
    return bias.lo > 0 || bias.hi < 0;
}

/// The last forty, which say what a player is like now.
template <class Row>
std::vector<Row> last_of(std::vector<Row> rows) {
    constexpr std::size_t latest = 40;
    if (rows.size() > latest)
        rows.erase(rows.begin(), rows.end() - static_cast<std::ptrdiff_t>(latest));
    return rows;
}

/// By the last of each.
Measured measured(Measures measures);

/// What was found in one month, by all of its balls: '2026-05'.
struct MeasuredMonth {
    std::string month;
    Measured found;
};
/// Oldest first; only months in which something was found.
std::vector<MeasuredMonth> measured_by_month(const Measures& measures);

/// Of two posteriors, each taken as normal: whether they differ by more than chance would make them
/// differ in nine cases of ten.
bool more_than_chance(const Credible& before, const Credible& now);

/// The spread with what was measured in place of what was thought, to a thousandth and to 0.01°.
Spread spread_by(const Measured& found, Spread before);
/// '20 balls, 24 strokes'.
std::string measured_from(const Measured& found);

/// Lengths to practise: those where the bias is, the short or the long half, or all alike.
struct PaceDrill {
    double least_m = 0, most_m = 0;
    double bias = 0;  ///< of the length, long positive
};
/// In whole feet or half metres. None where no bias is told.
std::optional<PaceDrill> pace_drill(const PaceFound& found, const Units& units);

/// The gate one size smaller than the smallest of which two strokes in three go through; the
/// smallest there is where that is the one.
GateSize gate_drill(const LineFound& found, const std::vector<GateSize>& gates);

}  // namespace dewtrail
