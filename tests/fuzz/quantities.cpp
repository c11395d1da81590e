/// What people type: any text is a finite number inside its range, or one clear line.

#include <array>
#include <cmath>

#include "fuzz/fuzzing.hpp"
#include "greens/input_error.hpp"
#include "greens/level_value.hpp"
#include "viewer/survey/green_draft.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/reading.hpp"

using namespace dewtrail;

namespace {

const Units feet{}, metres{.metric = true};

double parse(int which, std::string_view text, const Units& units) {
    switch (which) {
        case 0:
            return parse_distance_m(text, units);
        case 1:
            return parse_past_m(text, units);
        case 2:
            return parse_short_length_m(text, units);
        case 3:
            return parse_level_roll_m(text, units);
        case 4:
            return parse_hole_speed_m_s(text, units);
        case 5:
            return parse_slope(text);
        case 6:
            return parse_stimp_ft(text);
        case 7:
            return parse_clock_h(text);
        case 8:
            return parse_angle_rad(text);
        case 9:
            return parse_time_s(text);
        case 10:
            return parse_fraction(text);
        case 11:
            return parse_aim_offset_m(text, units);
        case 12: {
            const PlacedReading reading = parse_line_reading(text, units);
            return reading.at_m.value_or(0) + reading.up + reading.falls_left;
        }
        case 13:
            return parse_spot_reading(text).norm();
        case 14:
            return parse_spot_place(text, units, {1, 2}, {3, 4}).norm();
        default:
            return parse_level_reading(text).slope;
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size < 1 || size > 200) return 0;
    const std::string_view text = fuzz::text_of(data + 1, size - 1);
    try {
        const double value = parse(data[0] & 15, text, data[0] & 16 ? metres : feet);
        fuzz::require(std::isfinite(value) && std::abs(value) < 1e4, "a quantity is in its range");
        fuzz::require(!(value == 0 && std::signbit(value)), "no quantity is minus nought");
    } catch (const InputError&) {
    }
    return 0;
}
