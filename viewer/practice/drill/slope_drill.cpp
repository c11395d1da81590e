#include "viewer/practice/drill/slope_drill.hpp"

#include <fmt/format.h>

#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

constexpr double degrees_per_hour = 30;

bool is_fall(int index) {
    return index % 2 == 1;
}

}  // namespace

const char* SlopeSpot::label(int index) {
    constexpr const char* labels[values] = {"You feel", "It falls toward", "The level shows",
                                            "Its low end points to"};
    return labels[index];
}

const char* SlopeSpot::example(int index) {
    return is_fall(index) ? index == 1 ? "4" : "3:30" : index == 0 ? "1.5%" : "2%";
}

void SlopeSpot::set(int index, std::string_view text) {
    value[static_cast<std::size_t>(index)] =
        is_fall(index) ? parse_clock_h(text, "fall") * degrees_per_hour : parse_slope(text);
}

SlopeSpot SlopeSpot::with(int index, std::string_view text) const {
    SlopeSpot spot = *this;
    try {
        spot.set(index, text);
    } catch (const InputError&) {
        // Half a word: what stood there before.
    }
    return spot;
}

std::optional<int> SlopeSpot::next() const {
    for (int i = 0; i < values; ++i)
        if (!value[static_cast<std::size_t>(i)]) return i;
    return std::nullopt;
}

std::string SlopeSpot::words(int index) const {
    const auto& v = value[static_cast<std::size_t>(index)];
    if (!v) return "";
    return is_fall(index) ? format_clock(*v / degrees_per_hour) : fmt::format("{:.1f} %", 100 * *v);
}

Answer SlopeSpot::answer() const {
    Answer answer;
    answer.drill = Drill::slope;
    answer.at = moment_now();
    answer.slope_said = value[0].value();
    answer.falls_said_deg = value[1].value();
    answer.slope_shown = value[2].value();
    answer.falls_shown_deg = value[3].value();
    return answer;
}

std::string slope_result_words(const Answer& answer) {
    const double off = std::remainder(*answer.falls_said_deg - *answer.falls_shown_deg, 360);
    return fmt::format("You feel {:.1f} % where it is {:.1f} %; the fall is {:.0f}° off.",
                       100 * *answer.slope_said, 100 * *answer.slope_shown, std::abs(off));
}

}  // namespace dewtrail
