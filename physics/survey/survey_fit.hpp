#pragma once

#include <Eigen/Core>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "physics/surface/fitted_surface.hpp"

namespace dewtrail {

/// One standard deviation of a hand-read level and of a height, where the survey does not say:
/// common practice, no source.
inline constexpr double default_level_sd = 0.002;
inline constexpr double default_height_sd_m = 0.003;

/// What a level shows at one spot: the gradient (rise over run, green frame), two numbers.
/// `sd` is one standard deviation of either.
struct LevelReading {
    Vec2 at{0, 0};
    Vec2 gradient{0, 0};
    double sd = default_level_sd;
};

/// A level reading from a slope (rise over run) and the bearing it falls toward.
LevelReading level_reading(const Vec2& at, double slope, double falls_toward_rad,
                           double sd = default_level_sd);

/// A level reading from its two slopes, rise over run: along a direction (unit, plan), positive
/// uphill, and across it, positive where the ground falls to the left of that direction.
LevelReading level_reading_along(const Vec2& at, const Vec2& direction, double up,
                                 double falls_left, double sd = default_level_sd);

/// A height, metres, above a datum that all heights of the survey share.
struct HeightReading {
    Vec2 at{0, 0};
    double height_m = 0;
    double sd_m = default_height_sd_m;

    bool operator==(const HeightReading&) const = default;
};

struct Survey {
    std::vector<LevelReading> levels;
    std::vector<HeightReading> heights;
};

struct SurveyFitOptions {
    /// Points the grid must reach as well as the readings: the outline's corners.
    std::vector<Vec2> cover{};
    /// How far the grid goes beyond readings and cover. A ball may roll on for a metre.
    double margin_m = 2.0;
    /// Size of the spline's cells, 0.2 to 10 m. Unset: the mean distance between readings, held
    /// within 0.5 to 1.25 m, and coarser where the grid would pass 4000 coefficients.
    std::optional<double> spacing_m{};
};

/// A linear functional of the surface: the sum over terms of
///     height * h(at) + gradient . grad h(at).
struct SurfaceTerm {
    Vec2 at{0, 0};
    double height = 0;
    Vec2 gradient{0, 0};
};
using SurfaceFunctional = std::vector<SurfaceTerm>;

class FitPosterior;

enum class FitStatus {
    fitted,
    too_few_readings,  ///< fewer than three, a level and a height each counting as one
    on_one_spot,       ///< all within 0.1 m
    on_one_line,  ///< heights alone, none of them 0.1 m off one line: the cross slope is unknown
    singular,     ///< the equations could not be solved; the readings' sds differ too wildly
};

/// A surface fitted to a survey, and how far to trust it.
///
/// The heights h of a bicubic spline minimise
///     sum (level residual/sd)^2 + sum (height residual/sd)^2 + lambda * bending energy.
/// Read as statistics: h is a Gaussian field, flat but for bending with prior precision
/// lambda * energy (Wahba 1983, J. R. Stat. Soc. B 45, 133). The energy counts how the bend changes
/// over a reach as well as how much there is of it: a slope read at one spot means something in two
/// dimensions only where third derivatives are held (2 (m - k) > d for k-th derivatives; Duchon
/// 1977, Lect. Notes Math. 571, 85). Lambda and reach are not known: the surface is the mean over
/// all that the readings allow, weighed by restricted likelihood (Wood 2011, J. R. Stat. Soc. B 73,
/// 3; Rue, Martino & Chopin 2009, ibid. 71, 319), and so is its uncertainty. Cited from memory. The
/// stated sds are taken as right to a common factor `sd_scale`, estimated with them under a prior
/// that counts as thirty numbers read: a handful of readings leave it near 1, hundreds decide it.
///
/// With levels alone heights are relative: h = 0 at the middle of the readings.
struct SurfaceFit {
    FitStatus status = FitStatus::singular;
    std::string message;  ///< one line; empty if fitted

    std::shared_ptr<const FittedSurface> surface;  ///< null unless fitted
    std::vector<Vec2> level_residuals;             ///< reading minus fit, rise over run
    std::vector<double> height_residuals_m;        ///< reading minus fit
    double level_rms = 0;                          ///< over both components; 0 if no levels
    double height_rms_m = 0;                       ///< 0 if no heights
    double lambda = 0;                             ///< likeliest, dimensionless
    double degrees_of_freedom = 0;  ///< spent on the surface: 3 (2 with levels alone) is a plane
    double sd_scale = 1;            ///< stated sds times this is what the residuals look like

    /// One standard deviation of the slope along a bearing, rise over run. Includes sd_scale, what
    /// smoothing may have hidden and which smoothing it is. 0 unless fitted.
    double slope_sd(const Vec2& at, double bearing_rad) const;

    /// Covariance of linear functionals of the surface, in the product of their units. With levels
    /// alone only differences of heights mean anything. Zero unless fitted.
    Eigen::MatrixXd covariance(const std::vector<SurfaceFunctional>& functionals) const;

    /// Surfaces as likely as the readings say, the same for the same seed. None unless fitted.
    std::vector<std::shared_ptr<const FittedSurface>> drawn(int count, std::uint64_t seed) const;

    std::shared_ptr<const FitPosterior> posterior;  ///< the factored equations, kept for the above
};

/// Fits a surface. Some twenty-five sparse factorisations: 20 ms for 500 coefficients, 140 ms for
/// 1400, about n^1.7 beyond, and in proportion to the readings. Exact on planes, to rounding.
/// Heights of a smooth green on a 2 m lattice, read to a millimetre, give slopes good to 0.1 %
/// (rms). Eighteen levels read to 0.2 %: the stated 95 % of slopes along and across a putt and at
/// its hole, and of its aim spot, hold in 93 to 97 of 100 invented greens, smooth and stepped
/// (tests/physics/survey/survey_coverage_test.cpp). std::invalid_argument for a reading that is not
/// finite or beyond 1e4, an sd outside 1e-6 to 1e3, a spacing outside its range or one that would
/// need more than 10,000 coefficients.
SurfaceFit fit_survey(const Survey& survey, const SurveyFitOptions& options = {});

}  // namespace dewtrail
