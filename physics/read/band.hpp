#pragma once

#include <optional>

#include "physics/read/read.hpp"

namespace dewtrail {

/// How well the ground is known: half-widths that hold 19 times in 20.
struct Sure {
    double slope = 0;    ///< rise over run, with the fall line known
    double stimp_m = 0;  ///< metres
};

/// How uncertain that leaves a read, 19 times in 20.
struct Band {
    std::optional<double> aim_m, level_putt_m;  ///< half-widths; none where the read has no costs
    /// Whether each changes in proportion over its band. Where it does not (misread to either end,
    /// it differs from the straight line by more than a tenth of the half-width, or there is no
    /// line), the band is only a rough figure and must be shown as such.
    bool aim_linear = true, level_putt_linear = true;
};

/// To first order through the costs of the read (MODEL.md section 5), slope and stimp misread
/// independently: where linear, the truth lies inside in 94 to 96 % of cases. Reads the putt up
/// to four times more. Throws std::invalid_argument for a negative half-width.
Band band_of(const Putt& putt, const Read& read, const Sure& sure);

}  // namespace dewtrail
