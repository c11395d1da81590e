#pragma once

#include <optional>
#include <vector>

#include "physics/odds/odds.hpp"

namespace dewtrail {

/// One way to play a putt, and its odds.
struct PlayedChoice {
    double past_m = 0;         ///< finish that line and pace are for
    double aim_shift_rad = 0;  ///< right of the read for that finish
    Stroke stroke;
    double level_roll_m = 0;
    Odds odds;
};

/// What a putt costs by finish, and how it is played best.
struct BestChoice {
    std::optional<PlayedChoice> plain;  ///< the read as it was asked; none if it asks for no `past`
    std::vector<PlayedChoice> by_past;  ///< reads at the finishes asked for that have a line
    PlayedChoice fewest_putts;          ///< aim and finish free
    PlayedChoice most_holed;            ///< the same for the chance to hole
};

/// Finishes of the table: 0 to 36 inches past, every 3.
std::vector<double> usual_finishes_m();
/// Finishes put side by side for short putts: barely in, a foot past, firm.
inline constexpr double short_putt_finishes_m[] = {3 * metres_per_inch, 12 * metres_per_inch,
                                                   24 * metres_per_inch};

/// The choice of aim and finish with the fewest expected putts, and the one with the highest chance
/// to hole, within the finishes asked for (the first to the last) and 1.5 standard deviations of
/// start angle either side of the read. Good to 0.001 putts; the finish itself, where the cost is
/// flat, to a few centimetres. None where no finish has a line.
std::optional<BestChoice> best_choice(const Putt& putt, const Scatter& scatter,
                                      const NextPutts& next,
                                      const std::vector<double>& finishes_m = usual_finishes_m());

}  // namespace dewtrail
