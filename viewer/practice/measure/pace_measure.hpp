#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "viewer/files/record.hpp"
#include "viewer/practice/habits/bias.hpp"

namespace dewtrail {

/// A ball of the pace test: a length was called, and it stopped somewhere on a level floor.
struct PaceBall {
    std::int64_t id = 0;
    std::string at{};  ///< when, ISO 8601
    double called_m = 0, stopped_m = 0;
};
std::span<const RecordField<PaceBall>> pace_ball_fields();
/// What about it could not have been typed, or nothing.
std::string out_of_range(const PaceBall& ball);

inline constexpr int least_pace_balls = 6;

/// What the balls say of a player's pace. A bias is the part by which balls stop long (above 0) or
/// short of what was called.
struct PaceFound {
    int balls = 0;
    double short_m = 0, long_m = 0;  ///< the shortest and the longest length called
    Credible bias, short_bias, long_bias;
    Credible spread;  ///< one standard deviation, part of the length
    Credible floor_m;
};

/// stopped ~ called (1 + bias + tilt ln(called / geometric mean)), give or take the greater of
/// spread * called and the floor; of strokes in general 3 % are mishits, which scatter four times
/// as far, so that one of them does not ruin the rest. Integrated on a grid. None under
/// least_pace_balls.
std::optional<PaceFound> pace_found(const std::vector<PaceBall>& balls);

/// The lengths to call, in a mixed order: five lengths from least to most, each once before any
/// comes again.
std::vector<double> called_lengths_m(double least_m, double most_m, int balls, std::uint64_t seed);

}  // namespace dewtrail
