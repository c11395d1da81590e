#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/putt/setup.hpp"

namespace dewtrail {

/// How thoroughly a putt is solved: `live` while it is dragged, `settled` when it is let go.
enum class Effort { live, settled };

/// One of the finishes that a short putt offers side by side.
struct FinishChoice {
    double past_m = 0;
    const char* name = "";
    std::optional<double> aim_offset_m;
    bool chosen = false;
};
inline constexpr double short_putt_m = 10 * metres_per_foot;

/// A putt together with its answer, ready to be drawn and described.
struct Solved {
    Putt putt;
    std::optional<Read> read;           ///< the line nearest straight
    std::optional<Read> second;         ///< another that holes it too; searched for when settled
    std::vector<FinishChoice> choices;  ///< on putts under 10 ft
    /// Where there is no line: why, a stroke that shows it, and what finish would have one.
    std::optional<NoLine> none;
    std::optional<Read> instead;
    std::optional<Finish> offer;
    double solve_ms = 0;

    const Read* shown() const { return read ? &*read : instead ? &*instead : nullptr; }
};

Solved solve(const Setup& setup, double player_past_m, Effort effort);

/// What is wrong, in one sentence, and what the button offers ('Use 16 in'); empty where all is
/// well.
struct Trouble {
    std::string words, button;
};
Trouble trouble_of(const Solved& solved, const Units& units);

}  // namespace dewtrail
