#include "viewer/text/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace {

constexpr double straight_within_m = 0.5 * metres_per_inch;
constexpr double lag_from_m = 30.0 * metres_per_foot;
constexpr double slack = 1e-9;

// How far the start line passes beside the hole; without end from 90 degrees on.
double passes_by_m(double start_angle_rad, double distance_m) {
    if (std::abs(start_angle_rad) >= std::numbers::pi / 2.0) return INFINITY;
    return std::abs(distance_m * std::tan(start_angle_rad));
}

std::string slope_word(double up) {
    const double size = std::abs(up) + slack;
    if (size < 0.0025) return "level";
    const char* way = up > 0.0 ? "uphill" : "downhill";
    if (size < 0.01) return fmt::format("slightly {}", way);
    return size > 0.03 + 2.0 * slack ? fmt::format("steeply {}", way) : way;
}

struct Stretch {
    double to;  // fraction of the distance
    std::string_view name;
};

constexpr std::array<Stretch, 7> stretches = {{{0.20, "near the ball"},
                                               {0.40, "a third of the way"},
                                               {0.47, "just short of halfway"},
                                               {0.53, "halfway"},
                                               {0.62, "just past halfway"},
                                               {0.71, "two thirds of the way"},
                                               {0.82, "three quarters of the way"}}};

std::string_view stretch_name(double fraction) {
    const auto* found = std::find_if(stretches.begin(), stretches.end(),
                                     [&](const Stretch& s) { return fraction <= s.to; });
    return found == stretches.end() ? "near the hole" : found->name;
}

bool rounds_to_nothing(double length_m, const Units& units) {
    return format_length(length_m, units) == format_length(0.0, units);
}

// The lengths at which two sides count as alike and one figure, the smaller, stands for both.
bool alike(double a, double b) {
    return std::max(a, b) <= 1.25 * std::min(a, b) + slack;
}

std::string least(const Units& units) {
    return units.metric ? "1 cm" : "¼ in";
}

std::string line_room(double right_m, double left_m, const Units& units) {
    if (!alike(right_m, left_m)) {
        return fmt::format("{} right to {} left", format_length(right_m, units),
                           format_length(left_m, units));
    }
    const double both_m = std::min(right_m, left_m);
    if (rounds_to_nothing(both_m, units)) return fmt::format("under {} either side", least(units));
    return format_length(both_m, units) + " either side";
}

}  // namespace

std::string as_sentence(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

std::string direction_words(double start_angle_rad, double distance_m, double up) {
    if (!std::isfinite(start_angle_rad) || !std::isfinite(distance_m)) return absent;
    const std::string along = std::isfinite(up) ? slope_word(up) : "";
    const bool straight = passes_by_m(start_angle_rad, distance_m) < straight_within_m - slack;
    if (straight) return along.empty() ? "Straight" : "Straight, " + along;
    const std::string across = start_angle_rad > 0.0 ? "Right to left" : "Left to right";
    return along.empty() || along == "level" ? across : across + ", " + along;
}

std::string both_sides_words(double first_offset_m) {
    return first_offset_m > 0 ? "right to left, then left to right"
                              : "left to right, then right to left";
}

std::string both_ways_words(double first_offset_m, double up) {
    const std::string along = std::isfinite(up) ? slope_word(up) : "level";
    return fmt::format("Breaks both ways: {}{}", both_sides_words(first_offset_m),
                       along == "level" ? "" : ", " + along);
}

bool runs_straight(double apex_offset_m, const Units& units) {
    return rounds_to_nothing(apex_offset_m, units);
}

std::string turn_words(const PlayerPoint& turn, double distance_m, const Units& units) {
    return fmt::format(
        "{} {} {}",
        runs_straight(turn.offset_m, units) ? "just" : format_length(turn.offset_m, units),
        turn.offset_m > 0 ? "right" : "left", stretch_name(turn.along_m / distance_m));
}

std::string half_costs_words(double first_m, double second_m, const Units& units) {
    if (!std::isfinite(first_m) || !std::isfinite(second_m)) return "";
    const double first = std::abs(first_m), second = std::abs(second_m);
    const std::string more = format_length(std::max(first, second), units);
    if (alike(first, second))
        return fmt::format("both halves cost alike: {} of aim for ½ % misread", more);
    return fmt::format("the {} half costs most: {} of aim for ½ % misread, the {} {}",
                       first > second ? "first" : "second", more,
                       first > second ? "second" : "first",
                       format_length(std::min(first, second), units));
}

std::string apex_words(double along_m, double offset_m, double distance_m, const Units& units) {
    const bool none = !std::isfinite(along_m) || !std::isfinite(offset_m) || !(distance_m > 0.0);
    if (none || runs_straight(offset_m, units)) return "none, it runs straight";
    return fmt::format("{}, {} high", stretch_name(along_m / distance_m),
                       format_length(offset_m, units));
}

std::string apex_line_words(double line_above_m, const Units& units) {
    if (!std::isfinite(line_above_m)) return "";
    return fmt::format("start line passes {} above it", format_length(line_above_m, units));
}

std::string finish_words(double past_m, const Units& units) {
    if (!std::isfinite(past_m)) return absent;
    const double inches = past_m / metres_per_inch;
    if (inches < 1.5) return "dying";
    if (!units.metric && inches >= 10.5 && inches <= 13.5) return "a foot past";
    if (std::abs(inches - 24.0) <= 0.5) return "firm";
    return format_past(past_m, units) + " past";
}

std::string entry_words(double entry_clock_h) {
    if (!std::isfinite(entry_clock_h)) return "";
    // Hours from 6, right positive, in (-6, 6].
    double right_h = 6.0 - std::fmod(entry_clock_h, 12.0);
    if (right_h <= -6.0) right_h += 12.0;
    const char* side = right_h > 0.0 ? "right" : "left";
    const double off_h = std::abs(right_h);
    if (off_h <= 0.25 + slack) return "over the front";
    if (off_h <= 1.5 + slack) return fmt::format("over the front, {} of centre", side);
    if (off_h <= 4.5 + slack) return fmt::format("over the {} side", side);
    return "over the back";
}

std::string arrival_words(double past_m, double speed_m_s, double entry_clock_h,
                          const Units& units) {
    const bool stops = std::isfinite(past_m);
    if (!stops && !std::isfinite(speed_m_s)) return absent;
    const std::string finish =
        stops ? finish_words(past_m, units) : format_speed(speed_m_s, units) + " at the hole";
    const std::string entry = entry_words(entry_clock_h);
    return entry.empty() ? finish : fmt::format("{}, in {}", finish, entry);
}

std::string level_putt_words(double level_putt_m, const Units& units) {
    const std::string figure = format_level_putt(level_putt_m, units);
    if (figure == absent) return absent;
    const auto space = figure.find(' ');
    if (space == std::string::npos) return "play it as a straight level tap";
    const std::string number = figure.substr(0, space);
    const std::string unit = figure.substr(space + 1);
    if (unit == "ft") return fmt::format("play it as a straight level {}-footer", number);
    if (unit == "m") return fmt::format("play it as a straight level {}-metre putt", number);
    return fmt::format("play it as a straight level putt of {}", figure);
}

std::string room_words(double right_m, double left_m, double short_m, double long_m,
                       const Units& units) {
    for (const double side_m : {right_m, left_m, short_m, long_m}) {
        if (!std::isfinite(side_m)) return absent;
    }
    return fmt::format("{}, {} short to {} long", line_room(right_m, left_m, units),
                       format_length(short_m, units), format_length(long_m, units));
}

std::string hole_called(const std::string& name) {
    return name.empty() || name == "hole" ? "the hole" : "hole " + printable(name);
}

std::string chance_words(double chance) {
    if (!std::isfinite(chance)) return absent;
    if (chance < 0.01) return "under 1 in 100";
    if (chance >= 0.95) return "nearly always";
    if (chance >= 0.37)
        return fmt::format("about {:.0f} in 10", std::min(9.0, std::round(chance * 10)));
    const double exact = 1.0 / chance;
    // Nobody can tell 1 in 23 from 1 in 25.
    const double step = exact < 12.5 ? 1.0 : exact < 32.5 ? 5.0 : 10.0;
    return fmt::format("about 1 in {:.0f}", std::round(exact / step) * step);
}

bool lags(double holed, double distance_m) {
    constexpr double perhaps_from_m = 25.0 * metres_per_foot, hardly_ever = 0.05;
    if (distance_m > lag_from_m + slack) return true;
    return distance_m > perhaps_from_m + slack && holed < hardly_ever;
}

std::string odds_words(double holed, double inside_3ft, double usual_leave_m, double distance_m,
                       const Units& units) {
    if (!lags(holed, distance_m)) return chance_words(holed);
    if (!std::isfinite(inside_3ft)) return absent;
    const double in_ten = std::clamp(std::round(inside_3ft * 10.0), 0.0, 10.0);
    const char* within = units.metric ? "90 cm" : "3 ft";
    const std::string lag = fmt::format("Lag: {:.0f} in 10 finish inside {}", in_ten, within);
    if (!std::isfinite(usual_leave_m)) return lag;
    const std::string leave = units.metric
                                  ? format_length(std::round(usual_leave_m * 10.0) / 10.0, units)
                                  : format_halves(usual_leave_m / metres_per_foot) + " ft";
    return fmt::format("{}, usual leave {}", lag, leave);
}

std::string odds_detail_words(double holed, double three_putt, double putts) {
    return fmt::format("{}, three-putt {}, {} putts", format_percent(holed),
                       format_percent(three_putt), format_putts(putts));
}

std::string strokes_words(double putts) {
    constexpr double noise = 0.002;
    if (!(std::abs(putts) >= noise)) return "nothing";
    return fmt::format("one stroke in {:.0f} such putts", 1 / std::abs(putts));
}

}  // namespace dewtrail
