#pragma once

#include "viewer/picture/widgets/note_picture.hpp"

namespace dewtrail {

/// The beginning of the note, for a screen in a hand: the aim, the level putt, and what else there
/// is to be pulled up. All of it is the edge that opens the note.
void draw_brief_note(const Canvas& canvas, const Note& note);

}  // namespace dewtrail
