#pragma once

#include <string>
#include <vector>

#include "viewer/picture/layout.hpp"
#include "viewer/putt/outlook.hpp"
#include "viewer/putt/solved.hpp"

/// Strokes as a chart: start angle to the right, level roll up, the read at the crossing.
namespace dewtrail {

struct RoomTick {
    double at = 0;  ///< rad off, or pace off
    std::string words;
};

/// Where the strokes round a read lie in the window.
struct RoomChart {
    Rect plot;
    Interval angle_rad{0, 0}, pace{0, 0};  ///< what the plot spans
    std::vector<RoomTick> angle_ticks, pace_ticks;

    Vec2 px(const StrokeOff& off) const;
};

/// All strokes that drop and nearly all that the player makes, as far as the one does not dwarf the
/// other. Ticks are in inches of aim at the hole and feet of level putt (metric: cm), in
/// coach detail in degrees and percent.
RoomChart room_chart(const Solved& solved, const Outlook& outlook, const Rect& plot, bool detail,
                     const Look& look);

/// The strokes this many standard deviations from the one meant.
std::vector<StrokeOff> spread_ellipse(const StrokeSpread& spread, double deviations);

/// A hundred strokes of the spread, the same hundred of every spread.
std::vector<StrokeOff> some_strokes(const StrokeSpread& spread);

}  // namespace dewtrail
