#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/putt/condition_request.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {

/// A putt as a person types it, word for word; nothing is converted yet. Unset: not given.
struct PuttRequest {
    std::optional<std::string> distance;
    // The slope, in one of these ways:
    std::optional<std::string> slope, clock;                       ///< total, and the ball's clock
    std::optional<std::string> up, down, falls_left, falls_right;  ///< as a level on the line shows
    std::vector<std::string> readings;                             ///< along the line
    std::optional<std::string> rise, drop, step_at, step_width;    ///< a height
    std::optional<std::string> green, ball, hole;  ///< a green file, named or measured
    std::optional<std::string> stimp;
    bool wet = false;
    std::optional<std::string> past, hole_speed;
    bool die = false;
    std::optional<std::string> slope_sure, stimp_sure;
    ConditionRequest conditions{};

    bool names_no_finish() const { return !past && !hole_speed && !die; }
    /// Neither length nor ground: no putt is named.
    bool names_no_putt() const {
        return !distance && !slope && !clock && !up && !down && !falls_left && !falls_right &&
               readings.empty() && !rise && !drop && !green;
    }
};

/// 12 ft on 2 %, the ball at 3:00: what a newcomer sees.
PuttRequest first_putt();

/// What is assumed where a person did not say.
struct PuttDefaults {
    Units units;
    double usual_past_m = dewtrail::usual_past_m;
    std::optional<double> stimp_ft;
    std::vector<std::filesystem::path> green_folders;
};

inline constexpr double wet_stimp_ft = 1.5;  ///< taken off by `wet`

/// Throws InputError for anything that cannot be understood, is out of range, contradicts itself or
/// is missing.
PlacedPutt set_up(const PuttRequest& request, const PuttDefaults& defaults);

}  // namespace dewtrail
