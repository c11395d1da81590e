#pragma once

#include <algorithm>
#include <cmath>

#include "viewer/picture/palette.hpp"

namespace dewtrail {

inline double linear(std::uint8_t value) {
    const double v = value / 255.0;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

inline double luminance(Colour c) {
    return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

/// Contrast ratio of two opaque colours, 1 to 21 (WCAG 2.1, relative luminance of sRGB). Text wants
/// 4.5, large text and marks that carry meaning 3.
inline double contrast(Colour a, Colour b) {
    const auto [dark, light] = std::minmax({luminance(a), luminance(b)});
    return (light + 0.05) / (dark + 0.05);
}

}  // namespace dewtrail
