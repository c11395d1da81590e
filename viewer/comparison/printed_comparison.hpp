#pragma once

#include <string>
#include <vector>

#include "viewer/comparison/demonstrations.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {

/// How many times wider across than along putts are drawn, unless it was chosen otherwise.
inline constexpr int usual_stretch = 2;

/// A comparison as it is to be printed.
struct PrintedComparison {
    Comparison comparison;
    std::string title;
    std::vector<std::string> sentences;
    std::vector<PlayedPutts> played{};  ///< their misses are drawn as well
    int stretch = usual_stretch;
};

inline PrintedComparison printed(const Demonstration& shown) {
    return {shown.comparison, as_sentence(shown.title), {shown.say[0], shown.say[1]}, shown.played};
}

}  // namespace dewtrail
