#pragma once

#include <optional>
#include <string>

#include "greens/units.hpp"
#include "viewer/practice/measure/line_measure.hpp"

/// What a player types in the tests of pace and line. All throw InputError.
namespace dewtrail {

/// The level floor that the pace test is putted on.
struct PaceFloor {
    double from_m = 0, to_m = 0;     ///< lengths that are called
    std::optional<double> line_m{};  ///< too short to roll out: the time to a line so far away
    double stimp_ft = 0;             ///< the floor's own, for that

    bool operator==(const PaceFloor&) const = default;
};

/// 6 to 20 ft, or 2 to 6 m, rolled out.
PaceFloor usual_floor(const Units& units);
/// What is wrong with it is said as an InputError.
void check(const PaceFloor& floor);

/// Where a ball stopped on it: a length, or so much 'short', 'long' or 'past' of the one called
/// ('10 in short'); with a line the seconds to it, which say how far it would have rolled.
double parse_stop_m(const std::string& text, double called_m, const PaceFloor& floor,
                    const Units& units);

/// 't', 'l', 'r' or the whole words.
Passed parse_passed(const std::string& text);

}  // namespace dewtrail
