#include "viewer/text/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

struct Direction {
    std::string_view word;
    double PlacedReading::*along_or_across;
    double sign;
};

constexpr std::array directions = {Direction{"up", &PlacedReading::up, 1.0},
                                   Direction{"down", &PlacedReading::up, -1.0},
                                   Direction{"left", &PlacedReading::falls_left, 1.0},
                                   Direction{"right", &PlacedReading::falls_left, -1.0}};

const Direction* take_direction(std::string& part) {
    for (const Direction& direction : directions) {
        if (drop_beginning(part, direction.word)) return &direction;
    }
    return nullptr;
}

void note_error(PlacedReading& reading, const std::optional<double>& error) {
    if (!error) return;
    if (!reading.instrument_error || std::abs(*error) > std::abs(*reading.instrument_error)) {
        reading.instrument_error = error;
    }
}

std::optional<double> parse_place_m(std::string_view place, const Units& units,
                                    const Subject& subject) {
    if (place == "hole") return std::nullopt;
    if (place == "ball") return 0.0;
    const std::string what = fmt::format("{} place", subject.what);
    const double at_m = parse_level_roll_m(place, units, what);
    if (at_m > 40.0) {
        throw InputError(fmt::format("{} {} is outside 0-40 m", what, place),
                         fmt::format("write it like {}", subject.examples));
    }
    return at_m;
}

/// One slope or two, each up or down or to a side.
void read_directions(PlacedReading& reading, std::vector<std::string> parts, std::string_view text,
                     const Subject& subject) {
    double PlacedReading::*taken = nullptr;
    if (parts.size() > 2) refuse(subject, text, "is more than two slopes");
    for (std::string& part : parts) {
        const Direction* direction = take_direction(part);
        if (!direction) refuse(subject, text, "has a slope without up, down, left or right");
        if (direction->along_or_across == taken) refuse(subject, text, "says one direction twice");
        taken = direction->along_or_across;
        const SlopeReading level =
            parse_level_reading(part, fmt::format("{} {}", subject.what, direction->word));
        reading.*taken = level.slope == 0.0 ? 0.0 : direction->sign * level.slope;
        note_error(reading, level.instrument_error);
    }
}

}  // namespace

PlacedReading parse_along_across(std::string_view text, const Subject& subject) {
    PlacedReading reading;
    read_directions(reading, split_at_commas(plain_text(text)), text, subject);
    return reading;
}

PlacedReading parse_line_reading(std::string_view text, const Units& units, std::string_view what) {
    const Subject subject{what, "'0,up 1%,left 2%' or 'hole,down 0.5%'"};
    std::vector<std::string> parts = split_at_commas(plain_text(text));
    if (parts.size() < 2 || parts.size() > 3) {
        refuse(subject, text, "is not a place and one or two slopes");
    }
    PlacedReading reading;
    reading.at_m = parse_place_m(parts[0], units, subject);
    parts.erase(parts.begin());
    if (parts.size() == 1 && (parts[0] == "level" || parts[0] == "flat")) return reading;
    read_directions(reading, std::move(parts), text, subject);
    return reading;
}

}  // namespace dewtrail
