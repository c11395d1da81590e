#include "viewer/practice/measure/measure_typed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "greens/input_error.hpp"
#include "viewer/practice/measure/pace_measure.hpp"
#include "viewer/putt/setup.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

/// How far it would have rolled that took so long to the line.
double rolled_by_time_m(const std::string& text, const PaceFloor& floor) {
    if (const auto roll = roll_by_time_m(*floor.line_m, parse_time_s(text), floor.stimp_ft))
        return *roll;
    throw InputError("a ball that slow does not get to the line",
                     "Type the seconds from the stroke to the line.");
}

double stopped_m(const std::string& text, double called_m, const Units& units) {
    for (const auto& [word, side] :
         {std::pair("short", -1.0), std::pair("long", 1.0), std::pair("past", 1.0)})
        if (const auto at = text.find(word); at != text.npos) {
            const double off = parse_short_length_m(text.substr(0, at), units, "how far off");
            return std::max(called_m + side * off, 0.0);
        }
    return parse_level_roll_m(text, units, "where it stopped");
}

}  // namespace

PaceFloor usual_floor(const Units& units) {
    PaceFloor floor;
    floor.from_m = units.metric ? 2 : 6 * metres_per_foot;
    floor.to_m = units.metric ? 6 : 20 * metres_per_foot;
    floor.stimp_ft = usual_stimp_ft;
    return floor;
}

void check(const PaceFloor& floor) {
    if (!(floor.to_m > floor.from_m))
        throw InputError("the longest length is no longer than the shortest",
                         "Call lengths from 6 ft to 20 ft, say.");
    for (const double length : {floor.from_m, floor.to_m})
        if (const std::string wrong = out_of_range(PaceBall{.called_m = length}); !wrong.empty())
            throw InputError("that is " + wrong, "Call lengths from 6 ft to 20 ft, say.");
}

double parse_stop_m(const std::string& text, double called_m, const PaceFloor& floor,
                    const Units& units) {
    const double stop =
        floor.line_m ? rolled_by_time_m(text, floor) : stopped_m(text, called_m, units);
    const PaceBall ball{.called_m = called_m, .stopped_m = stop};
    if (const std::string wrong = out_of_range(ball); !wrong.empty())
        throw InputError("that is " + wrong, "Type where the ball stopped.");
    return stop;
}

Passed parse_passed(const std::string& text) {
    constexpr std::pair<std::string_view, Passed> words[] = {
        {"t", Passed::through}, {"through", Passed::through}, {"l", Passed::left},
        {"left", Passed::left}, {"r", Passed::right},         {"right", Passed::right}};
    for (const auto& [word, passed] : words)
        if (text == word) return passed;
    throw InputError(fmt::format("'{}' is neither through, left nor right", text),
                     "Type t, l or r; a ball that touches a coin went to its side.");
}

}  // namespace dewtrail
