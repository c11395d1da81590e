#include "greens/level_value.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <string>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "greens/number.hpp"

namespace dewtrail {
namespace {

constexpr std::string_view slope_examples = "2%, 1.1deg, 1:40, 6mm/60cm or 1.6deg/-0.9deg";

bool is_length(Unit unit) {
    return to_metres(1.0, unit, 0.0).has_value();
}

double as_slope(double number, Unit unit) {
    if (unit == Unit::percent) return number / 100.0;
    return std::abs(number) < 45.0 ? std::tan(number * std::numbers::pi / 180.0)
                                   : std::copysign(1.0, number);
}

void check_steepness(double slope, std::string_view shown, const Subject& subject,
                     std::string_view hint = "") {
    if (std::abs(slope) <= putt_range::slope.most) return;
    throw InputError(fmt::format("{} {} is outside 0-20 %{}", subject.what, shown, hint),
                     fmt::format("write it like {}", subject.examples));
}

double single_slope(std::string_view text, const Subject& subject) {
    Term term = read_term(text, subject);
    if (term.unit == Unit::none) {
        term.unit = Unit::percent;
        term.shown += " %";
    }
    if (term.unit != Unit::percent && term.unit != Unit::degree) {
        refuse(subject, text, "is not a slope");
    }
    const double slope = as_slope(term.number, term.unit);
    const double likely = term.number < 200.0 ? term.number / 10.0 : term.number / 100.0;
    const bool hint = term.unit == Unit::percent && likely / 100.0 <= putt_range::slope.most;
    check_steepness(slope, term.shown, subject,
                    hint ? fmt::format("; is it {:.3g} %?", likely) : "");
    return slope;
}

// rise:run, plain numbers.
double ratio_slope(std::string_view plain, std::size_t colon, std::string_view text,
                   const Subject& subject) {
    const Term rise = read_term(plain.substr(0, colon), subject);
    const Term run = read_term(plain.substr(colon + 1), subject);
    if (rise.unit != Unit::none || run.unit != Unit::none || run.number == 0.0) {
        refuse(subject, text, "is not rise:run");
    }
    const double slope = rise.number / run.number;
    check_steepness(slope, plain, subject);
    return slope;
}

// Where the two parts of a shim or of a pair meet: a '/' that is neither in a fraction nor in m/s.
std::size_t find_divider(std::string_view plain) {
    const bool signed_text = plain.find_first_of("+-") != plain.npos;
    for (std::size_t at = plain.find('/'); at != plain.npos; at = plain.find('/', at + 1)) {
        const char before = at > 0 ? plain[at - 1] : ' ';
        const char after = at + 1 < plain.size() ? plain[at + 1] : ' ';
        const bool fraction = before >= '0' && before <= '9' && after >= '0' && after <= '9';
        if ((!fraction || signed_text) && after != 's') return at;
    }
    return plain.npos;
}

double shim_slope(const Term& shim, const Term& level, std::string_view text,
                  const Subject& subject) {
    if (!is_length(level.unit) || level.number == 0.0) {
        refuse(subject, text, "is not a shim under a level", "write it like 6mm/60cm");
    }
    const double slope =
        *to_metres(shim.number, shim.unit, 0.0) / *to_metres(level.number, level.unit, 0.0);
    check_steepness(slope, fmt::format("{}/{}", shim.shown, level.shown), subject);
    return slope;
}

struct SignedTerm {
    Term term;
    double sign;

    double value() const { return sign * term.number; }
};

SignedTerm read_signed(std::string_view text, const Subject& subject) {
    const std::string plain = plain_text(text);
    const bool has_sign = !plain.empty() && (plain[0] == '-' || plain[0] == '+');
    const double sign = has_sign && plain[0] == '-' ? -1.0 : 1.0;
    return {read_term(std::string_view(plain).substr(has_sign ? 1 : 0), subject), sign};
}

SlopeReading average(SignedTerm first, SignedTerm second, std::string_view text,
                     const Subject& subject) {
    // A unit written once holds for both.
    if (first.term.unit == Unit::none) first.term.unit = second.term.unit;
    if (second.term.unit == Unit::none) second.term.unit = first.term.unit;
    const Unit unit = first.term.unit == Unit::none ? Unit::percent : first.term.unit;
    if (first.term.unit != second.term.unit || (unit != Unit::percent && unit != Unit::degree)) {
        refuse(subject, text, "is not a pair of readings in one unit");
    }
    if (first.value() * second.value() > 0.0) {
        refuse(subject, text, "has the same sign twice",
               "a level turned end for end shows the other sign: 1.6deg/-0.9deg");
    }
    const double slope = as_slope((first.value() - second.value()) / 2.0, unit);
    check_steepness(slope, fmt::format("'{}'", text), subject);
    return {slope + 0.0, as_slope((first.value() + second.value()) / 2.0, unit)};
}

SlopeReading split_reading(std::string_view plain, std::size_t divider, std::string_view text,
                           const Subject& subject) {
    const SignedTerm first = read_signed(plain.substr(0, divider), subject);
    const SignedTerm second = read_signed(plain.substr(divider + 1), subject);
    if (!is_length(first.term.unit)) return average(first, second, text, subject);
    if (first.sign < 0.0 || second.sign < 0.0) refuse(subject, text, "is negative");
    return {shim_slope(first.term, second.term, text, subject), {}};
}

}  // namespace

SlopeReading parse_level_reading(std::string_view text, std::string_view what) {
    const Subject subject{what, slope_examples};
    const std::string plain = plain_text(text);
    const std::size_t colon = plain.find(':');
    const std::size_t divider = find_divider(plain);
    if (colon != plain.npos) return {ratio_slope(plain, colon, text, subject), {}};
    if (divider != plain.npos) return split_reading(plain, divider, text, subject);
    return {single_slope(text, subject), {}};
}

}  // namespace dewtrail
