#include "viewer/paper/screen.hpp"

#include <cmath>

#include "viewer/paper/sheet.hpp"

namespace dewtrail {

std::string screen_png(Mode& mode) {
    const TextWidth width = paper_width();
    mode.wait_until_settled();
    // The ground keeps clear of what is drawn above it, which the first frame places.
    mode.frame(width);
    mode.forget_ground();
    const Frame frame = mode.frame(width);
    const Layout& l = mode.layout();
    Picture picture;
    add_rect(picture, {0, 0, l.width, l.height}, palette(mode.theme()).paper);
    picture.push_back(
        Clip{{l.green.x, l.green.y, std::ceil(l.green.w), l.setup_strip.bottom() - l.green.y}});
    append(picture, frame.ground);
    picture.push_back(Clip{});
    append(picture, frame.picture);
    return sheet_png({{l.width, l.height}, std::move(picture)});
}

}  // namespace dewtrail
