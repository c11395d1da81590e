#pragma once

#include <array>
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

/// The start angles that drop with one level roll, in order: one interval; on steep side hills two
/// or more.
class Drops {
  public:
    void add(const Interval& interval) {
        if (count_ < static_cast<int>(of_.size())) of_[count_++] = interval;
    }
    const Interval* begin() const { return of_.data(); }
    const Interval* end() const { return of_.data() + count_; }
    bool empty() const { return count_ == 0; }
    int size() const { return count_; }

  private:
    std::array<Interval, 6> of_{};
    int count_ = 0;
};

/// Level rolls over which the strokes that drop keep to the same number of intervals.
struct StrokePanel {
    Interval level_rolls;
    int strands = 1;
    std::vector<Interval> edges{};   ///< row by row, strand by strand
    std::vector<double> levels_m{};  ///< of the rows; none where they are spread by a cosine

    Drops at(double level_roll_m) const;
};

/// What every stroke of one putt does: the strokes that drop, as intervals of start angle for each
/// level roll, and where the others rest, hole covered. Made once, then nanoseconds a question.
///
/// The edges are found to 2e-4 of the hole's radius at 49 level rolls (or as many as are asked
/// for), dense at both ends, and interpolated by cubics. Where friction is less than 2.2 times the
/// slope there may be more than one interval: see DropScan. Rest points are exact on planes;
/// elsewhere bicubic over a grid of 25 x 17 strokes within the window, extrapolated linearly
/// outside.
///
/// Left out: a ball that strikes the rim too fast is let through, as if the hole were covered.
class StrokeMap {
  public:
    /// None where no stroke was found that drops. `around`: one that does, for other surfaces.
    static std::optional<StrokeMap> make(const Putt& putt, const std::optional<Stroke>& around = {},
                                         const StrokeWindow& window = {}, int edge_rows = 49);

    /// The level rolls of which some start angle drops, from soft to firm.
    const std::vector<StrokePanel>& panels() const { return panels_; }
    /// Start angles that drop with this level roll; none outside the panels.
    Drops drops(double level_roll_m) const;
    Vec2 rest(double angle_rad, double level_roll_m) const;
    const Putt& putt() const { return putt_; }

  private:
    friend class MapBuilder;
    explicit StrokeMap(const Putt& putt) : putt_(putt) {}
    Vec2 rest_on_grid(double angle_rad, double level_roll_m) const;

    Putt putt_;
    std::optional<PlaneGround> ground_;
    double level_slowing_ = 0;
    std::vector<StrokePanel> panels_;
    StrokeWindow window_{};
    std::vector<Vec2> rests_;  ///< by level roll, then by angle
};

}  // namespace dewtrail
