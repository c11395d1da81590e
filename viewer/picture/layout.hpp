#pragma once

#include "greens/units.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/picture/picture.hpp"

namespace dewtrail {

inline constexpr double design_width = 1280, design_height = 800;
inline constexpr int least_window_width = 1024, least_window_height = 640;
/// Screens narrower than this stand upright in a hand.
inline constexpr double portrait_below = 700;
/// Of a screen that lies in two hands.
inline constexpr double least_screen_height = 340;

/// Where the parts of the window lie, pixels. One unit (u) of the design is `scale` pixels; type
/// and hit areas grow by `text` as well.
struct Layout {
    double scale = 1;
    double text = 1;
    double width = design_width, height = design_height;
    Rect top_bar, green, roll_strip, setup_strip, note;
    Rect rows_strip;     ///< three readings along the line, where they are the slope's face
    Rect note_edge;      ///< where the note is taken hold of, shown or not
    Rect message;        ///< whose top a message covers
    int field_rows = 1;  ///< the set-up strip wraps to two where its type does not fit
    bool note_shown = true;
    bool note_below = false;  ///< in a narrow window
    bool portrait = false;    ///< one column; a note that is not shown still shows its beginning
    Rect foot;                ///< in portrait: the modes, where the thumb is

    double u(double units) const { return units * scale; }
    double type(double units) const { return units * scale * text; }
    /// Left and right of what is written.
    double margin() const { return u(portrait ? 22 : 40); }
    /// Whole pixels, for baselines, rules and edges.
    double whole(double units) const;
};

/// `text` 1, 1.25 or 1.5; `rows` makes room for the three readings. In portrait below 700 wide;
/// smaller than the least window, as a phone across or a tablet is, type has at least 13 pixels.
Layout lay_out(double width, double height, double text, bool note_shown, bool rows = false);

/// How things look now: what every picture needs besides its content.
struct Look {
    Palette colours;
    Layout layout;
    Units units;
    TextWidth width;
    bool numbers = true;  ///< off in the commit view: not one is shown

    double u(double units_of_design) const { return layout.u(units_of_design); }
    double type(double units_of_design) const { return layout.type(units_of_design); }
};

}  // namespace dewtrail
