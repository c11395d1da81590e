#pragma once

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
/// The smallest window that holds both.
StrokeWindow joined(const StrokeWindow& a, const StrokeWindow& b);

/// Where strokes within a window rest, hole covered: rolled over a grid of them, bicubic between;
/// outside as at the window's edge.
class RestGrid {
  public:
    struct Size {
        int angles, rolls;
    };
    RestGrid(const StrokeRoller& roller, const StrokeWindow& window, Size size);

    Vec2 at(double angle_rad, double level_roll_m) const;

  private:
    StrokeWindow window_;
    Size size_;
    std::vector<Vec2> rests_;  ///< by level roll, then by angle
};

}  // namespace dewtrail
