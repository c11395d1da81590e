#pragma once

#include <functional>
#include <optional>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "viewer/picture/keys.hpp"
#include "viewer/picture/targets.hpp"

namespace dewtrail {

/// What set a command off.
struct Cue {
    int which = 0;  ///< the place of its key among the command's keys, or its target's index
    bool shift = false;
    bool twice = false;  ///< a double click, or Enter on what has the focus
};

/// One thing that can be done in a mode. Keys, buttons, the help sheet and the names in the trace
/// follow from a table of these.
struct ModeCommand {
    const char* name;  ///< in the trace, unless what it does names itself
    const char* keys;  ///< as the help sheet shows them: "[  ]", "Ctrl Z  Y", "Shift Q"; or empty
    const char* help;  ///< the line of the help sheet; empty: it has none
    std::function<void(const Cue&)> does;
    std::function<bool()> may{};  ///< whether it can be done just now; empty: always
    std::optional<What> at{};     ///< what is clicked to do the same
};

struct Commands : std::vector<ModeCommand> {
    /// `does` may look at its cue or not.
    template <class Does>
    ModeCommand& add(const char* name, const char* keys, const char* help, Does does) {
        if constexpr (std::is_invocable_v<Does, const Cue&>)
            return emplace_back(ModeCommand{name, keys, help, std::move(does)});
        else
            return emplace_back(ModeCommand{name, keys, help, [does](const Cue&) { does(); }});
    }
};

/// A key, and where it stands among the words that name a command's keys.
struct NamedKey {
    KeyPress key;
    bool any_shift = true;  ///< Shift may be held or not
    std::string_view words;
};

/// The keys that "Ctrl ←  →" or "Shift Q" names. Ctrl holds for all that follow, Shift for the
/// next.
std::vector<NamedKey> named_keys(std::string_view keys);

/// The first command that has the key and can be done, with its cue; or none.
std::pair<const ModeCommand*, Cue> command_of_key(const Commands& commands, KeyPress pressed);

/// The same for a target that was clicked.
const ModeCommand* command_at(const Commands& commands, What what);

}  // namespace dewtrail
