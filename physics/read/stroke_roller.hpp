#pragma once

#include <optional>
#include <span>

#include "physics/roll/plane_roll.hpp"
#include "physics/roll/putt.hpp"

namespace dewtrail {

/// Where a ball comes to the hole: at its rim; else where it passes, or rests before it does.
struct Approach {
    enum class How { at_rim, passes, rests };
    How how = How::rests;
    PathPoint at;
};
Approach approach_of(const Roll& roll);

/// A stroke by what it does on the level, under the putt's conditions.
struct LevelStroke {
    double angle_rad = 0;  ///< from the ball-hole line, right positive
    double level_roll_m = 0;
};

/// Rolls strokes of one putt. Planes by the closed form; other surfaces, and all under conditions,
/// by integration, many strokes in lockstep. `putt` must outlive it. Throws std::invalid_argument
/// on a plane where nothing stops.
class StrokeRoller {
  public:
    explicit StrokeRoller(const Putt& putt);

    /// Positive if the ball drops: how much slower it is at the rim than it might be, m/s. Negative
    /// and of no meaning but its sign if it does not drop.
    double margin(double angle_rad, double level_roll_m) const;
    void margins(std::span<const LevelStroke> strokes, std::span<double> margins) const;

    Approach approach(double angle_rad, double level_roll_m) const;

    /// Where it turns away from the hole, else where it rests.
    Vec2 nearest(double angle_rad, double level_roll_m) const;

    /// Where it rests, hole covered; where it left the green or was given up, if it does not rest.
    Vec2 rest(double angle_rad, double level_roll_m) const;
    void rests(std::span<const LevelStroke> strokes, std::span<Vec2> rests) const;

    /// Where it rests after what the rigid body does at the hole: over it, or lipping out. A ball
    /// that drops rests at the hole's centre.
    Vec2 rest_through_hole(double angle_rad, double level_roll_m) const;

    const Putt& putt() const { return putt_; }
    /// On a plane, without conditions.
    bool on_plane() const { return ground_.has_value(); }
    const std::optional<PlaneGround>& plane() const { return ground_; }

  private:
    Launch launch(double angle_rad, double level_roll_m) const;
    RollOptions roll_options() const;
    std::optional<PathPoint> rim(double angle_rad, double level_roll_m) const;
    double margin_at(const std::optional<PathPoint>& rim) const;
    template <class Take>
    void in_lockstep(std::span<const LevelStroke> strokes, bool until_rim, Take take) const;
    Vec2 rest_from(Launch launch, bool rolling) const;

    const Putt& putt_;
    std::optional<PlaneGround> ground_;
    double level_slowing_;
};

}  // namespace dewtrail
