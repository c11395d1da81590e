#pragma once

#include <string>
#include <utility>
#include <vector>

#include "greens/units.hpp"
#include "physics/odds/best_choice.hpp"
#include "viewer/putt/solved.hpp"

/// What the right panel says about a read: words and figures, no places.
namespace dewtrail {

enum class Glyph { aim, stand_in, apex, finish, room, drop, odds };

struct NoteRow {
    Glyph glyph = Glyph::aim;
    std::string label;   ///< 'Stand-in hole'
    std::string words;   ///< the row itself; broken at commas when set
    std::string second;  ///< a smaller line below
    std::string figure;  ///< coach detail, right-aligned on the label's line
    std::vector<std::pair<std::string, std::string>> table{};  ///< 'A misread costs'
    std::string spread{};                                      ///< 'for your spread': opens it
    bool pending = false;         ///< of the putt before: dimmed until the new words are there
    bool detail_pending = false;  ///< the same for the smaller line alone
};

/// The odds as they are known now. While a putt is dragged only the chance to hole is its own; the
/// rest belongs to the putt before.
struct OddsShown {
    std::optional<double> holed;  ///< of this putt
    std::optional<Odds> odds;
    std::vector<std::optional<double>> choices;  ///< chance to hole of each finish offered
    bool fresh = false;                          ///< `odds` are this putt's
    bool choices_fresh = false;
    bool awaited = false;  ///< some of it is still being computed
    std::string taken;     ///< what a best choice that was taken gains
};

struct Note {
    std::string heading;      ///< 'Right to left, slightly downhill'
    std::string hero;         ///< 'three cups out right'; an en dash where there is no line
    std::string hero_second;  ///< '15 in from the centre'
    std::string hero_figure;  ///< '5.9° right', coach detail
    std::string hero_detail;  ///< 'start spot 303 mm on, 31 mm right', coach detail
    std::string taken;        ///< 'best choice: saves one stroke in 83 such putts'
    std::vector<FinishChoice> choices;
    std::vector<std::string> choice_odds;  ///< 'about 4 in 10', one for each, or none
    bool choice_odds_pending = false;
    std::string spread;  ///< below them, where no row of odds says it
    std::vector<NoteRow> rows;
};

Note note_of(const Solved& solved, const Units& units, bool detail, const OddsShown& odds = {});

/// What a best choice gains on the plain read, or costs: 'best choice: saves one stroke in 83 such
/// putts', 'most holed, 15 % for 14 %: costs one stroke in 11 such putts'.
std::string taken_words(BestKind kind, const PlayedChoice& taken,
                        const std::optional<PlayedChoice>& plain);

/// The read as plain text, for the clipboard: the same words.
std::string read_as_text(const Solved& solved, const Units& units);

/// Aim of a choice, the side left out: 'two balls out'; in short '1½ cups out'.
std::string choice_words(const FinishChoice& choice, const Units& units);
std::string short_choice_words(const FinishChoice& choice, const Units& units);

}  // namespace dewtrail
