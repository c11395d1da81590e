#include "viewer/paper/screen.hpp"

#include <cmath>

#include "viewer/paper/sheet.hpp"

namespace dewtrail {

std::string screen_png(Shell& shell) {
    shell.wait_until_settled();
    const Frame frame = shell.frame(paper_width());
    const Layout& l = shell.layout();
    Picture picture;
    add_rect(picture, {0, 0, l.width, l.height}, palette(shell.appearance().theme).paper);
    picture.push_back(
        Clip{{l.green.x, l.green.y, std::ceil(l.green.w), l.setup_strip.bottom() - l.green.y}});
    append(picture, frame.ground);
    picture.push_back(Clip{});
    append(picture, frame.picture);
    return sheet_png({{l.width, l.height}, std::move(picture)});
}

}  // namespace dewtrail
