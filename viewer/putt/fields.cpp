#include "viewer/putt/fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/reading.hpp"

namespace dewtrail {
namespace {

constexpr double foot = metres_per_foot, inch = metres_per_inch;
constexpr double most_shown_slope = 0.06;

struct Figure {
    std::string figure, unit;
};

/// '12 ft' -> '12', 'ft'. Two figures ('7 ft 1 in') stay together.
Figure split(const std::string& text) {
    const auto first = text.find(' ');
    if (first == std::string::npos || text.find(' ', first + 1) != std::string::npos)
        return {text, ""};
    return {text.substr(0, first), text.substr(first + 1)};
}

FieldState distance_state(const Setup& setup, const Units& units) {
    const double d = distance_of(setup);
    const Figure f = split(distance_figure(setup, units));
    const double step = units.metric ? 0.1 : foot, fine = units.metric ? 0.01 : inch;
    return {"Distance",
            f.figure,
            f.unit,
            d,
            units.metric ? 0.6 : 2 * foot,
            units.metric ? 12 : 40 * foot,
            step,
            fine};
}

FieldState slope_state(const Setup& setup, const Units& units) {
    const double s = slope_at_hole(setup);
    const Figure f = split(slope_figure(setup, units));
    return {"Slope", f.figure, f.unit, s, 0, most_shown_slope, 0.0025, 0.001, !setup.green};
}

FieldState clock_state(const Setup& setup) {
    const double h = bearing_hours(setup);
    const bool clock = !setup.green || clock_of(setup);
    const std::string figure = clock ? clock_figure(setup) : fmt::format("{:.0f}°", h * 30);
    return {"Ball at", figure, clock ? "o’clock" : "", h, 0, 12, 1.0 / 12, 1.0 / 60};
}

FieldState finish_state(const Setup& setup, const Units& units) {
    const Finish& finish = setup.finish;
    if (finish.kind == Finish::Kind::hole_speed) {
        const Figure f = split(format_speed(finish.value, units));
        return {"Finish", f.figure, f.unit + " at hole", finish.value, 0, 2, 0.1, 0.02};
    }
    const Figure f = split(past_figure(setup, units));
    const double step = units.metric ? 0.02 : inch;
    return {"Finish",
            f.figure,
            f.unit + " past",
            finish.value,
            0,
            units.metric ? 0.75 : 30 * inch,
            step,
            step / (units.metric ? 2 : 4)};
}

FieldState grade_state(double grade, const char* plus, const char* minus, const Setup& setup) {
    const bool level = std::abs(grade) < 0.00125;
    const char* side = level ? "" : grade > 0 ? plus : minus;
    const Figure f = split(format_slope(std::abs(grade)));
    return {level ? plus : side, f.figure, f.unit, grade,       -most_shown_slope,
            most_shown_slope,    0.0025,   0.001,  !setup.green};
}

/// '1.6 °': figure and unit part at the blank.
std::string spaced_degrees(double deg) {
    std::string text = format_given_degrees(deg);
    return text.insert(text.find("°"), " ");
}

FieldState spread_state(const Spread& spread, Field field, const Units& units) {
    const auto state = [](const char* label, const std::string& text, double value, double most,
                          double step, double fine) {
        const Figure f = split(text);
        return FieldState{label, f.figure, f.unit, value, 0, most, step, fine, true, true};
    };
    switch (field) {
        case Field::spread_line:
            return state("Start line", spaced_degrees(spread.line_deg), spread.line_deg, 5, 0.1,
                         0.05);
        case Field::spread_pace:
            return state("Pace", format_given_percent(spread.pace), spread.pace, 0.4, 0.01, 0.005);
        case Field::spread_floor: {
            const double step = units.metric ? 0.02 : inch;
            return state("Pace floor", format_length(spread.pace_floor_m, units),
                         spread.pace_floor_m, units.metric ? 0.4 : 16 * inch, step, step / 4);
        }
        case Field::spread_slope:
            return state("Slope read", format_given_percent(spread.slope_read), spread.slope_read,
                         0.02, 0.0025, 0.0005);
        default:
            return state("Fall read", spaced_degrees(spread.fall_read_deg), spread.fall_read_deg,
                         30, 1, 0.5);
    }
}

bool is_spread(Field field) {
    return field >= Field::spread_line && field <= Field::spread_fall;
}

void set_spread(Spread& s, Field field, double value) {
    const auto within = [&](double most) { return std::clamp(value, 0.0, most); };
    switch (field) {
        case Field::spread_line:
            s.line_deg = within(most_line_deg);
            return;
        case Field::spread_pace:
            s.pace = within(most_pace);
            return;
        case Field::spread_floor:
            s.pace_floor_m = within(most_pace_floor_m);
            return;
        case Field::spread_slope:
            s.slope_read = within(most_slope_read);
            return;
        default:
            s.fall_read_deg = within(most_fall_read_deg);
    }
}

double typed_spread(Field field, std::string_view text, const Units& units) {
    switch (field) {
        case Field::spread_line:
            return parse_line_spread_deg(text);
        case Field::spread_pace:
            return parse_pace_spread(text);
        case Field::spread_floor:
            return parse_pace_floor_m(text, units);
        case Field::spread_slope:
            return parse_slope_read(text);
        default:
            return parse_fall_read_deg(text);
    }
}

/// With all digits, to be edited: the figure shown is rounded.
std::string spread_in_full(const FieldState& f, Field field, const Units& units) {
    switch (field) {
        case Field::spread_line:
        case Field::spread_fall:
            return fmt::format("{:.4g}°", f.value);
        case Field::spread_floor:
            return units.metric ? fmt::format("{:.4g} cm", 100 * f.value)
                                : fmt::format("{:.4g} in", f.value / inch);
        default:
            return fmt::format("{:.4g} %", 100 * f.value);
    }
}

int row_index(Field field) {
    return (static_cast<int>(field) - static_cast<int>(Field::row0_up)) / 2;
}
bool is_row(Field field) {
    return field >= Field::row0_up;
}
bool is_up(Field field) {
    return field == Field::up || field == Field::row0_up || field == Field::row1_up ||
           field == Field::row2_up;
}

AlongAcross grades(const Setup& setup, Field field) {
    return is_row(field) ? row(setup, row_index(field)) : along_across(setup);
}

void set_grade(Setup& setup, Field field, double value) {
    AlongAcross g = grades(setup, field);
    (is_up(field) ? g.up : g.falls_left) = value;
    if (is_row(field))
        set_row(setup, row_index(field), g);
    else
        set_along_across(setup, g);
}

/// A grade with its way: 'down 1%', '1% left', '-1'; no way said keeps the present one.
double typed_grade(std::string_view text, bool along, double now) {
    std::string plain = plain_text(text);
    double sign = now < 0 ? -1 : 1;
    const std::string_view plus = along ? "up" : "left", minus = along ? "down" : "right";
    if (drop_beginning(plain, plus) || drop_ending(plain, plus)) sign = 1;
    if (drop_beginning(plain, minus) || drop_ending(plain, minus) || drop_beginning(plain, "-"))
        sign = -1;
    return sign * std::abs(parse_level_reading(plain, along ? "along" : "across").slope);
}

Finish typed_finish(std::string_view text, const Units& units) {
    const std::string plain = plain_text(text);
    if (plain.find("/s") != std::string::npos)
        return Finish::hole_speed(parse_hole_speed_m_s(plain, units));
    return Finish::past(parse_past_m(plain, units));
}

}  // namespace

double FieldState::share() const {
    return std::clamp((value - least) / (most - least), 0.0, 1.0);
}

FieldState field_state(const Setup& setup, Field field, const Units& units) {
    switch (field) {
        case Field::distance:
            return distance_state(setup, units);
        case Field::slope:
            return slope_state(setup, units);
        case Field::ball_at:
            return clock_state(setup);
        case Field::stimp:
            return {"Stimp", stimp_figure(setup, units), "ft", setup.stimp_ft, 6, 15, 0.5, 0.1};
        case Field::finish:
            return finish_state(setup, units);
        default:
            break;
    }
    if (is_spread(field)) return spread_state(setup.spread, field, units);
    const AlongAcross g = grades(setup, field);
    return is_up(field) ? grade_state(g.up, "up", "down", setup)
                        : grade_state(g.falls_left, "falls left", "falls right", setup);
}

std::vector<Field> strip_fields(SlopeFace face) {
    if (face == SlopeFace::along_across)
        return {Field::distance, Field::up,    Field::falls_left,
                Field::ball_at,  Field::stimp, Field::finish};
    return {Field::distance, Field::slope, Field::ball_at, Field::stimp, Field::finish};
}

std::vector<Field> row_fields() {
    return {Field::row0_up,   Field::row0_left, Field::row1_up,
            Field::row1_left, Field::row2_up,   Field::row2_left};
}

std::vector<Field> spread_fields() {
    return {Field::spread_line, Field::spread_pace, Field::spread_floor, Field::spread_slope,
            Field::spread_fall};
}

void set_field(Setup& setup, Field field, double value) {
    if (is_spread(field)) return set_spread(setup.spread, field, value);
    switch (field) {
        case Field::distance:
            return set_distance(setup, value);
        case Field::slope:
            return set_slope(setup, value);
        case Field::ball_at:
            return set_clock(setup, value);
        case Field::stimp:
            return set_stimp(setup, value);
        case Field::finish:
            return set_finish(setup, {setup.finish.kind, value});
        default:
            return set_grade(setup, field, value);
    }
}

void type_field(Setup& setup, Field field, std::string_view text, const Units& units) {
    if (setup.typed.metric != units.metric) setup.typed = {.metric = units.metric};
    TypedWords& typed = setup.typed;
    switch (field) {
        case Field::distance:
            set_distance(setup, parse_distance_m(text, units));
            typed.distance = as_typed(text, units.metric ? "m" : "ft");
            return;
        case Field::slope:
            set_slope(setup, parse_slope(text));
            if (!setup.green) typed.slope = as_typed(text, "%");
            return;
        case Field::ball_at:
            set_clock(setup, parse_clock_h(text, "ball at"));
            typed.clock = text;
            return;
        case Field::stimp:
            set_stimp(setup, parse_stimp_ft(text));
            typed.stimp = as_typed(text, "");
            return;
        case Field::finish:
            set_finish(setup, typed_finish(text, units));
            typed.finish = as_typed(text, units.metric ? "cm" : "in");
            return;
        default:
            break;
    }
    if (is_spread(field)) return set_spread(setup.spread, field, typed_spread(field, text, units));
    const AlongAcross g = grades(setup, field);
    set_grade(setup, field, typed_grade(text, is_up(field), is_up(field) ? g.up : g.falls_left));
}

std::string typed_value(const Setup& setup, Field field, const Units& units) {
    const FieldState f = field_state(setup, field, units);
    if (field == Field::ball_at) return f.figure;
    if (is_spread(field)) return spread_in_full(f, field, units);
    if (field == Field::finish && setup.finish.kind == Finish::Kind::hole_speed)
        return fmt::format("{} {}", f.figure, f.unit.substr(0, f.unit.find(' ')));
    if (field == Field::finish)
        return f.unit == " past" ? f.figure : f.figure + " " + f.unit.substr(0, 2);
    const std::string way =
        is_up(field) || field == Field::falls_left || is_row(field)
            ? (is_up(field) ? (f.value < 0 ? "down " : "up ") : (f.value < 0 ? "right " : "left "))
            : "";
    return way + (f.unit.empty() ? f.figure : f.figure + " " + f.unit);
}

bool step_field(Setup& setup, Field field, double steps, bool fine, const Units& units) {
    const FieldState f = field_state(setup, field, units);
    if (!f.enabled) return false;
    // Clock steps count in minutes from where the ball is; lengths land on whole steps.
    const double value = snapped(f.value, f.fine_step) + steps * (fine ? f.fine_step : f.step);
    set_field(setup, field, field == Field::ball_at ? on_the_dial(value) : value);
    return true;
}

void move_field(Setup& setup, Field field, double share, const Units& units) {
    const FieldState f = field_state(setup, field, units);
    if (f.enabled)
        set_field(
            setup, field,
            std::clamp(snapped(f.least + share * (f.most - f.least), f.step), f.least, f.most));
}

double snapped(double value, double step) {
    return std::round(value / step) * step;
}

const char* field_name(Field field) {
    static constexpr const char* names[] = {
        "distance", "slope",       "up",          "falls-left",   "ball-at",      "stimp",
        "finish",   "spread-line", "spread-pace", "spread-floor", "spread-slope", "spread-fall",
        "ball-up",  "ball-left",   "half-up",     "half-left",    "hole-up",      "hole-left"};
    return names[static_cast<int>(field)];
}

}  // namespace dewtrail
