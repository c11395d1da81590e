#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/picture/picture.hpp"

namespace dewtrail {

/// What can be clicked, dragged, wheeled over or focused outside the green, in the order of Tab.
enum class What {
    pupil,  ///< the program's name, or the pupil's, that leads to all of them
    mode,
    view,   ///< index: its place among the views of the top bar
    print,  ///< the word Sheet
    units,
    help,
    offer,  ///< the button of a message
    made,   ///< 0 the file that was made, 1 its folder
    close,
    spot,    ///< in Green: a row of the survey; index of the spot
    putt,    ///< in Compare: index of the row
    answer,  ///< a value that stands in the note; index: the mode's own number for it
    add,     ///< words that add a spot, a putt
    ball,    ///< in Green: puts one down
    sure,    ///< 0 sure, 1 not sure
    holed,
    button,  ///< the one that goes on
    swap,    ///< in Compare
    chances,
    graphs,
    measured,  ///< in Measure: left, through, right, and the words; index: the mode's own number
    lesson,  ///< in Practise: what it begins, and what becomes of it; index: the mode's own number
    field,   ///< a ruled value; index: Field
    face,    ///< of the slope; index: SlopeFace
    demonstration,  ///< in Compare; index in demonstration_names()
    session,        ///< another drill
    stretch,        ///< in Compare: how much wider across
    play,
    time_line,
    slow,
    help_level,
    detail,
    commit,  ///< hides every number, and shows them again
    choice,  ///< of a short putt's finishes; index in Solved::choices
    row,     ///< of the note; index: Glyph
    spread,  ///< the words that open the player's spread
    preset,  ///< a spread by name; index in ReadStart::presets
    best,    ///< a best choice of the room; index: BestKind
    // No stops of Tab:
    ruler,       ///< in Practise: of the pace
    figure,      ///< of a field, for typing; index: Field
    page,        ///< a row of a list
    new_name,    ///< on the sheet that asks for one
    green_name,  ///< in the list of greens; index in ReadStart::greens
    key,         ///< on the help sheet; index: its number there
    undo,        ///< 0 undo, 1 redo: from here on words of the sheet that opens with `?`
    copy,
    swell,
    dusk,
    text_size,  ///< 0 larger, 1 smaller, 2 usual
    full_screen,
    open,  ///< a green
    save,
    sheet,
    note,       ///< the panel itself, for the wheel
    note_edge,  ///< drags the note away, and back
};

struct Target {
    What what;
    int index = 0;
    Rect hit;
};
using Targets = std::vector<Target>;

/// The last one added that holds the point.
std::optional<Target> target_at(const Targets& targets, const Vec2& px);
/// For a finger: of those within half of `finger_px` each way the one it meets best, the one that
/// it is in before one that it is beside. Panels give way to what lies on them.
std::optional<Target> touched_target(const Targets& targets, const Vec2& px);
inline constexpr double finger_px = 44;
std::optional<Target> find_target(const Targets& targets, What what, int index = 0);

/// Whether Tab stops there; before which others follows from the order of What, and among one kind
/// from the order in which they are painted.
bool is_stop(What what);
/// A field and its face are one place in that order.
What rank_of(What what);

/// What tests know it by: "button", "mode2"; empty: it has no name of its own.
std::string place_name(const Target& target);

}  // namespace dewtrail
