#include "viewer/putt/presets.hpp"

namespace dewtrail {
namespace {

using Presets = std::array<Spread, 4>;

/// In the order of today's: of the time when only the size of a slope was misread, and of that when
/// it was misread in every direction alike.
constexpr std::array<Presets, 2> old_presets{
    {{{{1.09, 0.094, 0.17 * metres_per_foot, 0.0035, 0},
       {1.35, 0.11, 0.21 * metres_per_foot, 0.004, 0},
       {1.85, 0.14, 0.3 * metres_per_foot, 0.005, 0},
       {2.4, 0.17, 0.4 * metres_per_foot, 0.006, 0}}},
     {{{1.01, 0.081, 0.2 * metres_per_foot, 0.003, 0},
       {1.23, 0.1, 0.24 * metres_per_foot, 0.0037, 0},
       {1.66, 0.14, 0.3 * metres_per_foot, 0.005, 0},
       {2.12, 0.184, 0.36 * metres_per_foot, 0.0063, 0}}}}};

}  // namespace

std::optional<Spread> find_spread(std::string_view name) {
    for (const SpreadPreset& preset : spread_presets)
        if (preset.name == name) return preset.spread;
    return std::nullopt;
}

Spread renewed(Spread spread) {
    spread.fall_read_deg = 0;
    for (const Presets& then : old_presets)
        for (std::size_t i = 0; i < then.size(); ++i)
            if (spread == then[i]) return spread_presets[i].spread;
    return spread;
}

const SpreadPreset& preset_for_handicap(double handicap) {
    const auto& [tour, low, middle, high] = spread_presets;
    if (handicap < 0) return tour;
    if (handicap <= 11) return low;
    return handicap <= 22 ? middle : high;
}

std::vector<NamedSpread> named_presets() {
    std::vector<NamedSpread> named;
    for (const SpreadPreset& preset : spread_presets)
        named.push_back({std::string(preset.name), preset.spread});
    return named;
}

}  // namespace dewtrail
