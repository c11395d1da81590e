#pragma once

#include <optional>

#include "physics/odds/stroke_map.hpp"

namespace dewtrail {

/// Finds the start angles between which the strokes of one level roll drop, to 2e-4 of the
/// hole's radius: one stroke after the other on a plane, where the closed form costs a microsecond,
/// eight at a time elsewhere. `roller` must outlive it.
class DropEdges {
  public:
    explicit DropEdges(const StrokeRoller& roller);

    /// Near a guess; none where they are not found there.
    std::optional<Interval> near(const Interval& guess, double level_roll_m) const;

    /// From the middle outward to both sides: of a fan over the guess and what is about it, where
    /// strokes are rolled eight at a time. None where an edge is not within.
    std::optional<Interval> about(const Interval& guess, double level_roll_m) const;

    /// From a stroke that drops outward to both sides. Both are that stroke if it does not.
    Interval around(double angle_rad, double level_roll_m) const;

  private:
    std::optional<Interval> by_secant(const Interval& guess, double level) const;
    std::optional<Interval> by_eights(Interval guess, double level) const;
    double one_by_secant(double guess, double middle, double level) const;
    double one_outward(double inside, double level, double step) const;

    const StrokeRoller& roller_;
    double radius_rad_;  ///< the hole's, seen from the ball
};

}  // namespace dewtrail
