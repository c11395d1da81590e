#pragma once

#include "physics/read/read.hpp"
#include "physics/read/stroke_roller.hpp"

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

/// Positive while the ball drops; how much slower it is at the rim than it might be, m/s. Where it
/// does not reach the hole: how far it stays away, in hole radii, negative.
double drop_margin(const Putt& putt, const Stroke& stroke);

/// Margins of strokes round a read: by the closed form on a plane that holds a ball and has no
/// edge, else as above. Where the ball does not reach the hole, only the sign has a meaning. `putt`
/// must outlive it.
class DropMargins {
  public:
    DropMargins(const Putt& putt, const Stroke& read);
    double operator()(const StrokeOff& off) const;

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
