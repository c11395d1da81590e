#pragma once

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "physics/odds/prospect_table.hpp"
#include "physics/odds/scatter.hpp"
#include "physics/odds/stroke_map.hpp"

namespace dewtrail {

/// Putts from all round one hole that do not depend on the player: spots, their strokes for several
/// finishes, and what drops. Made once a hole, then used for any number of spreads.
///
/// On a plane by its closed form. On other ground, and under conditions, every spot's strokes are
/// rolled on the ground as it is, eight side by side; but the plane that lies on average between
/// spot and hole stands in for it within half a metre of the hole (without conditions), where
/// friction is less than 1.6 times the slope, and from where no line was found (its slope held to
/// 0.9 of what stops a ball, wind and grain taken as tilt).
class HoleSurround {
  public:
    /// Round the putt's hole, on its ground and under its conditions; its ball and finish are not
    /// looked at. Nothing is made yet. `reach_m`: how far from the hole putts are wanted; farther
    /// out they are only extrapolated.
    explicit HoleSurround(const Putt& putt, double reach_m = ProspectTable::rings_m.back());

    enum class State {
        growing,  ///< stopped before it was whole
        whole,
        none,  ///< nothing stops at the hole, or a spot has no strokes
    };
    /// Makes what is not made yet. `go_on` is asked before every ring where that takes long; after
    /// a no it goes on there the next time.
    State grow(const std::function<bool()>& go_on = {});

    /// All of it at once; none for State::none.
    static std::optional<HoleSurround> make(const Putt& putt,
                                            double reach_m = ProspectTable::rings_m.back());
    /// The same of ground without edge and conditions.
    static std::optional<HoleSurround> make(std::shared_ptr<const Surface> surface,
                                            double resistance, const Vec2& hole,
                                            double reach_m = ProspectTable::rings_m.back());

    /// The finishes among which we search for the fewest putts.
    static constexpr std::array<double, 7> pasts_m{0.0, 0.08, 0.2, 0.35, 0.5, 0.7, 0.95};

    struct Option {
        double angle_rad, level_roll_m;
        SlopeSensitivity sensitivity;
    };
    struct Spot {
        StrokeMap map;
        std::array<Option, pasts_m.size()> options;

        Option option(double past_m) const;  ///< between them
        /// What this player's strokes do: the map, and on ground that is no plane where they rest.
        StrokeMap map_for(const Scatter& scatter) const;
    };

    const ProspectTable& empty() const { return empty_; }
    const std::vector<Spot>& spots() const { return spots_; }  ///< ring by ring
    /// Hours of a ring: all; on a plane 12 to 6, the others being their mirror; on the level one.
    int kept() const { return static_cast<int>(spots_.size()) / empty_.used(); }

  private:
    Putt putt_;
    ProspectTable empty_;
    State state_ = State::growing;
    std::vector<Spot> spots_;
};

}  // namespace dewtrail
