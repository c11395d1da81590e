#include "viewer/text/aim.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "greens/measure.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

using Named = std::pair<std::string_view, double>;

// How players count an aim, inches from the centre (common practice, no source).
constexpr double centre_below_in = 0.5;
constexpr double inside_to_in = 1.25;
constexpr double inside_edge_to_in = 1.75;
constexpr double edge_to_in = 2.5;
constexpr double cups_from_in = 4.5;  // what is told as 5 in
constexpr double cups_to_in = 30.0;
constexpr double slack_in = 1e-9;  // a bound given in metres stays on its own side

enum class AimKind { centre, inside, inside_edge, edge, laid, length };

// An aim as people say it, without its side.
struct Call {
    AimKind kind;
    double count = 0.0;          // laid: how many, in halves
    std::string_view name = {};  // laid: of what
};

struct Measure {
    std::string_view name;
    double width_m;
};

constexpr Measure cup{"cup", cup_width_m};
constexpr Measure ball{"ball", ball_width_m};
constexpr Measure putter_head{"putter head", putter_head_m};

Call lay(double inches, const Measure& measure) {
    const double outside_m = inches * metres_per_inch - hole_radius_m;
    const double count = std::round(2.0 * outside_m / measure.width_m + 1e-9) / 2.0;
    return count > 0.0 ? Call{AimKind::laid, count, measure.name} : Call{AimKind::edge};
}

Call call_inside(double inches) {
    if (inches <= inside_to_in + slack_in) return {AimKind::inside};
    return {inches <= inside_edge_to_in + slack_in ? AimKind::inside_edge : AimKind::edge};
}

Call call_in_words(double inches) {
    const bool in_cups = inches >= cups_from_in - slack_in && inches <= cups_to_in + slack_in;
    return in_cups ? lay(inches, cup) : Call{AimKind::length};
}

Call call(double offset_m, AimUnit unit) {
    const double inches = std::abs(offset_m) / metres_per_inch;
    if (inches < centre_below_in - slack_in) return {AimKind::centre};
    if (unit == AimUnit::words) return call_in_words(inches);
    if (unit == AimUnit::inches || unit == AimUnit::centimetres) return {AimKind::length};
    if (inches <= edge_to_in + slack_in) return call_inside(inches);
    return lay(inches, unit == AimUnit::cups ? cup : unit == AimUnit::balls ? ball : putter_head);
}

constexpr std::array<std::string_view, 13> number_words = {
    "",      "one",   "two",  "three", "four",   "five",  "six",
    "seven", "eight", "nine", "ten",   "eleven", "twelve"};

// 'half a ball', 'a ball', 'one and a half cups', 'three cups'; figures past twelve.
std::string count_in_words(double count, std::string_view name, std::string_view plural) {
    if (count == 0.5) return fmt::format("half a {}", name);
    if (count == 1.0) return fmt::format("{} {}", name == cup.name ? "one" : "a", name);
    if (count >= 13.0) return fmt::format("{} {}", format_halves(count), plural);
    const double whole = std::floor(count);
    return fmt::format("{}{} {}", number_words[static_cast<std::size_t>(whole)],
                       count > whole ? " and a half" : "", plural);
}

std::string count_in_words(double count, std::string_view name) {
    return count_in_words(count, name, fmt::format("{}s", name));
}

std::string length_in_words(double offset_m, const Units& units, AimUnit unit) {
    const double inches = std::abs(offset_m) / metres_per_inch;
    if (unit == AimUnit::words && inches < cups_from_in) return format_aim(offset_m, units);
    if (unit == AimUnit::inches) {
        return format_quarters(inches < 2.875 ? inches : std::round(inches)) + " in";
    }
    if (unit == AimUnit::centimetres) return format_aim(offset_m, {.metric = true});
    if (units.metric) return format_aim(std::round(std::abs(offset_m) * 10.0) / 10.0, units);
    return count_in_words(std::round(std::abs(offset_m) / metres_per_foot * 2.0) / 2.0, "foot",
                          "feet");
}

constexpr std::array<Named, 17> spoken_counts = {{{"half a", 0.5},
                                                  {"half", 0.5},
                                                  {"a half", 0.5},
                                                  {"a", 1.0},
                                                  {"an", 1.0},
                                                  {"one", 1.0},
                                                  {"two", 2.0},
                                                  {"three", 3.0},
                                                  {"four", 4.0},
                                                  {"five", 5.0},
                                                  {"six", 6.0},
                                                  {"seven", 7.0},
                                                  {"eight", 8.0},
                                                  {"nine", 9.0},
                                                  {"ten", 10.0},
                                                  {"eleven", 11.0},
                                                  {"twelve", 12.0}}};

std::optional<double> read_count(std::string words) {
    const double half = drop_ending(words, " and a half") ? 0.5 : 0.0;
    for (const auto& [word, count] : spoken_counts) {
        if (word == words) return count + half;
    }
    std::string_view rest = words;
    double count = 0.0;
    if (!take_number(rest, count) || !rest.empty() || half > 0.0) return std::nullopt;
    return count;
}

// Removes the side from the words and returns it: +1 right, -1 left, 0 none.
double take_edge_side(std::string& plain) {
    for (const auto& [word, sign] : {Named{"right", 1.0}, Named{"left", -1.0}}) {
        if (drop_ending(plain, word)) return sign;
        if (!drop_ending(plain, fmt::format("{} edge", word))) continue;
        plain += plain.empty() ? "edge" : " edge";
        return sign;
    }
    if (drop_ending(plain, " r")) return 1.0;
    return drop_ending(plain, " l") ? -1.0 : 0.0;
}

std::optional<double> named_offset_m(std::string_view plain) {
    // Inside the rim: the middle of the stretch that the phrase covers. The edge is the rim itself.
    if (plain == "inside") return (centre_below_in + inside_to_in) / 2.0 * metres_per_inch;
    if (plain == "inside edge") return (inside_to_in + inside_edge_to_in) / 2.0 * metres_per_inch;
    if (plain == "edge") return hole_radius_m;
    return std::nullopt;
}

// 'two cups', 'half a ball': counted outside the edge.
std::optional<double> laid_offset_m(std::string plain, std::string_view text,
                                    const Subject& subject) {
    for (const auto& [word, width_m] :
         {Named{"cups", cup_width_m}, Named{"cup", cup_width_m}, Named{"balls", ball_width_m},
          Named{"ball", ball_width_m}, Named{"putter heads", putter_head_m},
          Named{"putter head", putter_head_m}}) {
        if (!drop_ending(plain, word)) continue;
        const std::optional<double> count = read_count(plain);
        if (!count) refuse(subject, text, "does not say how many");
        return hole_radius_m + *count * width_m;
    }
    return std::nullopt;
}

// 'three feet', 'half a foot': the count in figures for the grammar of lengths.
void unspell_feet(std::string& plain) {
    std::string words = plain;
    if (!drop_ending(words, " feet") && !drop_ending(words, " foot")) return;
    if (const std::optional<double> count = read_count(words)) plain = fmt::format("{}ft", *count);
}

double aim_size_m(std::string plain, std::string_view text, const Units& units,
                  const Subject& subject) {
    if (const auto named = named_offset_m(plain)) return *named;
    drop_ending(plain, " out");
    if (plain.empty() || plain == "out") refuse(subject, text, "does not say how far");
    if (const std::optional<double> laid = laid_offset_m(plain, text, subject)) return *laid;
    unspell_feet(plain);
    return parse_short_length_m(plain, units, subject.what);
}

constexpr double most_aim_m = 40;  // as long as the longest putt

}  // namespace

double parse_aim_offset_m(std::string_view text, const Units& units, std::string_view what) {
    const Subject subject{what, "'15in right', '2 cups left' or 'centre'"};
    std::string plain = plain_text(text);
    if (plain == "centre" || plain == "center" || plain == "straight" || plain == "0") return 0.0;
    const double side = take_edge_side(plain);
    if (side == 0.0) refuse(subject, text, plain.empty() ? "is empty" : "names no side");
    const double size_m = aim_size_m(plain, text, units, subject);
    if (size_m > most_aim_m) refuse(subject, text, "is more than 40 m (131 ft) out");
    return size_m == 0.0 ? 0.0 : side * size_m;
}

std::string aim_words(double offset_m, const Units& units, AimUnit unit) {
    if (!std::isfinite(offset_m)) return absent;
    const char* side = offset_m > 0.0 ? "right" : "left";
    const Call said = call(offset_m, unit);
    switch (said.kind) {
        case AimKind::centre:
            return "centre";
        case AimKind::inside:
            return fmt::format("inside {}", side);
        case AimKind::inside_edge:
            return fmt::format("inside {} edge", side);
        case AimKind::edge:
            return fmt::format("{} edge", side);
        case AimKind::laid:
            return fmt::format("{} out {}", count_in_words(said.count, said.name), side);
        case AimKind::length:
            break;
    }
    return fmt::format("{} {}", length_in_words(offset_m, units, unit), side);
}

std::string aim_echo(std::string_view text, const Units& units) {
    constexpr double same_m = 1e-9;
    const double offset_m = parse_aim_offset_m(text, units);
    const std::string words = aim_words(offset_m, units);
    if (std::abs(parse_aim_offset_m(words, units) - offset_m) < same_m) return words;
    const std::string plain = plain_text(text);
    std::string size = plain;
    take_edge_side(size);
    drop_ending(size, " out");
    if (named_offset_m(size) || laid_offset_m(size, text, {"aim", ""})) return plain;
    const std::string figure = as_typed(size, units.metric ? "cm" : "in");
    return figure.empty() ? plain : figure + (offset_m < 0 ? " left" : " right");
}

SaidAim parse_said_aim(std::string_view text, const Units& units) {
    return {parse_aim_offset_m(text, units), aim_echo(text, units)};
}

std::string SaidAim::words(const Units& units) const {
    return typed.empty() ? aim_words(offset_m, units) : typed;
}

std::string SaidAim::in_short(const Units& units) const {
    return words(units) == aim_words(offset_m, units) ? aim_short(offset_m, units) : typed;
}

std::string SaidAim::to_edit(const Units& units) const {
    return typed.empty() ? aim_as_typed(offset_m, units) : typed;
}

std::string aim_beside(double offset_m, const Units& units) {
    const std::string figure = format_aim(offset_m, units), words = aim_words(offset_m, units);
    if (words == aim_words(0, units)) return "";
    return words.starts_with(figure) ? "of the centre" : figure + " from the centre";
}

std::string aim_with_figure(double offset_m, const Units& units) {
    const std::string words = aim_words(offset_m, units), beside = aim_beside(offset_m, units);
    if (beside.empty()) return words;
    return beside.starts_with("of ") ? words + " " + beside : fmt::format("{} ({})", words, beside);
}

std::string aim_short(double offset_m, const Units& units, AimUnit unit) {
    if (!std::isfinite(offset_m)) return absent;
    const Call said = call(offset_m, unit);
    switch (said.kind) {
        case AimKind::centre:
            return "straight";
        case AimKind::inside:
            return "inside";
        case AimKind::inside_edge:
            return "in edge";
        case AimKind::edge:
            return "edge";
        case AimKind::laid:
            return fmt::format("{} {}{}", format_halves(said.count), said.name,
                               said.count > 1.0 ? "s" : "");
        case AimKind::length:
            break;
    }
    const bool in_feet = std::abs(offset_m) > cups_to_in * metres_per_inch && !units.metric;
    if (unit == AimUnit::words && in_feet)
        return format_halves(std::abs(offset_m) / metres_per_foot) + " ft";
    return length_in_words(offset_m, units, unit);
}

}  // namespace dewtrail
