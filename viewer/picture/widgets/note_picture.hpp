#pragma once

#include "viewer/picture/widgets/bars.hpp"
#include "viewer/putt/note.hpp"

namespace dewtrail {

struct NotePicture {
    double full_height = 0;  ///< of all there is, pixels; more than the panel: it scrolls
};

struct NoteState {
    bool detail = false;
    double scrolled_px = 0;
    double figures_share = 1;  ///< 0.75 while solving takes long
    std::optional<Glyph> pinned;
    std::optional<double> travelled;  ///< of the dew drop under the heading, 0 to 1
    bool solving = false;             ///< says so in words
    bool spread_open = false;         ///< the player's spread is on the screen
};

/// Rows stand closer together where they would not fit otherwise; if that is not enough, the note
/// scrolls.
NotePicture draw_note(Picture& picture, Targets& targets, const Note& note, const NoteState& state,
                      const Attention& attention, const Look& look);

}  // namespace dewtrail
