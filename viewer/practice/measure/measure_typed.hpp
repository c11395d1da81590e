#pragma once

#include <optional>
#include <string>

#include "greens/units.hpp"
#include "viewer/practice/measure/line_measure.hpp"
#include "viewer/practice/measure/timed_floor.hpp"

/// What a player types in the tests of pace and line. All throw InputError.
namespace dewtrail {

/// The level floor that the pace test is putted on.
struct PaceFloor {
    double from_m = 0, to_m = 0;     ///< lengths that are called
    std::optional<Stretch> timed{};  ///< too short to roll out: what a ball is timed over
    double stimp_ft = 0;             ///< the floor's own, for that

    bool operator==(const PaceFloor&) const = default;
};

/// 6 to 20 ft, or 2 to 6 m, rolled out.
PaceFloor usual_floor(const Units& units);
/// What is wrong with it is said as an InputError.
void check(const PaceFloor& floor);

/// '6ft', a line so far away; '3ft, 6ft', from a first mark to the line.
Stretch parse_stretch(const std::string& text, const Units& units);

/// Where a ball stopped on it: a length, or so much 'short', 'long' or 'past' of the one called
/// ('10 in short'); where balls are timed the seconds, which say how far it would have rolled, or
/// the length of one that stopped before the line. A ball that rolled out may say how far the
/// putter was drawn back: '11 ft, back 9 in'.
BallStop parse_stop(const std::string& text, double called_m, const PaceFloor& floor,
                    const Units& units);

/// The floor's speed: a stimp, or one ball on it by the player's stroke table: '4 ft, back 6 in'.
double parse_floor_stimp_ft(const std::string& text, const Units& units, const Player& player);

/// 't', 'l', 'r' or the whole words.
Passed parse_passed(const std::string& text);

}  // namespace dewtrail
