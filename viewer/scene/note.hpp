#pragma once

#include <string>
#include <utility>
#include <vector>

#include "viewer/scene/solved.hpp"
#include "viewer/scene/units.hpp"

/// What the right panel says about a read: words and figures, no places.
namespace dewtrail {

enum class Glyph { aim, stand_in, apex, finish, room, drop };

struct NoteRow {
    Glyph glyph = Glyph::aim;
    std::string label;   ///< 'Stand-in hole'
    std::string words;   ///< the row itself; broken at commas when set
    std::string second;  ///< a smaller line below
    std::string figure;  ///< coach detail, right-aligned on the label's line
    std::vector<std::pair<std::string, std::string>> table{};  ///< 'A misread costs'
};

struct Note {
    std::string heading;      ///< 'Right to left, slightly downhill'
    std::string hero;         ///< 'three cups out right'; an en dash where there is no line
    std::string hero_second;  ///< '15 in from the centre'
    std::string hero_figure;  ///< '5.9° right', coach detail
    std::string hero_detail;  ///< 'start spot 303 mm on, 31 mm right', coach detail
    std::vector<FinishChoice> choices;
    std::vector<NoteRow> rows;
};

Note note_of(const Solved& solved, const Units& units, bool detail);

/// The read as plain text, for the clipboard: the same words.
std::string read_as_text(const Solved& solved, const Units& units);

/// Aim of a choice in two short lines: 'two balls', 'out'.
std::string choice_words(const FinishChoice& choice, const Units& units);

}  // namespace dewtrail
