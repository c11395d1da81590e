#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "greens/units.hpp"

/// How a missed putt ended, in a player's words.
namespace dewtrail {

/// Where a ball stopped: '2ft past 6in left', '18in short', '2ft' (only how far). Bare: in or cm.
struct Leave {
    std::optional<double> past_m, right_m, left_m;
};
Leave parse_leave(std::string_view text, const Units& units);
std::string leave_text(const Leave& leave, const Units& units);

/// 'long, low' -> 'low long'. Throws InputError for any other word and for both of a pair.
std::string parse_missed(std::string_view text);

/// The words of a text in lower case, commas taken for spaces.
std::vector<std::string> words_of(std::string_view text);

}  // namespace dewtrail
