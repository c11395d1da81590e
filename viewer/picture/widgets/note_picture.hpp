#pragma once

#include "physics/odds/best_choice.hpp"
#include "viewer/picture/widgets/bars.hpp"
#include "viewer/putt/account.hpp"
#include "viewer/putt/solved.hpp"

namespace dewtrail {

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

/// The window's right panel: the account of the read, and what only a window offers beside it.
struct Note {
    Account account;  ///< without rows where there is no line
    std::vector<FinishChoice> choices;
    std::vector<std::string> choice_odds;  ///< '4 in 10', one for each, or none
    std::string taken;                     ///< 'best choice: saves one stroke in 83 such putts'
    // Of the putt before, dimmed until the new ones are there:
    bool odds_pending = false, odds_detail_pending = false, choice_odds_pending = false;

    /// On a short putt the finishes carry the odds, if one of them is the read's.
    bool finishes_tell_odds() const;
};

Note note_of(const Setup& setup, const Solved& solved, const Units& units,
             const OddsShown& odds = {});

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
NotePicture draw_note(const Canvas& canvas, const Note& note, const NoteState& state);

}  // namespace dewtrail
