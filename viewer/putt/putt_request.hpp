#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "greens/green.hpp"
#include "greens/units.hpp"
#include "physics/read/read.hpp"
#include "viewer/putt/condition_request.hpp"

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
};

/// What is assumed where a person did not say.
struct PuttDefaults {
    Units units;
    double usual_past_m = dewtrail::usual_past_m;
    std::optional<double> stimp_ft;
    std::vector<std::filesystem::path> green_folders;
};

/// A putt ready to be read, and what is known about it besides the physics.
struct PlannedPutt {
    Putt putt;
    double stimp_ft = 10;
    double slope_at_hole = 0;       ///< rise over run
    std::optional<double> clock_h;  ///< of the ball; none where the slope is under 0.1 %
    double mean_up = 0;             ///< mean grade ball to hole, uphill positive
    std::optional<Green> green;
    std::string ball_name, hole_name;  ///< on a green, where they were named
    std::optional<double> slope_sure, stimp_sure_ft;
    std::vector<std::string> notes;  ///< defaults that were used, instruments' errors, …
};

inline constexpr double usual_stimp_ft = 10;
inline constexpr double wet_stimp_ft = 1.5;  ///< taken off by `wet`
inline constexpr double lag_distance_m = 30 * metres_per_foot;
inline constexpr double lag_past_m = 3 * metres_per_inch;

/// Throws InputError for anything that cannot be understood, is out of range, contradicts itself or
/// is missing.
PlannedPutt plan_putt(const PuttRequest& request, const PuttDefaults& defaults);

/// The same green and finish with the ball somewhere else: distance and clock round the hole. On a
/// green whose slope at the hole is under 0.1 % the clock is taken from north.
PlannedPutt with_ball_at(const PlannedPutt& plan, double distance_m, double clock_h);

/// Ball clock of a place round the hole; none where the slope at the hole is under 0.1 %.
std::optional<double> clock_of(const Putt& putt, const Vec2& place);

}  // namespace dewtrail
