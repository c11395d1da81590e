#pragma once

#include <array>
#include <functional>
#include <memory>

#include "viewer/modes/shell/shell.hpp"

namespace dewtrail {

/// The modes of the window, one of them at the front. Each is made when it is first gone to, and
/// kept: one comes back to it as one left it.
class Modes {
  public:
    /// Makes a mode that looks so. It may throw InputError or OutsideError.
    using Maker = std::function<std::unique_ptr<Shell>(const Appearance&)>;

    /// The first to be seen.
    explicit Modes(std::unique_ptr<Shell> first);
    /// Whether a mode has anything of a player's in it.
    enum class Holds { player, nothing };
    void offer(ModeName name, Maker maker, Holds holds = Holds::player);

    Shell& now() { return *modes_[static_cast<std::size_t>(now_)]; }
    const Shell& now() const { return *modes_[static_cast<std::size_t>(now_)]; }

    /// To another mode, with a putt to take along or none, and what is to begin there. One that
    /// cannot be made leaves all as it was, and the mode at the front says why.
    void change(ModeName name, const std::optional<Setup>& putt, const std::string& begin = {});

    /// The player's spread is another now: the modes behind the one at the front hear of it.
    void spread_changed(const Spread& spread);

    /// What another player would cut short, of whichever mode.
    std::string unfinished() const;

    /// Another player: whatever holds something of the one before is made anew, the mode at the
    /// front at once, with the putt that is at hand there. Throws what its maker throws, and then
    /// all is as it was.
    void renew(const Appearance& appearance);

  private:
    ModeName now_;
    std::array<std::unique_ptr<Shell>, mode_count> modes_;
    std::array<Maker, mode_count> makers_;
    std::array<Holds, mode_count> holds_{};
};

}  // namespace dewtrail
