#pragma once

#include "physics/read/drop_line.hpp"
#include "physics/read/read.hpp"

namespace dewtrail {

/// Where a roll reaches the rim and whether it drops there; none if it never reaches it, or only
/// after leaving the green.
std::optional<Entry> entry_of(const Putt& putt, const Roll& roll);

/// How far a stroke is off the read: start angle (rad, right positive), and level roll as a
/// fraction of the read's. The frame of Room.
struct StrokeOff {
    double angle_rad = 0, pace = 0;
};
/// Farther off in pace no edge is looked for.
inline constexpr double least_pace_off = -0.999, most_pace_off = 20;
Stroke off_by(const Putt& putt, const Stroke& stroke, const StrokeOff& off);

/// Rolls the strokes round a read: by the closed form on a plane that holds a ball and has no edge,
/// else by integration. `putt` must outlive it.
class StrokesAbout {
  public:
    StrokesAbout(const Putt& putt, const Stroke& read);

    Approach approach(const StrokeOff& off, Rolled how) const;
    bool closed() const { return closed_form_.has_value(); }

    /// Positive while the ball drops; how much slower it is at the rim than it might be, m/s. Where
    /// it does not reach the hole: how far it stays away, in hole radii, negative.
    double margin(const StrokeOff& off) const;

  private:
    const Putt& putt_;
    Stroke read_;
    double level_roll_m_;
    std::optional<StrokeRoller> closed_form_;
};

/// The room round a stroke that drops; none if it does not. Edges are found to 1e-7 (rad, and
/// fraction of level roll) on the margin between the hole's limit and the speed at the rim.
std::optional<Room> room_of(const Putt& putt, const Stroke& stroke);

}  // namespace dewtrail
