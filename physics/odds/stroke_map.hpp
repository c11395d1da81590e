#pragma once

#include <optional>
#include <span>
#include <vector>

#include "physics/read/read.hpp"
#include "physics/roll/plane_roll.hpp"

namespace dewtrail {

/// A stroke by what it does on the level.
struct LevelStroke {
    double angle_rad = 0;  ///< from the ball-hole line, right positive
    double level_roll_m = 0;
};

/// Rolls strokes of one putt. Planes by the closed form, other surfaces by integration, many
/// strokes in lockstep. `putt` must outlive it. Throws std::invalid_argument on a plane where
/// nothing stops.
class StrokeRoller {
  public:
    explicit StrokeRoller(const Putt& putt);

    /// Positive if the ball drops: how much slower it is at the rim than it might be, m/s. Negative
    /// and of no meaning but its sign if it does not drop.
    double margin(double angle_rad, double level_roll_m) const;
    void margins(std::span<const LevelStroke> strokes, std::span<double> margins) const;

    /// Where it turns away from the hole, else where it rests.
    Vec2 nearest(double angle_rad, double level_roll_m) const;

    /// Where it rests, hole covered; where it left the green or was given up, if it does not rest.
    Vec2 rest(double angle_rad, double level_roll_m) const;
    void rests(std::span<const LevelStroke> strokes, std::span<Vec2> rests) const;

    /// Where it rests after what the rigid body does at the hole: over it, or lipping out. A ball
    /// that drops rests at the hole's centre.
    Vec2 rest_through_hole(double angle_rad, double level_roll_m) const;

    const Putt& putt() const { return putt_; }
    bool on_plane() const { return ground_.has_value(); }

  private:
    Launch launch(double angle_rad, double level_roll_m) const;
    RollOptions roll_options() const;
    std::optional<PathPoint> rim(double angle_rad, double level_roll_m) const;
    double margin_at(const std::optional<PathPoint>& rim) const;
    template <class Take>
    void in_lockstep(std::span<const LevelStroke> strokes, bool until_rim, Take take) const;
    Vec2 rest_from(const Launch& launch) const;

    const Putt& putt_;
    std::optional<PlaneGround> ground_;
    double level_slowing_;
};

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
/// bicubic over a grid of 25 x 17 strokes within the window, carried on straight outside.
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
