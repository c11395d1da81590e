#include "viewer/putt/presets.hpp"

namespace dewtrail {

std::optional<Spread> find_spread(std::string_view name) {
    for (const SpreadPreset& preset : spread_presets)
        if (preset.name == name) return preset.spread;
    return std::nullopt;
}

const SpreadPreset& preset_for_handicap(double handicap) {
    const auto& [tour, low, middle, high] = spread_presets;
    if (handicap < 0) return tour;
    if (handicap <= 11) return low;
    return handicap <= 22 ? middle : high;
}

}  // namespace dewtrail
