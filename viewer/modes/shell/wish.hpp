#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/comparison/printed_comparison.hpp"
#include "viewer/modes/shell/appearance.hpp"
#include "viewer/putt/setup.hpp"
#include "viewer/putt/spread.hpp"

namespace dewtrail {

struct TaughtLesson;

/// What a mode asks of the window around it.
struct Wish {
    enum class Kind {
        copy_text,
        paste_text,
        full_screen,
        hints_done,
        remember_spread,
        keep_putt,
        change_mode,
        print,
        show_file,  ///< `text`: a file or folder, by whatever shows such on this machine
        swell,
        help,          ///< words and keys, told by whoever is around
        pupils,        ///< the list of them
        choose_pupil,  ///< `text`: whom; empty: nobody
        add_pupil,     ///< and choose them
        adopt_own      ///< nobody's putts become those of a new pupil, who is chosen
    };
    Kind kind;
    /// To copy; the page to print; where a spread is from; a pupil; what to begin in that mode.
    std::string text{};
    ModeName mode = ModeName::read;  ///< to change to
    std::optional<Setup> putt{};     ///< to keep, to take along there, or to print
    std::shared_ptr<const PrintedComparison> compared{};  ///< to print
    std::shared_ptr<const TaughtLesson> lesson{};         ///< to print
    std::optional<Spread> spread{};                       ///< to remember
    bool on = false;  ///< the swell; of a pupil: also where something unfinished ends
};

}  // namespace dewtrail
