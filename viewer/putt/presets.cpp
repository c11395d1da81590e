#include "viewer/putt/presets.hpp"

namespace dewtrail {
namespace {

/// The presets of the time when only the size of a slope was misread, in the order of today's.
constexpr std::array<Spread, 4> old_presets{{{1.09, 0.094, 0.17 * metres_per_foot, 0.0035},
                                             {1.35, 0.11, 0.21 * metres_per_foot, 0.004},
                                             {1.85, 0.14, 0.3 * metres_per_foot, 0.005},
                                             {2.4, 0.17, 0.4 * metres_per_foot, 0.006}}};

}  // namespace

std::optional<Spread> find_spread(std::string_view name) {
    for (const SpreadPreset& preset : spread_presets)
        if (preset.name == name) return preset.spread;
    return std::nullopt;
}

Spread renewed(const Spread& spread) {
    for (std::size_t i = 0; i < old_presets.size(); ++i)
        if (spread == old_presets[i]) return spread_presets[i].spread;
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
