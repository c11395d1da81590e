#pragma once

#include <cstdint>

namespace dewtrail {

/// A colour of the screen: sRGB, 8 bits, alpha not premultiplied.
struct Colour {
    std::uint8_t r = 0, g = 0, b = 0, a = 255;

    bool operator==(const Colour&) const = default;
};

constexpr Colour rgb(std::uint32_t hex) {
    return {static_cast<std::uint8_t>(hex >> 16), static_cast<std::uint8_t>(hex >> 8),
            static_cast<std::uint8_t>(hex), 255};
}

/// The same colour at this share of its opacity, 0 to 1.
Colour faded(Colour colour, double share);

/// Between two colours, channel by channel: t = 0 is a, 1 is b.
Colour blend(Colour a, Colour b, double t);

/// Lighter or darker by a share of full scale: +0.09 is 9 % lighter.
Colour lightened(Colour colour, double share);

enum class Theme { dew, dusk };

/// The colours of one theme. Copper: what the player does. Wet green: what the ball does. Heather:
/// the player's own guess. Grey-green and ink: the ground.
struct Palette {
    Colour paper, paper2, grass_light, grass_dark;
    Colour ink, ink2, height_label, contour;
    Colour trail, trail_soft, trail_rim;  ///< the rim only shows at dusk (alpha 0 otherwise)
    Colour wet_green, copper, heather, rule, hole, hole_ring, dew_dot, half_second, on_button;
    Colour sky_high, sky_low, far_trees, near_trees, rough;  ///< of the eye view
};

const Palette& palette(Theme theme);

/// A palette between the two: 0 is dew, 1 is dusk.
Palette palette_between(double dusk);

}  // namespace dewtrail
