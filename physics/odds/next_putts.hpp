#pragma once

#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "physics/odds/prospect_table.hpp"
#include "physics/odds/scatter.hpp"
#include "physics/odds/stroke_map.hpp"

namespace dewtrail {

/// Putts from all round one hole that do not depend on the player: spots, their strokes for several
/// finishes, and what strokes do. Made once a hole, then used for any number of spreads.
///
/// Every spot's ground is taken as the plane that lies on average between it and the hole, its
/// slope held to 0.9 of what stops a ball. On a plane that is exact.
class HoleSurround {
  public:
    /// None where nothing stops at the hole. `reach_m`: how far from the hole putts are wanted;
    /// farther out they are only extrapolated.
    static std::optional<HoleSurround> make(std::shared_ptr<const Surface> surface,
                                            double resistance, const Vec2& hole,
                                            double reach_m = ProspectTable::rings_m.back());

    /// The finishes among which we search for the fewest putts.
    static constexpr std::array<double, 7> pasts_m{0.0, 0.08, 0.2, 0.35, 0.5, 0.7, 0.95};

    struct Option {
        double angle_rad, level_roll_m;
        Eigen::Matrix2d sensitivity;
    };
    struct Spot {
        StrokeMap map;
        std::array<Option, pasts_m.size()> options;
        Option option(double past_m) const;  ///< between them
    };

  private:
    friend class NextPutts;
    explicit HoleSurround(const ProspectTable& empty) : empty_(empty) {}

    /// Hours of a ring: all; on a plane 12 to 6, the others being their mirror; on the level one.
    int kept() const;

    ProspectTable empty_;
    std::vector<Spot> spots_;  ///< ring by ring
};

/// Expected putts from anywhere round one hole for one player: from each spot the choice of finish
/// and aim that takes the fewest, with the same spread on every putt that follows. Value iteration,
/// outward from short distances, until no spot changes by 5e-4; finish and aim are chosen in the
/// first sweep. Surround and table are worked out on all cores, and do not depend on their number.
class NextPutts {
  public:
    NextPutts(const HoleSurround& surround, const Scatter& scatter);

    Prospect from(const Vec2& place) const { return table_.from(place); }
    const ProspectTable& table() const { return table_; }
    int sweeps() const { return sweeps_; }

  private:
    void guess();
    void take(int ring, const std::array<Prospect, ProspectTable::hours>& found, int kept);

    ProspectTable table_;
    int sweeps_ = 0;
};

}  // namespace dewtrail
