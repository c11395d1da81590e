#include "viewer/text/clock_and_angle.hpp"

#include <cmath>
#include <numbers>
#include <string>

#include "greens/measure.hpp"

namespace dewtrail {
namespace {

double read_minutes(std::string_view figures, std::string_view text, const Subject& subject) {
    const bool two_digits =
        figures.size() == 2 && figures.find_first_not_of("0123456789") == figures.npos;
    double minutes = 60.0;
    if (!two_digits || !take_number(figures, minutes) || minutes >= 60.0) {
        refuse(subject, text, "has no minutes from 00 to 59");
    }
    return minutes;
}

double read_hours(std::string_view figures, std::string_view text, const Subject& subject) {
    const Term term = read_term(figures.empty() ? text : figures, subject);
    if (term.unit != Unit::none) refuse(subject, text, "is not a clock time");
    return term.number;
}

// "3:30", or "3.5" where there is no colon.
double read_clock(std::string_view plain, std::string_view text, const Subject& subject) {
    const std::size_t colon = plain.find(':');
    if (colon == plain.npos) return read_hours(plain, text, subject);
    const double minutes = read_minutes(plain.substr(colon + 1), text, subject);
    const double hours = read_hours(plain.substr(0, colon), text, subject);
    if (hours != std::floor(hours)) refuse(subject, text, "is not understood");
    return hours + minutes / 60.0;
}

// +1, -1, or 0 if no side is named; removes the word.
double take_side(std::string& plain) {
    if (drop_ending(plain, "right")) return 1.0;
    if (drop_ending(plain, "left")) return -1.0;
    return 0.0;
}

// The same from a sign in front.
double take_sign(std::string& plain) {
    if (drop_beginning(plain, "-")) return -1.0;
    if (drop_beginning(plain, "+")) return 1.0;
    return 0.0;
}

double radians(const Term& term, std::string_view text, const Subject& subject) {
    switch (term.unit) {
        case Unit::none:
        case Unit::degree:
            return term.number / 180.0 * std::numbers::pi;
        case Unit::radian:
            return term.number;
        default:
            refuse(subject, text, "is not an angle");
    }
}

}  // namespace

double parse_clock_h(std::string_view text, std::string_view what) {
    const Subject subject{what, "3, 3:30 or 10.5"};
    std::string plain = plain_text(text);
    drop_ending(plain, "o'clock");
    const double clock_h = read_clock(plain, text, subject);
    if (!(clock_h < 13.0)) refuse(subject, text, "is outside 0:00-12:59");
    const double wrapped = clock_h > 12.0 ? clock_h - 12.0 : clock_h;
    return wrapped == 0.0 ? 12.0 : wrapped;
}

double parse_angle_rad(std::string_view text, std::string_view what) {
    const Subject subject{what, "5.9, -5.9 or '5.9deg left'"};
    std::string plain = plain_text(text);
    const double side = take_side(plain);
    const double sign = take_sign(plain);
    if (side != 0.0 && sign != 0.0) refuse(subject, text, "has a sign and a side");
    const double size = radians(read_term(plain.empty() ? text : plain, subject), text, subject);
    if (size > std::numbers::pi) refuse(subject, text, "is outside -180 to 180°");
    const bool to_the_left = side + sign < 0.0;
    // No -0; and -180 and 180 are one direction, called 180.
    return to_the_left && size > 0.0 && size < std::numbers::pi ? -size : size;
}

}  // namespace dewtrail
