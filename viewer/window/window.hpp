#pragma once

#include <functional>
#include <string>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/modes/shell/pupil_desk.hpp"
#include "viewer/terminal/session.hpp"
#include "viewer/window/printed_page.hpp"

namespace dewtrail {

struct WindowOptions {
    ReadStart start{};
    std::string screenshot{};      ///< PNG of the first settled frame; then the program ends
    std::string trace{};           ///< JSON lines for tests
    bool within_desktop = false;   ///< no larger than the desktop
    bool text_by_desktop = false;  ///< type starts larger on a desktop of many pixels
    std::function<void()> hints_done{};
    /// Keeps the player's spread; what went wrong, in a sentence, or nothing.
    std::function<std::string(const Spread&, const std::string& from)> remember_spread{};
    std::function<void(const Setup&)> keep_putt{};  ///< for the next time
    std::function<double()> swing_s{};              ///< of the player's putter, for the swell
    /// Prints the page that is wished for.
    std::function<PrintedPage(const Wish&, const Units&)> print{};
    /// How the modes beside Read are made.
    std::vector<std::pair<ModeName, Modes::Maker>> modes{};
    Modes::Maker read_again{};  ///< for another player
    PupilDesk pupils{};
    ModeName first = ModeName::read;
};

/// Opens the window and stays until it is closed. Throws OutsideError where there is no display, it
/// cannot be reached, or a file cannot be written.
Exit run_window(WindowOptions options);

}  // namespace dewtrail
