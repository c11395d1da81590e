#pragma once

#include <span>
#include <vector>

#include "physics/odds/stroke_map.hpp"

namespace dewtrail {

/// Finds the strokes that drop on ground so steep that for one level roll they may lie in several
/// intervals of start angle: one for the ball that comes straight at the hole, one for the ball
/// that goes over the top and comes back down.
///
/// Within a window, level roll by level roll over a fan of start angles 0.3 of the hole's
/// radius apart (0.5 where fewer than 49 rows are asked for), every change refined by the
/// root finder. Level rolls at which intervals appear, part, join or vanish are found by halving;
/// between two of them lies a panel. What is narrower than the fan's or the level rolls' spacing is
/// missed.
class DropScan {
  public:
    DropScan(const StrokeRoller& roller, const StrokeWindow& window, int edge_rows);

    std::vector<StrokePanel> panels() const;

  private:
    using Strands = std::vector<Interval>;
    struct Row {
        double level_roll_m;
        Strands strands;
    };

    bool alike(const Row& a, const Row& b) const;
    bool straight(const Row& a, const Row& middle, const Row& b) const;
    Strands strands_at(double level_roll_m) const;
    void refine(const Row& soft, const Row& firm, std::vector<Row>& rows) const;
    static StrokePanel panel(std::span<const Row> rows);

    const StrokeRoller& roller_;
    StrokeWindow window_;
    double fan_step_rad_, edge_error_rad_, jump_rad_, bow_rad_;
    int level_rows_;
    double least_step_m_;
};

/// Start angles and level rolls of the strokes that pass over the hole's centre on a plane, dying
/// to as fast as one can be held, and as much about them as may drop.
StrokeWindow window_on_plane(const Putt& putt, const Plane& plane);

}  // namespace dewtrail
