#include "viewer/paper/screen.hpp"

#include <cmath>

#include "viewer/paper/picture_painter.hpp"

namespace dewtrail {
namespace {

constexpr double pixels_per_unit = 2;

void fill(Pen& pen, const Vec2& size, const Colour& colour) {
    pen.trace({{0, 0}, {size.x(), 0}, size, {0, size.y()}});
    pen.fill(colour);
}

}  // namespace

std::string screen_png(Mode& mode) {
    const TextWidth width = paper_width();
    mode.wait_until_settled();
    // The ground keeps clear of what is drawn above it, which the first frame places.
    mode.frame(width);
    mode.forget_ground();
    const Frame frame = mode.frame(width);
    const Layout& l = mode.layout();
    const Vec2 size(l.width, l.height);
    return draw_png(size, pixels_per_unit, [&](Pen& pen) {
        fill(pen, size, palette(mode.theme()).paper);
        paint(pen,
              {Clip{{l.green.x, l.green.y, std::ceil(l.green.w),
                     l.setup_strip.bottom() - l.green.y}}},
              Meshes::drawn);
        paint(pen, frame.ground, Meshes::drawn);
        paint(pen, {Clip{}}, Meshes::drawn);
        paint(pen, frame.picture, Meshes::drawn);
    });
}

}  // namespace dewtrail
