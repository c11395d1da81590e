#include "viewer/modes/shell/modes.hpp"

#include "greens/input_error.hpp"

namespace dewtrail {

Modes::Modes(std::unique_ptr<Shell> first) : now_(first->name()) {
    modes_[static_cast<std::size_t>(now_)] = std::move(first);
}

void Modes::offer(ModeName name, Maker maker, Holds holds) {
    makers_[static_cast<std::size_t>(name)] = std::move(maker);
    holds_[static_cast<std::size_t>(name)] = holds;
}

std::string Modes::unfinished() const {
    for (const auto& shell : modes_)
        if (shell)
            if (std::string words = shell->mode().unfinished(); !words.empty()) return words;
    return "";
}

void Modes::renew(const Appearance& appearance) {
    const auto front = static_cast<std::size_t>(now_);
    const std::optional<Setup> putt = now().mode().putt_at_hand();
    std::unique_ptr<Shell> fresh;
    if (makers_[front] && holds_[front] == Holds::player) fresh = makers_[front](appearance);
    for (std::size_t i = 0; i < modes_.size(); ++i)
        if (i != front && holds_[i] == Holds::player) modes_[i].reset();
    if (fresh) modes_[front] = std::move(fresh);
    now().arrive(appearance, putt);
}

void Modes::change(ModeName name, const std::optional<Setup>& putt, const std::string& begin) {
    const auto i = static_cast<std::size_t>(name);
    const Appearance appearance = now().appearance();
    try {
        if (!modes_[i] && makers_[i]) modes_[i] = makers_[i](appearance);
    } catch (const std::runtime_error& error) {  // a file that cannot be read or written
        return now().say(std::string(words_for(name)) + ": " + error.what());
    }
    if (!modes_[i]) return now().say(std::string(words_for(name)) + " is not in this window.");
    now_ = name;
    now().arrive(appearance, putt);
    if (!begin.empty()) now().mode().begin(begin);
}

void Modes::spread_changed(const Spread& spread) {
    for (const auto& shell : modes_)
        if (shell && shell.get() != &now()) shell->mode().spread_changed(spread);
}

}  // namespace dewtrail
