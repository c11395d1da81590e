#pragma once

#include <optional>
#include <vector>

#include "physics/odds/next_putts.hpp"
#include "physics/odds/scatter.hpp"
#include "physics/odds/stroke_map.hpp"

namespace dewtrail {

/// What to expect of one stroke: chances 0 to 1, and what a miss usually leaves.
struct StrokeOdds {
    double holed = 0;
    double inside_3ft = 0;     ///< holed, or at rest within 3 ft of the hole's centre
    double short_of_hole = 0;  ///< at rest before the hole, seen along the ball-hole line
    double usual_leave_m = 0;  ///< median distance from the hole centre of the misses; 0 if none
};

/// And of all that follows it, until the ball is holed.
struct Odds : StrokeOdds {
    double putts = 0;       ///< mean number of putts
    double three_putt = 0;  ///< chance of three or more
};

/// The odds of a stroke with this spread, by quadrature: over level roll in panels that end where
/// strokes begin and cease to drop, and over start angle by the normal distribution between the
/// edges and Gauss nodes outside them. What follows a miss comes from `next`.
///
/// Agrees with the Monte Carlo of the tests within 0.003 (chances) and 0.01 putts.
Odds odds(const StrokeMap& map, const StrokeSpread& spread, const NextPutts& next);

/// Without what follows a miss: some milliseconds less, and the same figures.
StrokeOdds stroke_odds(const StrokeMap& map, const StrokeSpread& spread);

/// Only the chance to hole: some microseconds.
double chance_to_hole(const StrokeMap& map, const StrokeSpread& spread);

/// Whether a putt has odds: where balls stop.
bool has_odds(const Putt& putt);

/// How a read's strokes spread for this player; none where the read has no derivative.
std::optional<StrokeSpread> spread_of(const Putt& putt, const Read& read, const Scatter& scatter);

/// Odds of a read for this player, next putts included, under the putt's conditions; none where the
/// next putts have no odds (on ground where nothing stops) or the read has no derivative. The first
/// form makes next putts as far as these misses reach: some hundredths of a second on a plane, some
/// tenths on other ground and under conditions. For many putts at one hole make NextPutts once and
/// use the other; the two agree within 0.001 putts.
std::optional<Odds> odds_of(const Putt& putt, const Read& read, const Scatter& scatter);
std::optional<Odds> odds_of(const Putt& putt, const Read& read, const Scatter& scatter,
                            const NextPutts& next);

/// Only of the stroke itself, where no next putts are asked for.
std::optional<StrokeOdds> stroke_odds_of(const Putt& putt, const Read& read,
                                         const Scatter& scatter);

/// How far from the hole its strokes come to rest, all but one in a few hundred of them.
double reach_m(const StrokeMap& map, const StrokeSpread& spread);

/// The strokes that a spread sends out, for the map of a surface that is no plane.
/// `tail`: standard deviations.
StrokeWindow window_of(const StrokeSpread& spread, double tail = 5);

}  // namespace dewtrail
