#include "viewer/practice/habits/diagnosis_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

double to_step(double value, double step) {
    return step * std::round(value / step * (1 + 1e-12));
}

/// Aims from the centre of the hole, to ¼ in under a foot and whole inches beyond; metric to ½ cm
/// under 30 cm and to 1 cm.
double told_aim_m(double aim_m, const Units& units) {
    constexpr double fine_below_m = 12 * metres_per_inch;
    const bool fine = std::abs(aim_m) < fine_below_m - 1e-9;
    if (units.metric) return to_step(aim_m, fine ? 0.005 : 0.01);
    return to_step(aim_m, fine ? metres_per_inch / 4 : metres_per_inch);
}

/// As it is, without rounding it again.
std::string told_length(double length_m, const Units& units) {
    const double size_m = std::abs(length_m);
    if (units.metric) {
        const double cm = 0.5 * std::round(200 * size_m);
        if (cm < 100) return format_halves(cm) + " cm";
        return fmt::format("{:.{}f} m", cm / 100, cm == std::round(cm) ? 2 : 3);
    }
    const double inches = 0.25 * std::round(4 * size_m / metres_per_inch);
    if (inches < 36) return format_quarters(inches) + " in";
    const double feet = std::floor(inches / 12), rest = inches - 12 * feet;
    return fmt::format("{:.0f} ft{}", feet, rest > 0 ? " " + format_quarters(rest) + " in" : "");
}

/// Level putts to ½ ft or 0.1 m however long they are: the ruler that they are set on counts so.
double told_pace_m(double level_putt_m, const Units& units) {
    const double step = units.metric ? 0.1 : metres_per_foot / 2;
    return std::max(0.0, to_step(level_putt_m, step));
}

std::string told_pace(double level_putt_m, const Units& units) {
    if (level_putt_m == 0) return "tap";
    return units.metric ? fmt::format("{:.1f} m", level_putt_m)
                        : format_halves(level_putt_m / metres_per_foot) + " ft";
}

/// The player's and the read's, as they are told.
struct Beside {
    double yours_m, true_m;

    double off_m() const { return yours_m - true_m; }
    bool alike() const { return std::abs(off_m()) < 1e-6; }
};

Beside aims(const Diagnosis& d, const Units& units) {
    return {told_aim_m(d.aim_m, units), told_aim_m(*d.best.aim_offset_m, units)};
}

Beside paces(const Diagnosis& d, const Units& units) {
    return {told_pace_m(d.level_putt_m, units), told_pace_m(d.best.level_putt_m, units)};
}

std::string_view pace_side(const Diagnosis& d) {
    return d.pace_share > 1 ? "firm" : "soft";
}

std::string aim_headline(const Diagnosis& d, const Units& units) {
    if (d.holed) return fmt::format("Holed, off the {} edge", d.side);
    const Beside aim = aims(d, units);
    const std::string by = aim.alike() ? "" : ", by " + told_length(aim.off_m(), units);
    if (d.wrong_side) return "Wrong side" + by;
    return fmt::format("{} {}{}", d.passed_there ? "Missed" : "Aimed", d.side, by);
}

std::string pace_headline(const Diagnosis& d, const Units& units) {
    const bool firm = d.pace_share > 1;
    if (d.holed) return fmt::format("Holed, but {}", pace_side(d));
    if (firm && d.past_m > 0) return "Long, by " + format_length(d.past_m, units);
    if (!firm && d.past_m < 0) return "Short, by " + format_length(d.past_m, units);
    const Beside pace = paces(d, units);
    if (pace.alike()) return fmt::format("A shade {}", pace_side(d));
    return fmt::format("Too {}, by {}", pace_side(d), told_pace(std::abs(pace.off_m()), units));
}

std::string break_words(const Read& read) {
    if (read.turns) return "both ways, " + both_sides_words(read.turns->first.offset_m);
    return *read.aim_offset_m > 0 ? "right to left" : "left to right";
}

std::string aim_sentence(const Diagnosis& d, const Units& units) {
    if (d.wrong_side) return fmt::format("Wrong side: it breaks {}.", break_words(d.best));
    const Beside aim = aims(d, units);
    const bool sloped = d.side == "high" || d.side == "low";
    if (aim.alike())
        return fmt::format("The aim fits, a shade {}{}: {}.", sloped ? "" : "to the ", d.side,
                           told_length(aim.true_m, units));
    const std::string by = told_length(aim.off_m(), units);
    if (d.break_share)
        return fmt::format("You played {} of the break: {} {}.",
                           format_percent(std::max(aim.yours_m / aim.true_m, 0.0)), by,
                           *d.break_share < 1 ? "more" : "less");
    return fmt::format("The aim was {} too {}{}.", by, sloped ? "" : "far ", d.side);
}

/// No percentage: of level putts it would be another than of the strokes that the trend is of,
/// which roll the finish as well. The difference is the same for both.
std::string pace_sentence(const Diagnosis& d, const Units& units) {
    const Beside pace = paces(d, units);
    const std::string asked = told_pace(pace.true_m, units);
    if (pace.alike()) return fmt::format("The pace fits, a shade {}: {}.", pace_side(d), asked);
    return fmt::format("You hit it {} too {}: {}, not {}.",
                       told_pace(std::abs(pace.off_m()), units), pace_side(d), asked,
                       told_pace(pace.yours_m, units));
}

/// The side only where the two lie on either side of the hole.
std::string aim_cell(double told_m, bool sides, const Units& units) {
    if (told_m == 0) return "straight";
    return told_length(told_m, units) + (sides ? told_m > 0 ? " right" : " left" : "");
}

}  // namespace

std::string headline(const Diagnosis& d, const Units& units) {
    if (d.fault == Fault::aim) return aim_headline(d, units);
    if (d.fault == Fault::pace) return pace_headline(d, units);
    return d.holed ? "Holed" : format_length(d.away_m, units) + " from the hole";
}

std::array<DiagnosisRow, 2> diagnosis_rows(const Diagnosis& d, const Units& units) {
    const Beside aim = aims(d, units), pace = paces(d, units);
    const bool sides = aim.yours_m * aim.true_m < 0;
    return {
        DiagnosisRow{"Aim", aim_cell(aim.yours_m, sides, units), aim_cell(aim.true_m, sides, units),
                     format_putts(d.aim_lost), d.fault == Fault::aim},
        DiagnosisRow{"Pace", told_pace(pace.yours_m, units), told_pace(pace.true_m, units),
                     format_putts(d.pace_lost), d.fault == Fault::pace}};
}

std::string diagnosis_sentence(const Diagnosis& d, const Units& units) {
    if (d.fault == Fault::aim) return aim_sentence(d, units);
    if (d.fault == Fault::pace) return pace_sentence(d, units);
    return kind_of(d.drill).when_fit;
}

std::string score_words(const Diagnosis& d) {
    const double cost = d.fault == Fault::aim ? d.aim_lost : d.pace_lost;
    if (d.fault == Fault::none) return fmt::format("{:.0f} of 10: it costs nothing.", d.score);
    return fmt::format("{:.0f} of 10: the {} cost {} strokes.", d.score, name_of(d.fault),
                       format_putts(cost));
}

}  // namespace dewtrail
