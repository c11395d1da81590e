#include "viewer/paper/sheet.hpp"

#include "viewer/paper/picture_painter.hpp"

namespace dewtrail {
namespace {

constexpr double pixels_per_unit = 2;

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
    Look look;
    look.colours = print_palette();
    look.layout.scale = scale;
    look.units = units;
    look.width = paper_width();
    return look;
}

std::string sheet_pdf(const Sheet& sheet) {
    return draw_pdf(size_of(sheet.paper), static_cast<int>(sheet.pages.size()),
                    [&](Pen& pen, int page) { paint(pen, sheet.pages[page], Meshes::left_out); });
}

std::string sheet_svg(const Sheet& sheet, std::size_t page) {
    return draw_svg(size_of(sheet.paper),
                    [&](Pen& pen) { paint(pen, sheet.pages.at(page), Meshes::left_out); });
}

std::string sheet_png(const Sheet& sheet, std::size_t page) {
    return draw_png(size_of(sheet.paper), pixels_per_unit, [&](Pen& pen) {
        pen.trace({{0, 0},
                   {size_of(sheet.paper).x(), 0},
                   size_of(sheet.paper),
                   {0, size_of(sheet.paper).y()}});
        pen.fill(rgb(0xFFFFFF));
        paint(pen, sheet.pages.at(page), Meshes::left_out);
    });
}

}  // namespace dewtrail
