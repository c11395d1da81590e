#include <algorithm>

#include "viewer/picture/widgets/note_picture.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

std::vector<std::string> choice_chances(const Note& note, const OddsShown& shown) {
    constexpr std::string_view about = "about ";
    std::vector<std::string> chances;
    for (const auto& chance : shown.choices) {
        std::string words = chance ? chance_words(*chance) : "";
        if (words.starts_with(about)) words.erase(0, about.size());
        chances.push_back(words);
    }
    chances.resize(note.choices.size());
    return chances;
}

/// Of the putt itself where that is known, the rest as it was told last.
std::optional<OddsKnown> odds_of(const OddsShown& shown, const Spread& spread) {
    if (!shown.holed && !shown.odds && !shown.awaited) return std::nullopt;
    OddsKnown odds{.spread = spread};
    if (shown.odds) odds = known_odds(spread, *shown.odds);
    if (shown.holed) odds.holed = shown.holed;
    return odds;
}

}  // namespace

bool Note::finishes_tell_odds() const {
    return std::any_of(choices.begin(), choices.end(),
                       [](const FinishChoice& choice) { return choice.chosen; });
}

Note note_of(const Setup& setup, const Solved& s, const Units& units, const OddsShown& shown) {
    Note note;
    const Read* read = s.shown();
    note.account.heading = read ? heading_of(s.putt, *read) : absent;
    if (!s.read) return note;
    note.account =
        account_of(s.putt, *s.read, units, known_of(setup, odds_of(shown, setup.spread)));
    note.choices = s.choices;
    note.choice_odds = choice_chances(note, shown);
    note.choice_odds_pending = !shown.choices_fresh;
    note.taken = shown.taken;
    const AccountRow* odds = note.account.row(Glyph::odds);
    note.odds_pending = !shown.fresh && odds && (odds->name == "Lag" || !shown.holed);
    note.odds_detail_pending = !shown.fresh;
    return note;
}

}  // namespace dewtrail
