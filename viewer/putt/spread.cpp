#include "viewer/putt/spread.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

double at_most(double value, double most, std::string_view what, std::string_view text,
               const char* range) {
    if (value <= most) return value;
    throw InputError(fmt::format("{} {} is outside {}", what, text, range),
                     fmt::format("give a {} within {}", what, range));
}

double parse_degrees(std::string_view text, const Subject& subject, double most,
                     const char* range) {
    const Term term = read_term(text, subject);
    if (term.unit != Unit::none && term.unit != Unit::degree && term.unit != Unit::radian)
        refuse(subject, text, "is not an angle");
    const double deg = term.unit == Unit::radian ? term.number * degrees_per_rad : term.number;
    return at_most(deg, most, subject.what, text, range);
}

}  // namespace

Scatter scatter_of(const Spread& spread) {
    return {spread.line_deg / degrees_per_rad, spread.pace, spread.pace_floor_m, spread.slope_read,
            spread.fall_read_deg / degrees_per_rad};
}

double parse_line_spread_deg(std::string_view text) {
    return parse_degrees(text, {"line", "1.6deg"}, most_line_deg, "0-20°");
}

double parse_pace_spread(std::string_view text) {
    return parse_fraction(text, "pace spread");
}

double parse_pace_floor_m(std::string_view text, const Units& units) {
    return at_most(parse_short_length_m(text, units, "pace floor"), most_pace_floor_m, "pace floor",
                   text, "0-1 m (0-39 in)");
}

double parse_slope_read(std::string_view text) {
    return at_most(parse_slope(text, "slope read"), most_slope_read, "slope read", text, "0-5 %");
}

double parse_fall_read_deg(std::string_view text) {
    return parse_degrees(text, {"fall read", "6deg"}, most_fall_read_deg, "0-45°");
}

std::string spread_words(const Spread& spread, const Units& units) {
    return fmt::format("line {}, pace {} with {} at least, slope read {}, its fall {}",
                       format_given_degrees(spread.line_deg), format_given_percent(spread.pace),
                       format_length(spread.pace_floor_m, units),
                       format_given_percent(spread.slope_read),
                       format_given_degrees(spread.fall_read_deg));
}

}  // namespace dewtrail
