#pragma once

#include <optional>
#include <string>
#include <vector>

#include "greens/units.hpp"
#include "physics/roll/conditions.hpp"

namespace dewtrail {

/// Wind, grain, skid and resistance as a person types them. Unset: not given, off.
struct ConditionRequest {
    std::optional<std::string> launch_spin;
    std::optional<std::string> wind, wind_from, wind_at;
    std::optional<std::string> grain, grain_toward;
    std::optional<std::string> slow_share;
};

/// The grain of two stimp readings, down and into it; none if none was given. Throws InputError.
std::optional<GrainReading> parse_grain(const ConditionRequest& request);

/// `line`: from ball to hole, since left and right are the player's. Adds a line to `notes` for
/// each that is on. Throws InputError for what cannot be understood.
Conditions parse_conditions(const ConditionRequest& request, const Units& units, const Vec2& line,
                            std::vector<std::string>& notes);

}  // namespace dewtrail
