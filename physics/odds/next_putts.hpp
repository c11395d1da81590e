#pragma once

#include <array>
#include <vector>

#include "physics/odds/hole_surround.hpp"

namespace dewtrail {

/// What a player intends from a spot.
struct Choice {
    int nearest = 2;  ///< index of the finish nearest to it
    double past_m = 0;
    double aim = 0;  ///< right of the read, in standard deviations of the start angle
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
    const std::vector<Choice>& choices() const { return choices_; }  ///< as the surround's spots
    int sweeps() const { return sweeps_; }

  private:
    void guess();
    void take(int ring, const std::array<Prospect, ProspectTable::hours>& found, int kept);

    ProspectTable table_;
    std::vector<Choice> choices_;
    int sweeps_ = 0;
};

}  // namespace dewtrail
