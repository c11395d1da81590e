#include "viewer/scene/layout.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

constexpr double bar_h = 56, strip_h = 80, note_w = 376;
constexpr double most_note_share = 0.38;
constexpr double narrow = 1.25;  // width over height, below which the note goes under the green
constexpr double note_below_h = 300;

}  // namespace

double Layout::whole(double units) const {
    return std::round(units * scale);
}

Layout lay_out(double width, double height, double text, bool note_shown) {
    Layout l;
    l.width = std::max<double>(width, least_window_width);
    l.height = std::max<double>(height, least_window_height);
    l.scale = std::clamp(std::min(l.width / design_width, l.height / design_height), 0.8, 4.0);
    l.text = text;
    l.note_shown = note_shown;
    l.note_below = note_shown && l.width / l.height < narrow;
    // Type that grows needs room: the note to its share of the window, the strips in height.
    const double bar = std::round(l.u(bar_h) * (1 + (text - 1) * 0.4));
    const double note =
        std::round(std::min(l.u(note_w) * (1 + (text - 1) * 0.6), most_note_share * l.width));
    const double left = !note_shown || l.note_below ? l.width : l.width - note;
    l.field_rows = text > 1.3 ? 2 : 1;
    const double roll = std::round(l.u(strip_h) * (1 + (text - 1) * 0.3));
    const double setup = std::round(l.field_rows * l.u(strip_h) * (text > 1 ? 1.08 : 1));
    const double below = l.note_below ? std::round(l.u(note_below_h) * text) : 0;
    l.top_bar = {0, 0, l.width, bar};
    l.green = {0, bar, left, l.height - bar - roll - setup - below};
    l.roll_strip = {0, l.green.bottom(), left, roll};
    l.setup_strip = {0, l.roll_strip.bottom(), left, setup};
    if (l.note_below)
        l.note = {0, l.setup_strip.bottom(), l.width, below};
    else if (note_shown)
        l.note = {left, bar, note, l.height - bar};
    return l;
}

}  // namespace dewtrail
