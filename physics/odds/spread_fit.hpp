#pragma once

#include <optional>
#include <string>
#include <vector>

#include "physics/odds/scatter.hpp"

namespace dewtrail {

/// Putts tried and holed from one distance.
struct HoledRow {
    double distance_m = 0;
    double tries = 0, holed = 0;
};

/// Putts holed if the start angle alone decides, and the ball must pass within R - r of the centre:
/// p = 2 Phi(asin((R - r)/x) / sigma) - 1 (Gelman & Nolan, Teaching Statistics 24(3), 93-95, 2002,
/// from memory). Its sigma belongs to that narrow hole, not to the capture model of this program.
struct AngleOnlyFit {
    double line_rad = 0, line_error_rad = 0;
    double chance(double distance_m) const;
};
/// Maximum likelihood, binomial. Throws std::invalid_argument as fit_spread does.
AngleOnlyFit fit_angle_only(const std::vector<HoledRow>& rows);

/// The same with distance: p = angle part x [Phi((t - o)/((x + o) s)) - Phi(-o/((x + o) s))], o =
/// 1 ft past meant, t = 3 ft allowed; observed share normal with variance p(1-p)/n + extra^2
/// (Broadie's model in Gelman 2019, mc-stan.org case study 'golf'). Descriptive: it calls 13 % of
/// 10-footers short where 7 % are.
struct AngleDistanceFit {
    double line_rad = 0, distance = 0, extra = 0;
    double line_error_rad = 0, distance_error = 0;
    double chance(double distance_m) const;
};
AngleDistanceFit fit_angle_and_distance(const std::vector<HoledRow>& rows);

/// Where the putts were played; what they were meant to do. Averaged over the clock.
struct FitGround {
    double resistance = 0;
    double slope = 0.015;
    double past_m = 12 * metres_per_inch;
};

/// A player's line and pace spread from putts made and missed, the floor held at `known`. A misread
/// across the fall line and a stroke off line miss alike, so slope read and fall read go with the
/// line, in the proportions that `known` has.
struct SpreadFit {
    enum class Outcome {
        both,       ///< line and pace
        line_only,  ///< the putts do not tell the pace: held at `known`
        none,       ///< they do not even tell the line (all holed, all missed): all held
    };
    Outcome outcome = Outcome::none;
    Scatter scatter;
    double line_error_rad = 0, pace_error = 0;  ///< one standard error; 0 where held
    double deviance = 0;                        ///< twice the log likelihood short of a perfect fit
    std::vector<double> expected;               ///< chance to hole by row
};

/// Maximum likelihood with this program's capture model; errors from the second derivatives. A row
/// of very many tries counts for no more than the model is good to, half a point. Throws
/// std::invalid_argument for no rows, a distance outside 0.08 to 40 m, or more holed than tried.
SpreadFit fit_spread(const std::vector<HoledRow>& rows, const Scatter& known,
                     const FitGround& ground);

}  // namespace dewtrail
