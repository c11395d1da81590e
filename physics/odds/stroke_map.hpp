#pragma once

#include <optional>
#include <vector>

#include "physics/read/stroke_roller.hpp"

namespace dewtrail {

struct Interval {
    double lo, hi;
    bool holds(double x) const { return lo < x && x < hi; }
};

/// Which strokes a surface other than a plane is mapped for.
struct StrokeWindow {
    Interval angle_rad, level_roll_m;
};

/// What every stroke of one putt does: the strokes that drop, as an interval of start angle for
/// each level roll, and where the others rest, hole covered. Made once, then nanoseconds a
/// question.
///
/// The edges are found to 2e-4 of the hole's radius at 49 level rolls (or as many as are asked
/// for), dense at both ends, and interpolated by cubics. Rest points are exact on planes; elsewhere
/// bicubic over a grid of 25 x 17 strokes within the window, extrapolated linearly outside.
///
/// Left out: a second, high line by which a ball may drop too; a ball that strikes the rim too fast
/// is let through, as if the hole were covered.
class StrokeMap {
  public:
    /// None where no stroke was found that drops. `around`: one that does, for other surfaces.
    static std::optional<StrokeMap> make(const Putt& putt, const std::optional<Stroke>& around = {},
                                         const StrokeWindow& window = {}, int edge_rows = 49);

    /// The level rolls of which some start angle drops.
    const Interval& level_rolls() const { return level_rolls_; }
    /// Start angles that drop with this level roll; none outside `level_rolls`.
    std::optional<Interval> drops(double level_roll_m) const;
    Vec2 rest(double angle_rad, double level_roll_m) const;
    const Putt& putt() const { return putt_; }

  private:
    friend class MapBuilder;
    explicit StrokeMap(const Putt& putt) : putt_(putt) {}
    Vec2 rest_on_grid(double angle_rad, double level_roll_m) const;

    Putt putt_;
    std::optional<PlaneGround> ground_;
    double level_slowing_ = 0;
    Interval level_rolls_{0, 0};
    std::vector<Interval> edges_;  ///< at level rolls spread by a cosine
    StrokeWindow window_{};
    std::vector<Vec2> rests_;  ///< by level roll, then by angle
};

}  // namespace dewtrail
