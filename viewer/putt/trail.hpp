#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "greens/units.hpp"
#include "physics/read/read.hpp"

namespace dewtrail {

/// A roll as it is shown: from launch until it has sunk into the hole, else to where it ends; a
/// ball that lips out or hops over rides the rim and rolls on. Time in seconds since launch, real
/// time.
class Trail {
  public:
    Trail() = default;
    /// The read's roll through the open hole, if it has one, else over the covered hole and to its
    /// rim if it drops. The path must have been kept. A ball that does not stop is followed for
    /// `most_s`.
    explicit Trail(const Read& read, double most_s = 12);

    bool empty() const { return points_.empty(); }
    double end_s() const { return end_s_; }
    bool holed() const { return holed_; }
    RollEnd end() const { return end_; }

    /// Cubic between the solver's own points, so speed and heading agree with them. Clamped.
    PathPoint at(double time_s) const;

    /// How much of the ball has sunk below the rim: 0 on the green, 1 when its top is level with
    /// it.
    double sunk(double time_s) const;

    /// The path from launch to `until_s`, a point each 1/60 s and both ends.
    std::vector<Vec2> line(double until_s) const;

    /// When a ball that cannot stop has passed the hole; for all others the end.
    double runs_off_from_s() const { return std::min(runs_off_from_s_, end_s_); }
    /// What a ball that cannot stop rolls after that, until `until_s`; at the end of the roll it
    /// goes on for `most_m`, as though the hole were covered. Empty for all others.
    std::vector<Vec2> tail(double until_s, double most_m) const;

    /// On the way from a to b, each moment between the same shares of both rolls. Ends as b does.
    static Trail between(const Trail& a, const Trail& b, double t);

    /// Where it is each half second, launch and end left out.
    std::vector<Vec2> half_seconds() const;

    /// First moment at which the ball is this far along the ball-hole line; none if it never is.
    std::optional<double> time_along(const Putt& putt, double along_m) const;

  private:
    struct Depth {
        double time_s, sunk;
    };
    void follow_depth(const HoleMeeting& meeting);

    std::vector<PathPoint> points_;
    std::vector<PathPoint> beyond_;  ///< of a ball that cannot stop, the hole covered if it drops
    std::vector<Depth> depths_;      ///< while it is in the hole
    double end_s_ = 0, runs_off_from_s_ = HUGE_VAL;
    bool holed_ = false;
    RollEnd end_ = RollEnd::at_rest;
};

/// A mark on the trail: what share of its break the ball has shown there.
struct BreakMark {
    double time_s = 0;
    double shown = 0;         ///< 0 to 1
    std::string name, words;  ///< 'halfway', 'a sixth of the break': until there
};

/// Halfway, what it has broken until there, and the last yard (in metric units the last metre),
/// what is left to it. None where the putt runs straight (aim within ½ in) or breaks both ways, or
/// the mark would be senseless: a last yard only on putts longer than two.
std::vector<BreakMark> break_marks(const Putt& putt, const Read& read, const Trail& trail,
                                   const Units& units);

/// 'a sixth', 'a quarter', 'half', 'two thirds': the nearest simple share.
std::string share_words(double share);

}  // namespace dewtrail
