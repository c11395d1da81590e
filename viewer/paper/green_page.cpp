#include "viewer/paper/green_page.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/picture/map/green_map.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {

Picture green_page(const Green& green, const std::string& hole, Paper paper, const Units& units) {
    const bool small = paper == Paper::pocket;
    GreenMap map = map_of(green, hole);
    // Paper shows finer lines; a pocket's has no room for spots to practise from.
    map.ground.lines_apart_u = 42;
    if (small) std::erase_if(map.places, [](const GreenPlace& place) { return !place.hole; });
    const auto head = [&](int scale) {
        return PageHead{printable(green.name),
                        fmt::format("stimp {}   ·   heights from {}", format_stimp(green.stimp_ft),
                                    hole_called(hole)),
                        scale, false};
    };
    const double legend_size = small ? 9.5 : 13, legend_height = small ? 56 : 44;
    Rect pane = Page(paper, head(1), units).body().grown(small ? -8 : -24);
    pane.h -= legend_height;
    const Box box = box_round(green.outline.corners());
    const int scale = fitting_scale(box.size(), {pane.w, pane.h}, small ? round_scale : 12);
    Page page(paper, head(scale), units);
    PlanCamera camera;
    camera.centre_m = box.middle();
    camera.centre_px = pane.centre();
    camera.px_per_m = units_per_m / scale;
    Look look = page.look();
    if (small) look.layout.scale = 0.5, look.layout.text = 1.6;  // small marks, the same letters
    Rect above = page.body();
    above.h -= legend_height;
    add_green_map(page.picture(), map, camera, above, look);
    page.paragraph({above.x, above.bottom() + 20}, legend_of(map, camera, look), Face::sans,
                   legend_size, look.colours.ink2, above.w);
    return page.take();
}

}  // namespace dewtrail
