#include "viewer/picture/portrait.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

constexpr double most_note_share = 2.0 / 3;

}  // namespace

void set_note_height(Layout& layout, double height) {
    if (!layout.portrait) return;
    const double both = layout.green.h + layout.note.h;
    const double note = std::round(std::min(height, most_note_share * both));
    layout.green.h = both - note;
    layout.message = layout.green;
    layout.roll_strip.y = layout.green.bottom();
    layout.note.y = layout.note_edge.y = layout.roll_strip.bottom();
    layout.note.h = note;
}

void take_fields_away(Layout& layout) {
    if (!layout.portrait) return;
    layout.note.h += layout.setup_strip.h;
    layout.setup_strip = {0, layout.note.bottom(), layout.width, 0};
    layout.rows_strip = layout.setup_strip;
}

}  // namespace dewtrail
