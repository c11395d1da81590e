#include "viewer/text/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace dewtrail {
namespace {

constexpr double inches_in_sight = 36.0;  // from here on feet and inches
constexpr double fine_inches = 3.0;       // below, quarters

// Rounding to a step first, and looking at the result, keeps '100 cm' and '12 in' from appearing
// where '1.00 m' and '1 ft' belong. The nudge lets a half that lost its last digit round as people
// expect.
double to_step(double value, double step) {
    const double steps = std::round(std::abs(value) / step * (1.0 + 1e-12));
    return steps == 0.0 ? 0.0 : std::copysign(steps * step, value);
}

std::string with_minus(double value, const std::string& size) {
    return value < 0.0 ? "−" + size : size;
}

std::string fixed(double value, int decimals) {
    const double rounded = to_step(value, std::pow(10.0, -decimals));
    return with_minus(rounded, fmt::format("{:.{}f}", std::abs(rounded), decimals));
}

std::string thin(double value, double step) {
    if (!std::isfinite(value)) return absent;
    const double rounded = to_step(value, step);
    const double whole = std::floor(std::abs(rounded));
    static constexpr std::array<std::string_view, 4> quarters = {"", "¼", "½", "¾"};
    const auto fraction = static_cast<std::size_t>(std::lround((std::abs(rounded) - whole) * 4.0));
    const std::string figure = whole > 0.0 || fraction == 0 ? fmt::format("{:.0f}", whole) : "";
    return with_minus(rounded, fmt::format("{}{}", figure, quarters[fraction]));
}

std::string feet_and_inches(double inches) {
    const double whole = std::round(inches);
    const double feet = std::floor(whole / 12.0);
    const double rest = whole - 12.0 * feet;
    if (rest == 0.0) return fmt::format("{:.0f} ft", feet);
    return fmt::format("{:.0f} ft {:.0f} in", feet, rest);
}

std::string metric_length(double length_m) {
    const double cm = to_step(length_m * 100.0, 1.0);
    return cm < 100.0 ? fmt::format("{:.0f} cm", cm) : fmt::format("{} m", fixed(length_m, 2));
}

// Inches up to `limit`, then feet and inches.
std::string imperial_length(double length_m, double limit) {
    const double inches = length_m / metres_per_inch;
    const double quarters = to_step(inches, 0.25);
    if (quarters < fine_inches) return fmt::format("{} in", format_quarters(quarters));
    const double whole = to_step(inches, 1.0);
    return whole < limit ? fmt::format("{:.0f} in", whole) : feet_and_inches(inches);
}

// Minutes on a clock face, rounded to `step`; 0:00 reads 12:00.
std::string clock_face(double clock_h, double step) {
    if (!std::isfinite(clock_h)) return absent;
    const double minutes = std::round(clock_h * 60.0 / step) * step;
    const auto wrapped = static_cast<int>(minutes - 720.0 * std::floor(minutes / 720.0));
    const int hour = wrapped / 60;
    return fmt::format("{}:{:02}", hour == 0 ? 12 : hour, wrapped % 60);
}

// To a hundredth, without the noughts at its end.
std::string hundredths(double value) {
    if (!std::isfinite(value)) return absent;
    const double rounded = to_step(value, 0.01);
    return with_minus(rounded, fmt::format("{:.10g}", std::abs(rounded)));
}

std::string paces(double length_m, const Units& units) {
    return fmt::format("{:.0f} paces", std::round(length_m / units.pace_m));
}

}  // namespace

std::string format_quarters(double value) {
    return thin(value, 0.25);
}
std::string format_halves(double value) {
    return thin(value, 0.5);
}

std::string format_distance(double distance_m, const Units& units) {
    if (!std::isfinite(distance_m)) return absent;
    const double size_m = std::abs(distance_m);
    return with_minus(to_step(distance_m, 1e-3),
                      units.metric ? metric_length(size_m) : imperial_length(size_m, 12.0));
}

std::string format_length(double length_m, const Units& units) {
    if (!std::isfinite(length_m)) return absent;
    const double size_m = std::abs(length_m);
    return units.metric ? metric_length(size_m) : imperial_length(size_m, inches_in_sight);
}

std::string format_past(double past_m, const Units& units) {
    return format_length(past_m, units);
}
std::string format_aim(double offset_m, const Units& units) {
    return format_length(offset_m, units);
}

std::string aim_as_typed(double offset_m, const Units& units) {
    const char* side = offset_m < 0 ? " left" : offset_m > 0 ? " right" : "";
    return format_aim(offset_m, units) + side;
}

std::string format_height(double height_m, const Units& units) {
    if (!std::isfinite(height_m)) return absent;
    const double step = units.metric ? 0.5 : 0.25;
    const double height = height_m / (units.metric ? 0.01 : metres_per_inch);
    const char* plus = to_step(height, step) > 0.0 ? "+" : "";
    return fmt::format("{}{} {}", plus, thin(height, step), units.metric ? "cm" : "in");
}

std::string format_slope(double slope) {
    return std::isfinite(slope) ? format_quarters(slope * 100.0) + " %" : absent;
}

std::string format_stimp(double stimp_ft) {
    return format_halves(stimp_ft);
}

std::string format_clock(double clock_h) {
    return clock_face(clock_h, 15.0);
}
std::string format_entry_clock(double clock_h) {
    return clock_face(clock_h, 1.0);
}

std::string format_speed(double speed_m_s, const Units& units) {
    if (!std::isfinite(speed_m_s)) return absent;
    return units.metric ? fixed(speed_m_s, 1) + " m/s"
                        : fixed(speed_m_s / metres_per_foot, 1) + " ft/s";
}

std::string format_time(double time_s) {
    return std::isfinite(time_s) ? fixed(time_s, 1) + " s" : absent;
}

std::string format_degrees(double angle_deg) {
    return std::isfinite(angle_deg) ? fixed(angle_deg, 1) + "°" : absent;
}

std::string format_percent(double fraction) {
    return std::isfinite(fraction) ? fixed(fraction * 100.0, 0) + " %" : absent;
}

std::string format_half_percent(double fraction) {
    return std::isfinite(fraction) ? format_halves(fraction * 100.0) + " %" : absent;
}

std::string format_given_percent(double fraction) {
    const double percent = 100.0 * fraction;
    const bool in_quarters = std::abs(percent - to_step(percent, 0.25)) < 1e-9;
    const std::string figure = in_quarters ? format_quarters(percent) : hundredths(percent);
    return figure == absent ? figure : figure + " %";
}

std::string format_given_degrees(double angle_deg) {
    const std::string figure = hundredths(angle_deg);
    return figure == absent ? figure : figure + "°";
}

std::string as_typed(std::string_view text, std::string_view unit) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    if (text.find('/') != text.npos || std::none_of(text.begin(), text.end(), is_digit)) return "";
    std::string set;
    for (const char c : text) {
        if (c == ' ') continue;
        const char before = set.empty() ? ' ' : set.back();
        const bool begins_unit = (is_letter(c) && !is_letter(before)) || c == '%';
        const bool begins_number = is_digit(c) && is_letter(before);
        if (!set.empty() && (begins_unit || begins_number)) set += ' ';
        set += c;
    }
    if (const auto deg = set.find(" deg"); deg != set.npos) set.replace(deg, 4, "°");
    const bool bare = set.find_first_not_of("0123456789.") == set.npos;
    return bare && !unit.empty() ? fmt::format("{} {}", set, unit) : set;
}

std::string format_putts(double putts) {
    return std::isfinite(putts) ? fixed(putts, 2) : absent;
}

std::string format_spot(double length_m) {
    return std::isfinite(length_m) ? fixed(length_m * 1000.0, 0) + " mm" : absent;
}

std::string format_level_putt(double level_putt_m, const Units& units) {
    if (!std::isfinite(level_putt_m)) return absent;
    const double feet = level_putt_m / metres_per_foot;
    if (feet < 0.25) return "tap";
    if (units.metric) {
        if (to_step(level_putt_m, 0.1) <= 5.0) return fixed(level_putt_m, 1) + " m";
        if (to_step(level_putt_m, 0.5) <= 9.0) return fixed(to_step(level_putt_m, 0.5), 1) + " m";
        return paces(level_putt_m, units);
    }
    if (to_step(feet, 0.5) <= 15.0) return format_halves(feet) + " ft";
    if (to_step(feet, 1.0) <= 30.0) return fixed(feet, 0) + " ft";
    return paces(level_putt_m, units);
}

}  // namespace dewtrail
