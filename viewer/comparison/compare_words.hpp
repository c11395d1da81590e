#pragma once

#include <array>
#include <string>

#include "viewer/comparison/comparison.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {

/// What makes the difference, in one sentence: the first rule that fits and is true of the numbers,
/// naming the larger cause only. Looks at a putt with an aim of its own if there is one, else at
/// the two whose breaks differ most.
std::string comparison_sentence(const Comparison& comparison, const Units& units);

/// What the swap of the aims does to both.
std::string swap_sentence(const std::array<ComparedPutt, 2>& swapped, const Units& units);

/// '+4 in from time, +1 in from the pull of the slope, −1 in from friction'.
std::string parts_words(const BreakParts& parts, const Units& units);

/// 'twice', '1½ times', 'three times', '2.3 times'.
std::string times_words(double ratio);

/// 'twice', 'a little more than twice', '2.3 times': as near as people say it.
std::string about_times_words(double ratio);

/// 'half a second', '0.3 s'.
std::string time_difference_words(double time_s);

}  // namespace dewtrail
