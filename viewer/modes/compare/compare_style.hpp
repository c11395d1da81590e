#pragma once

#include <cstddef>

#include "viewer/picture/palette.hpp"

namespace dewtrail {

/// How putts that are compared are told apart, in grey too: solid green, heather dashes, copper
/// long dashes, ink dots. Units of the design.
struct CompareStyle {
    double dash, gap, width;
};

inline const CompareStyle& compare_style(std::size_t putt) {
    static constexpr CompareStyle styles[] = {{0, 0, 5}, {11, 8, 4}, {15, 6, 2.4}, {2.5, 7, 3}};
    return styles[putt];
}

inline Colour compare_colour(std::size_t putt, const Palette& c) {
    const Colour colours[] = {c.trail, c.heather, c.copper, c.ink};
    return colours[putt];
}

/// Of strokes that were played by who sees this part of the break.
inline Colour played_colour(double share_of_break, const Palette& c) {
    return compare_colour(share_of_break < 1 ? 1 : 0, c);
}

/// On paper, where a trail's own colour is as dark as dusk.
inline Colour colour_on_paper(std::size_t putt, const Palette& c) {
    return putt == 0 ? c.wet_green : compare_colour(putt, c);
}

}  // namespace dewtrail
