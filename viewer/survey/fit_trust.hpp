#pragma once

#include <vector>

#include "physics/survey/survey_fit.hpp"

/// How far to trust a fitted green. Everything here wants a fit whose status is Fitted, made of the
/// survey it comes with; else std::invalid_argument.
namespace dewtrail {

/// A level this far off its fit is worth reading again (product convention), rise over run. A fit
/// that allows steps follows a misread level most of the way: 3.6 % leave 0.33 % on the meadow.
inline constexpr double doubtful_level = 0.003;
/// And a height off by so many of its standard deviations.
inline constexpr double doubtful_height_sds = 3;

/// How one reading compares with the fit. One of `level` and `height` fits the survey's own list.
struct Disagreement {
    bool is_level = true;
    std::size_t index = 0;  ///< in the survey's levels or heights
    Vec2 at{0, 0};
    double off = 0;  ///< size of reading minus fit: rise over run, or metres
    double sds = 0;  ///< the same in standard deviations, as the residuals show them
    bool doubtful = false;
};

/// All readings, the one that disagrees most (in standard deviations) first.
std::vector<Disagreement> disagreements(const Survey& survey, const SurfaceFit& fit);

/// One standard deviation of the slope along the bearing for which it is largest, rise over run.
double largest_slope_sd(const SurfaceFit& fit, const Vec2& at);
/// At many places, in much less time.
std::vector<double> largest_slope_sds(const SurfaceFit& fit, const std::vector<Vec2>& places);

/// largest_slope_sd over the surveyed ground: the convex hull of the readings, sampled on a
/// lattice of at most 16 by 16.
struct SlopeTrust {
    double median = 0, worst = 0;
    Vec2 worst_at{0, 0};
};
SlopeTrust slope_trust(const Survey& survey, const SurfaceFit& fit);

/// Where all readings were taken: levels, then heights.
std::vector<Vec2> places_of(const Survey& survey);

/// Corners of the convex hull, anticlockwise, none on a straight edge (Andrew 1979, Inf. Process.
/// Lett. 9, 216, from memory). Points on one line give its two ends.
std::vector<Vec2> convex_hull(std::vector<Vec2> points);

}  // namespace dewtrail
