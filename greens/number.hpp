#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace dewtrail {

/// What a number may be, ends included. No NaN lies in it.
struct Range {
    double least, most;

    bool holds(double value) const { return value >= least && value <= most; }
};

/// What is believed of a putt, wherever it comes from: typed, from a file, or remembered.
namespace putt_range {
inline constexpr Range distance_m{0.15, 40}, slope{0, 0.2}, stimp_ft{3, 18}, past_m{0, 3},
    hole_speed_m_s{0, 3};
}

/// How far from its frame's origin anything of a green may lie, either way.
inline constexpr double green_reach_m = 200;

/// The number that a text is from end to end, with a decimal point whatever the locale; none for
/// anything else, infinity and NaN included.
std::optional<double> plain_number(std::string_view text);

/// The text, or its beginning where it is long, never ending inside a letter: a message is a line.
std::string cut(std::string_view text);

}  // namespace dewtrail
