#include "viewer/picture/palette.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

namespace dewtrail {
namespace {

constexpr Colour with_alpha(std::uint32_t hex, double alpha) {
    Colour c = rgb(hex);
    c.a = static_cast<std::uint8_t>(alpha * 255 + 0.5);
    return c;
}

std::uint8_t channel(double value) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0, 255.0)));
}

constexpr Palette dew = {
    .paper = rgb(0xF6F8F2),
    .paper2 = rgb(0xEBF0E8),
    .grass_light = rgb(0xE1EADF),
    .grass_dark = rgb(0xCBD9CC),
    .ink = rgb(0x1B2A26),
    .ink2 = rgb(0x4C5F57),
    .height_label = rgb(0x425D4E),
    .contour = rgb(0x5F7E6D),
    .trail = rgb(0x2A5946),
    .trail_soft = rgb(0x7C9F8B),
    .trail_rim = with_alpha(0x2A5946, 0),
    .wet_green = rgb(0x2C5F49),
    .copper = rgb(0x96390F),
    .heather = rgb(0x47478F),
    .rule = rgb(0xCBD6CB),
    .hole = rgb(0x14201C),
    .hole_ring = rgb(0xF6F8F2),
    .dew_dot = with_alpha(0xFFFFFF, 0.75),
    .half_second = rgb(0xE4EEE3),
    .on_button = rgb(0xF6F8F2),
    .sky_high = rgb(0xDCE6EA),
    .sky_low = rgb(0xF1F0E4),
    .far_trees = rgb(0xC3D3CB),
    .near_trees = rgb(0xAFC4B8),
    .rough = rgb(0xC0D0C0),
};

constexpr Palette dusk = {
    .paper = rgb(0x141D1E),
    .paper2 = rgb(0x192425),
    .grass_light = rgb(0x3A4B4A),
    .grass_dark = rgb(0x24312F),
    .ink = rgb(0xEDF2EA),
    .ink2 = rgb(0xB0C1B8),
    .height_label = rgb(0xB5C7BE),
    .contour = rgb(0x86A19A),
    .trail = rgb(0x0B1112),
    .trail_soft = rgb(0x0B1112),
    .trail_rim = rgb(0xC6E3D3),
    .wet_green = rgb(0x9FD0B6),
    .copper = rgb(0xF5AE7C),
    .heather = rgb(0xB3B2F2),
    .rule = rgb(0x31413F),
    .hole = rgb(0x0B1112),
    .hole_ring = rgb(0xC6E3D3),
    .dew_dot = with_alpha(0xD7EBE2, 0.26),
    .half_second = rgb(0xE4EEE3),
    .on_button = rgb(0x141D1E),
    .sky_high = rgb(0x1B2628),
    .sky_low = rgb(0x33403F),
    .far_trees = rgb(0x28363A),
    .near_trees = rgb(0x202D2F),
    .rough = rgb(0x2A3736),
};

// The palette as an array of colours, so that two can be blended without naming each twice.
using Colours = std::array<Colour, sizeof(Palette) / sizeof(Colour)>;
static_assert(sizeof(Colours) == sizeof(Palette));

}  // namespace

Colour faded(Colour colour, double share) {
    colour.a = channel(colour.a * share);
    return colour;
}

Colour blend(Colour a, Colour b, double t) {
    const auto mix = [t](std::uint8_t x, std::uint8_t y) { return channel(x + (y - x) * t); };
    return {mix(a.r, b.r), mix(a.g, b.g), mix(a.b, b.b), mix(a.a, b.a)};
}

Colour lightened(Colour colour, double share) {
    const auto lift = [share](std::uint8_t x) { return channel(x + 255 * share); };
    return {lift(colour.r), lift(colour.g), lift(colour.b), colour.a};
}

const Palette& palette(Theme theme) {
    return theme == Theme::dew ? dew : dusk;
}

Palette palette_between(double t) {
    if (t <= 0) return dew;
    if (t >= 1) return dusk;
    Colours mixed, to;
    std::memcpy(static_cast<void*>(&mixed), &dew, sizeof mixed);
    std::memcpy(static_cast<void*>(&to), &dusk, sizeof to);
    for (std::size_t i = 0; i < mixed.size(); ++i) mixed[i] = blend(mixed[i], to[i], t);
    Palette between;
    std::memcpy(static_cast<void*>(&between), &mixed, sizeof between);
    return between;
}

}  // namespace dewtrail
