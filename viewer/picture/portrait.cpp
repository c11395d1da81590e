#include "viewer/picture/portrait.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

constexpr double most_note_below = 2.0 / 3;

}  // namespace

void set_note_height(Layout& layout, double height) {
    if (!layout.portrait) return;
    const double both = layout.green.h + layout.note.h;
    const double note = std::round(std::min(height, most_note_below * both));
    layout.green.h = both - note;
    layout.message = layout.green;
    layout.roll_strip.y = layout.green.bottom();
    layout.note.y = layout.note_edge.y = layout.roll_strip.bottom();
    layout.note.h = note;
}

void set_note_height_without_fields(Layout& layout, double height) {
    if (!layout.portrait) return;
    layout.note.h += layout.setup_strip.h;
    layout.setup_strip = {0, layout.note.bottom(), layout.width, 0};
    layout.rows_strip = layout.setup_strip;
    set_note_height(layout, height);
}

Rect page_area(const Layout& l) {
    if (l.portrait) return {0, l.green.y, l.width, l.note.y - l.green.y};
    const double below = l.note_below ? l.note.h : 0;
    return {0, l.green.y, l.green.w, l.height - l.green.y - below};
}

}  // namespace dewtrail
