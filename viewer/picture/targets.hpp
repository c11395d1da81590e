#pragma once

#include <optional>
#include <vector>

#include "viewer/picture/picture.hpp"

namespace dewtrail {

/// What can be clicked, dragged, wheeled over or focused outside the green.
enum class What {
    mode,
    view,  ///< index: 0 plan, 1 eye, 2 room
    units,
    print,  ///< the word Sheet
    page,   ///< in the list of pages to print; index in Mode::pages()
    help,
    detail,
    play,
    time_line,
    slow,
    field,   ///< index: Field
    figure,  ///< of a field, for typing; index: Field
    face,    ///< of the slope; index: SlopeFace
    choice,  ///< of a short putt's finishes; index in Solved::choices
    row,     ///< of the note; index: Glyph
    offer,   ///< the button of a message
    close,
    green_name,  ///< in the list of greens; index in ReadStart::greens
    sheet,
    second_line,
    spread,  ///< the words that open the player's spread
    preset,  ///< a spread by name; index in ReadStart::presets
    best,    ///< a best choice of the room; index: BestKind
    answer,  ///< in Practise: 0 the aim, 1 the pace
    sure,    ///< 0 sure, 1 not sure
    button,  ///< the one that goes on
    spot,    ///< in Green: a row of the survey; index of the spot
    add,     ///< in Green: the words that add a spot
    help_level,
    stretch,    ///< in Compare: how much wider across
    putt,       ///< in Compare: index of the row
    swap,       ///< in Compare
    chances,    ///< in Compare
    graphs,     ///< in Compare
    session,    ///< another drill; in its list the index of it
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
std::optional<Target> find_target(const Targets& targets, What what, int index = 0);

}  // namespace dewtrail
