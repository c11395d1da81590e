#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "physics/read/read.hpp"
#include "physics/survey/survey_fit.hpp"

/// What a survey leaves open about one putt, and where to lay the level next. Everything here wants
/// a fit whose status is Fitted; std::invalid_argument if it is not, or if ball and hole are one.
namespace dewtrail {

/// One standard deviation each of the mean slope along the line from ball to hole and across it
/// (rise over run).
struct LineDoubt {
    double along = 0, across = 0;
};
LineDoubt line_doubt(const SurfaceFit& fit, const Vec2& ball, const Vec2& hole);

/// One standard deviation of a read's aim and pace, as the survey leaves the green open. `read` is
/// of `putt`, on the fitted surface. From reads on surfaces drawn as the readings allow them, the
/// same for the same seed. None where fewer than half of the drawn surfaces have such a read.
struct ReadDoubt {
    double aim_m = 0, level_putt_m = 0;
};
std::optional<ReadDoubt> read_doubt(const Putt& putt, const Read& read, const SurfaceFit& fit,
                                    double usual_past_m, int draws = 40, std::uint64_t seed = 1);

/// A spot where a level read to `sd` would tell most about the mean slopes along and across the
/// line: it makes the sum of their variances least (a Bayesian A-optimal design for two
/// functionals; Chaloner & Verdinelli 1995, Stat. Sci. 10, 273, from memory).
struct NextSpot {
    Vec2 at{0, 0};
    LineDoubt before, after;
};

/// The best among spots on and beside the line, up to 2 m off it, inside the outline if there is
/// one; none where no such spot is.
std::optional<NextSpot> next_spot(const SurfaceFit& fit, const Vec2& ball, const Vec2& hole,
                                  const Outline* outline = nullptr, double sd = default_level_sd);

}  // namespace dewtrail
