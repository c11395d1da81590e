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

/// In portrait the fields' room is the note's, for a mode that tells them in words there.
void take_fields_away(Layout& layout);

}  // namespace dewtrail
