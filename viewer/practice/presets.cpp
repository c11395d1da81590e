#include "viewer/practice/presets.hpp"

#include <cmath>

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

Scatter scatter_of(const Spread& spread) {
    return {spread.line_deg * M_PI / 180, spread.pace, spread.pace_floor_m, spread.slope_read};
}

}  // namespace dewtrail
