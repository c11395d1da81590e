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
/// - tour: fitted to Broadie's one-putt shares, expected putts and 10-footers short, stimp 11,
///   averaged over the clock on slopes of 1 and 2 %; the fall's direction, which such averages do
///   not tell, to his five points between 8-footers up and down.
/// - middle: pace, floor and slope read by product convention, fall read so that the direction of a
///   slope is seen as much worse as the line is; line fitted so that half the 5-footers drop
///   (golfers of 90 strokes, Broadie 2014), stimp 10, same slopes.
/// - low and high: on the geometric line through tour and middle, where half drop from 6.7 and 3.9
///   ft: the published 8 ft (tour, about 71 strokes) and 5 ft (90), drawn on geometrically to 78
///   and 100 strokes. No data of their own.
inline constexpr std::array<SpreadPreset, 4> spread_presets{{
    {"tour", {1.06, 0.088, 0.2 * metres_per_foot, 0.002, 8}, 8.0},
    {"low", {1.27, 0.107, 0.24 * metres_per_foot, 0.0029, 7.1}, 6.7},
    {"middle", {1.65, 0.14, 0.3 * metres_per_foot, 0.005, 6}, 5.0},
    {"high", {2.02, 0.172, 0.36 * metres_per_foot, 0.0075, 5.3}, 3.9},
}};

/// All of them, to choose from.
std::vector<NamedSpread> named_presets();

/// By name; none for a word that is no preset.
std::optional<Spread> find_spread(std::string_view name);

/// What an older player's file holds, in today's terms: where it is one of the presets of a time
/// before, the preset of that name; else as it is, the fall's direction seen without error.
Spread renewed(Spread spread);

/// The preset nearest to a handicap: tour below 0, low to 11, middle to 22, high beyond.
const SpreadPreset& preset_for_handicap(double handicap);

}  // namespace dewtrail
