#include "viewer/modes/shell/pupil_desk.hpp"

#include <stdexcept>

namespace dewtrail {
namespace {

/// Throws what the desk does or the modes do, and then nothing is another's.
void change_hands(Modes& modes, const PupilDesk& desk, const std::string& pupil) {
    Appearance look = modes.now().appearance();
    const std::string before = look.pupil;
    look.units = desk.choose(pupil);
    look.pupil = pupil;
    look.swell = false;  // it keeps the time of the stroke before
    try {
        modes.renew(look);
    } catch (const std::runtime_error&) {
        desk.choose(before);
        throw;
    }
}

void ask_first(Shell& shell, const std::string& unfinished, Wish wish) {
    wish.on = true;
    shell.open_list(unfinished, {"Go on with them", "Leave the rest of them"}, "",
                    [&shell, wish](int row) {
                        if (row == 1) shell.wish(wish);
                    });
    shell.act("unfinished");
}

}  // namespace

bool grant_pupil_wish(Modes& modes, const PupilDesk& desk, const Wish& wish) {
    try {
        if (wish.kind == Wish::Kind::pupils) {
            modes.now().open_pupils(desk.names(), desk.has_own && desk.has_own());
            return false;
        }
        if (const std::string unfinished = modes.unfinished(); !wish.on && !unfinished.empty()) {
            ask_first(modes.now(), unfinished, wish);
            return false;
        }
        if (wish.kind == Wish::Kind::add_pupil) desk.add(wish.text, modes.now().units());
        if (wish.kind == Wish::Kind::adopt_own) desk.adopt_own(wish.text, modes.now().units());
        change_hands(modes, desk, wish.text);
        return true;
    } catch (const std::runtime_error& error) {  // a name or a file that cannot be
        modes.now().complain(error);
        return false;
    }
}

}  // namespace dewtrail
