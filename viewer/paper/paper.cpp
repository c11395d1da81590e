#include "viewer/paper/paper.hpp"

#include <algorithm>

namespace dewtrail {
namespace {

Palette print_palette() {
    Palette colours = palette(Theme::dew);
    const Colour white = rgb(0xFFFFFF);
    colours.paper = colours.paper2 = white;
    colours.grass_light = colours.grass_dark = colours.hole_ring = white;
    colours.dew_dot = faded(white, 0);
    return colours;
}

}  // namespace

Vec2 size_of(Paper paper) {
    switch (paper) {
        case Paper::letter:
            return units_per_inch * Vec2(8.5, 11);
        case Paper::pocket:
            return units_per_inch * Vec2(4.25, 7);
        default:
            return units_per_mm * Vec2(210, 297);
    }
}

Look paper_look(const Units& units, double scale) {
    Layout layout;
    layout.scale = scale;
    Look look = screen_look(units, Theme::dew, layout);
    look.colours = print_palette();
    return look;
}

Look screen_look(const Units& units, Theme theme, const Layout& layout) {
    Look look;
    look.colours = palette(theme);
    look.layout = layout;
    look.units = units;
    look.width = paper_width();
    return look;
}

Text fitted(Text text, double width, const Look& look) {
    constexpr double all_but = 0.985;  // letters grow by whole hints
    text.size *= std::min(1.0, all_but * width / look.width(text.face, text.size, text.words));
    return text;
}

}  // namespace dewtrail
