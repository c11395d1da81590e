#pragma once

#include "viewer/picture/layout.hpp"

namespace dewtrail {

/// A phone or a tablet: smaller than the least window, touched by fingers.
inline bool is_small(const Layout& layout) {
    return layout.width < least_window_width || layout.height < least_window_height;
}

/// In portrait the note gets this height, pixels, or two thirds of what it shares with the green
/// where that is less; elsewhere all stays as it is.
void set_note_height(Layout& layout, double height);

/// The same for a mode that tells its fields in words there: their room is the note's.
void set_note_height_without_fields(Layout& layout, double height);

/// All that is left beside the note, for what takes the place of the green and its strips.
Rect page_area(const Layout& layout);

}  // namespace dewtrail
