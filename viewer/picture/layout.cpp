#include "viewer/picture/layout.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

constexpr double bar_h = 56, strip_h = 80, note_w = 376;
constexpr double most_note_beside = 0.38;
constexpr double narrow = 1.25;  // width over height, below which the note goes under the green
constexpr double note_below_h = 320;
constexpr double edge_hit_u = 12;
constexpr double row_name_h = 22;

// On a screen smaller than the least window the smallest type, of 15 u, has 13 px.
constexpr double least_type_u = 15, least_type_px = 13, small_unit = least_type_px / least_type_u;
constexpr double least_edge_px = 44;  // of the note, for a thumb
constexpr double short_roll_h = 60, short_fields_h = 76;

// In portrait, in pixels of a screen 390 wide.
constexpr double phone_width = 390;
constexpr double phone_bar_h = 52, phone_foot_h = 60, phone_roll_h = 66, phone_fields_h = 76;
constexpr double phone_note_share = 0.62;  // of what is left to green and note
constexpr double phone_peek_h = 152;

/// One column: bar, green, roll, note, fields, modes.
Layout lay_out_portrait(double width, double height, double text, bool note_shown, bool rows) {
    Layout l;
    l.portrait = l.note_below = true;
    l.width = std::max(width, 300.0);
    l.height = std::max(height, 480.0);
    const double px = std::clamp(l.width / phone_width, 1.0, 1.6);
    l.scale = small_unit * px;
    l.text = text;
    l.note_shown = note_shown;
    l.field_rows = text > 1.1 ? 2 : 1;
    const auto whole = [&](double h, double grows) {
        return std::round(h * px * (1 + (text - 1) * grows));
    };
    const double bar = whole(phone_bar_h, 0.3), foot = whole(phone_foot_h, 0.3);
    const double roll = whole(phone_roll_h, 0.3), names = rows ? std::round(l.type(row_name_h)) : 0;
    const double fields = std::round(l.field_rows * phone_fields_h * px * (1 + (text - 1) * 0.35));
    const double readings = rows ? fields + names : 0;
    const double left = l.height - bar - foot - roll - fields - readings;
    const double note =
        std::min(note_shown ? left : whole(phone_peek_h, 0.8), std::round(phone_note_share * left));
    l.top_bar = {0, 0, l.width, bar};
    l.green = {0, bar, l.width, left - note};
    l.message = l.green;
    l.roll_strip = {0, l.green.bottom(), l.width, roll};
    l.note = {0, l.roll_strip.bottom(), l.width, note};
    l.setup_strip = {0, l.note.bottom(), l.width, fields};
    l.rows_strip = {0, l.setup_strip.bottom(), l.width, readings};
    l.foot = {0, l.rows_strip.bottom(), l.width, foot};
    l.note_edge = {l.width / 3, l.note.y, l.width / 3, least_edge_px};
    return l;
}

}  // namespace

double Layout::whole(double units) const {
    return std::round(units * scale);
}

Layout lay_out(double width, double height, double text, bool note_shown, bool rows) {
    if (width < portrait_below) return lay_out_portrait(width, height, text, note_shown, rows);
    Layout l;
    l.width = std::max<double>(width, portrait_below);
    l.height = std::max<double>(height, least_screen_height);
    const bool small = l.width < least_window_width || l.height < least_window_height;
    const bool is_short = l.height < least_window_height;
    l.scale = std::clamp(std::min(l.width / design_width, l.height / design_height),
                         small ? small_unit : 0.8, 4.0);
    l.text = text;
    l.note_shown = note_shown;
    const bool narrow_window = l.width / l.height < narrow;
    l.note_below = note_shown && narrow_window;
    // Larger type needs room: a wider note, up to its share of the window, and higher strips.
    const double bar = std::round(l.u(bar_h) * (1 + (text - 1) * 0.4));
    const double note =
        std::round(std::min(l.u(note_w) * (1 + (text - 1) * 0.6), most_note_beside * l.width));
    const double left = !note_shown || l.note_below ? l.width : l.width - note;
    l.field_rows = text > 1.3 ? 2 : 1;
    const double roll = std::round(l.u(is_short ? short_roll_h : strip_h) * (1 + (text - 1) * 0.3));
    const double fields = std::round(l.field_rows * l.u(is_short ? short_fields_h : strip_h) *
                                     (1 + (text - 1) * 0.35));
    const double names = rows ? std::round(l.type(row_name_h)) : 0;
    const double below = l.note_below ? std::round(l.u(note_below_h) * text) : 0;
    l.top_bar = {0, 0, l.width, bar};
    const double readings = rows ? fields + names : 0;
    l.green = {0, bar, left, l.height - bar - roll - fields - readings - below};
    l.message = l.green;
    l.roll_strip = {0, l.green.bottom(), left, roll};
    l.setup_strip = {0, l.roll_strip.bottom(), left, fields};
    l.rows_strip = {0, l.setup_strip.bottom(), left, readings};
    if (l.note_below)
        l.note = {0, l.rows_strip.bottom(), l.width, below};
    else if (note_shown)
        l.note = {left, bar, note, l.height - bar};
    const double half = l.u(edge_hit_u / 2);
    if (small && !note_shown && narrow_window)
        l.note_edge = {2 * l.width / 3, l.green.bottom() - least_edge_px, l.width / 3,
                       least_edge_px};
    else if (small && !note_shown)
        l.note_edge = {l.width - least_edge_px, l.green.y + l.green.h / 3, least_edge_px,
                       l.green.h / 3};
    else if (narrow_window && small)
        l.note_edge = {2 * l.width / 3, l.rows_strip.bottom(), l.width / 3, least_edge_px};
    else if (narrow_window)
        l.note_edge = {0, l.rows_strip.bottom() - half, l.width, 2 * half};
    else
        l.note_edge = {left - half, bar, 2 * half, l.height - bar};
    return l;
}

}  // namespace dewtrail
