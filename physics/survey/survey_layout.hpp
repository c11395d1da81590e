#pragma once

#include <optional>
#include <string>

#include "physics/survey/survey_fit.hpp"

/// What the positions of a survey's readings decide before anything is fitted.
namespace dewtrail {

/// std::invalid_argument for a reading (place in metres, slope, height) that is not finite or
/// beyond 1e4, or an sd outside 1e-6 to 1e3.
void check_readings(const Survey& survey);

/// The mean of all readings' places.
Vec2 middle_of(const Survey& survey);

struct SurveyLack {
    FitStatus status;
    std::string message;
};

/// Why no plane, let alone a surface, follows from these readings; nothing if one does.
std::optional<SurveyLack> what_is_missing(const Survey& survey);

/// The cells to fit on; see SurveyFitOptions for the rules, which it checks.
SplineGrid lay_grid(const Survey& survey, const SurveyFitOptions& options);

}  // namespace dewtrail
