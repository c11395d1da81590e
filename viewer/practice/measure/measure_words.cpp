#include "viewer/practice/measure/measure_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "physics/numbers/normal.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/putt/outlook.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/putt/solved.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

/// Its size: of one below nought the ends change places.
Credible size_of(const Credible& bias) {
    return bias.mean < 0 ? Credible{-bias.mean, -bias.hi, -bias.lo} : bias;
}

std::string degrees(const Credible& angle) {
    return fmt::format("{:.1f}° ({})", angle.mean, degrees_range(angle));
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

std::string change(const char* what, const std::string& before, const std::string& now,
                   const MeasuredMonth& first, const MeasuredMonth& last, bool certain) {
    return fmt::format("{} by {} in {}, by {} in {}: {}.", what, before, month_words(first.month),
                       now, month_words(last.month),
                       certain ? "more than chance" : "chance alone may have done that");
}

/// Odds of a straight level putt and the finish with the fewest putts.
struct LevelOdds {
    double holed = 0, best_past_m = 0;
};
std::optional<LevelOdds> level_odds(double distance_m, const Spread& spread, double stimp_ft) {
    Setup setup;
    setup.distance_m = distance_m;
    setup.slope = 0;
    setup.stimp_ft = stimp_ft;
    const Solved solved = solve(setup, usual_past_m, Effort::live);
    if (!solved.read) return std::nullopt;
    std::optional<LevelOdds> odds;
    OutlookMaker().answer(OutlookQuestion{.putt = solved.putt,
                                          .read = *solved.read,
                                          .plain = solved.putt.finish,
                                          .spread = spread},
                          [&](const Outlook& outlook) {
                              if (outlook.odds && outlook.best)
                                  odds = {outlook.odds->holed, outlook.best->fewest_putts.past_m};
                              return true;
                          });
    return odds;
}

}  // namespace

std::string drill_words(const PaceFound& found, const Units& units) {
    const auto drill = pace_drill(found, units);
    if (!drill) return "";
    return fmt::format("ten balls of {} to {}, where yours stop {}.",
                       format_distance(drill->least_m, units),
                       format_distance(drill->most_m, units), drill->bias > 0 ? "long" : "short");
}

std::string drill_words(const LineFound& found, const Units& units) {
    std::string words =
        fmt::format("ten strokes through a gate {}",
                    gate_words(gate_drill(found, usual_gates(units.metric)), units));
    if (is_told(found.bias_deg))
        words += fmt::format("; yours start {}", found.bias_deg.mean > 0 ? "right" : "left");
    return words + ".";
}

std::string far_off_words(double called_m, double stopped_m, const Units& units) {
    constexpr double plausible_part = 0.5;  // five times a golfer's usual scatter of pace
    if (std::abs(stopped_m - called_m) <= plausible_part * called_m) return "";
    return fmt::format("A ball called at {} stopped at {}: is that right?",
                       format_distance(called_m, units), format_distance(stopped_m, units));
}

std::string asked_words(const PaceFloor& floor) {
    if (!floor.timed) return "It stopped at";
    return floor.timed->from_m > 0 ? "Seconds between the marks" : "Seconds to the line";
}

std::string stretch_words(const Stretch& stretch, const Units& units) {
    const std::string line = format_distance(stretch.to_m, units);
    if (stretch.from_m <= 0) return line + " away";
    return fmt::format("from {} to {}", format_distance(stretch.from_m, units), line);
}

std::string stretch_as_typed(const Stretch& stretch, const Units& units) {
    const std::string line = format_distance(stretch.to_m, units);
    return stretch.from_m > 0 ? format_distance(stretch.from_m, units) + ", " + line : line;
}

std::string timing_words(const PaceFloor& floor, const Units& units) {
    if (!floor.timed) return "";
    constexpr double twentieth_s = 0.05, least_s = 0.2;
    const double called_m = std::max(0.5 * (floor.from_m + floor.to_m), floor.timed->to_m);
    const double time_s = *time_of_roll_s(*floor.timed, called_m, floor.stimp_ft);
    if (time_s < least_s) return "That is too short to be timed by hand.";
    const double counted_m = *roll_by_time_m(*floor.timed, time_s - twentieth_s, floor.stimp_ft);
    return fmt::format(
        "Timed a twentieth of a second short, a roll of {} counts as {}: a film times it finer.",
        format_distance(called_m, units), format_distance(counted_m, units));
}

std::string floor_words(const Credible& stimp_ft) {
    return fmt::format("By your stroke table this floor is stimp {} ({}–{}).",
                       format_stimp(stimp_ft.mean), format_stimp(stimp_ft.lo),
                       format_stimp(stimp_ft.hi));
}

std::vector<std::string> change_words(const std::vector<MeasuredMonth>& months) {
    std::vector<std::string> words;
    const auto say = [&](auto of, const char* what, auto figure) {
        std::vector<const MeasuredMonth*> known;
        for (const MeasuredMonth& month : months)
            if (of(month)) known.push_back(&month);
        if (known.size() < 2) return;
        const Credible before = *of(*known.front()), now = *of(*known.back());
        words.push_back(change(what, figure(before), figure(now), *known.front(), *known.back(),
                               more_than_chance(before, now)));
    };
    say(
        [](const MeasuredMonth& m) {
            return m.found.pace ? std::optional(m.found.pace->spread) : std::nullopt;
        },
        "Your pace scattered", share_words);
    say(
        [](const MeasuredMonth& m) {
            return m.found.line ? std::optional(m.found.line->spread_deg) : std::nullopt;
        },
        "Your line scattered", degrees);
    return words;
}

std::string taken_words(const Spread& before, const Spread& now, double stimp_ft,
                        const Units& units) {
    const double length = units.metric ? 2.5 : 8 * metres_per_foot;
    const auto was = level_odds(length, before, stimp_ft), is = level_odds(length, now, stimp_ft);
    if (!was || !is) return "";
    const std::string holed = fmt::format("{:.0f}", 100 * is->holed),
                      holed_before = fmt::format("{:.0f}", 100 * was->holed),
                      past = format_past(is->best_past_m, units),
                      past_before = format_past(was->best_past_m, units);
    const auto in_place_of = [](const std::string& a, const std::string& b) {
        return a == b ? ", as before" : ", not " + b;
    };
    return fmt::format("Of level putts of {} you hole {} in 100{}; best finished {} past{}.",
                       format_distance(length, units), holed, in_place_of(holed, holed_before),
                       past, in_place_of(past, past_before));
}

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

std::string month_words(const std::string& month) {
    return short_date(day_number(month + "-01").value_or(0), true);
}

std::string percent_range(const Credible& part) {
    return fmt::format("{:.0f}–{:.0f} %", 100 * part.lo, 100 * part.hi);
}

std::string degrees_range(const Credible& angle) {
    return fmt::format("{:.1f}–{:.1f}°", angle.lo, angle.hi);
}

std::string gate_words(const GateSize& gate, const Units& units) {
    const std::string width = units.metric ? fmt::format("{:g} cm", 100 * gate.width_m)
                                           : format_length(gate.width_m, units);
    return fmt::format("{} wide, {} away", width, format_distance(gate.away_m, units));
}

}  // namespace dewtrail
