#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "viewer/putt/spread.hpp"

namespace dewtrail {

/// A spread to start from until a player's own is known.
struct SpreadPreset {
    std::string_view name;
    Spread spread;
    double half_holed_ft;  ///< how far from the hole every second putt drops
};

/// Derived in the open (ODDS.md; run again by tests/published/broadie_test.cpp):
///
/// - tour: four numbers fitted to Broadie's one-putt shares and expected putts, stimp 11, averaged
///   over the clock on slopes of 1 and 2 %.
/// - middle: pace, floor and slope read by product convention; line fitted so that half the
///   5-footers drop (golfers of 90 strokes, Broadie 2014), stimp 10, same slopes.
/// - low and high: on the geometric line through tour and middle, where half drop from 6.7 and 3.9
///   ft: the published 8 ft (tour, about 71 strokes) and 5 ft (90), drawn on geometrically to 78
///   and 100 strokes. No data of their own.
inline constexpr std::array<SpreadPreset, 4> spread_presets{{
    {"tour", {1.01, 0.081, 0.2 * metres_per_foot, 0.003}, 8.0},
    {"low", {1.23, 0.1, 0.24 * metres_per_foot, 0.0037}, 6.7},
    {"middle", {1.66, 0.14, 0.3 * metres_per_foot, 0.005}, 5.0},
    {"high", {2.12, 0.184, 0.36 * metres_per_foot, 0.0063}, 3.9},
}};

/// All of them, to choose from.
std::vector<NamedSpread> named_presets();

/// By name; none for a word that is no preset.
std::optional<Spread> find_spread(std::string_view name);

/// What an older player's file holds, in today's terms: where it is one of the presets of its time,
/// the preset of that name; else as it is.
Spread renewed(const Spread& spread);

/// The preset nearest to a handicap: tour below 0, low to 11, middle to 22, high beyond.
const SpreadPreset& preset_for_handicap(double handicap);

}  // namespace dewtrail
