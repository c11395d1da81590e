#pragma once

#include <vector>

#include "viewer/picture/widgets/bars.hpp"

/// The player's spread on the screen: four ruled fields, and the handicaps to start from.
namespace dewtrail {

struct SpreadFields {
    const Setup& setup;
    const std::vector<NamedSpread>& presets;
    std::optional<Field> typed;
};

/// The preset that the player's spread is, by its index; none if it is the player's own.
std::optional<std::size_t> preset_of(const Spread& spread, const std::vector<NamedSpread>& presets);

/// Heading, fields two by two, presets, from `top` down; returns where that ends.
double draw_spread_fields(const Canvas& canvas, const SpreadFields& what, double left, double top,
                          double width);

/// The same on a sheet over the green, beside the note.
void draw_spread_sheet(const Canvas& canvas, const SpreadFields& what);

}  // namespace dewtrail
