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

double stopped_m(const std::string& text, double called_m, const Units& units) {
    for (const auto& [word, side] :
         {std::pair("short", -1.0), std::pair("long", 1.0), std::pair("past", 1.0)})
        if (const auto at = text.find(word); at != text.npos) {
            const double off = parse_short_length_m(text.substr(0, at), units, "how far off");
            return std::max(called_m + side * off, 0.0);
        }
    return parse_level_roll_m(text, units, "where it stopped");
}

/// Seconds: a number, with an s or without.
bool is_time(const std::string& text) {
    return text.find_first_not_of("0123456789., s") == text.npos;
}

/// How far it would have rolled that took so long, or rolled before the line.
double timed_stop_m(const std::string& text, double called_m, const PaceFloor& floor,
                    const Units& units) {
    if (is_time(text)) {
        if (const auto roll = roll_by_time_m(*floor.timed, parse_time_s(text), floor.stimp_ft))
            return *roll;
        throw InputError("a ball that slow does not get to the line",
                         "Type the seconds, or where it stopped: 4 ft.");
    }
    const double stop = stopped_m(text, called_m, units);
    if (stop > floor.timed->to_m)
        throw InputError("that is beyond the line", "A ball that crosses it is timed: 1.2 s.");
    return stop;
}

/// What stands before 'back', and how far back that was.
struct DrawnBack {
    std::string stop;
    std::optional<double> backswing_m;
};
DrawnBack drawn_back(const std::string& text, const Units& units) {
    const auto at = text.find("back");
    if (at == text.npos) return {text, std::nullopt};
    std::string stop = text.substr(0, at);
    stop.erase(stop.find_last_not_of(" ,") + 1);
    const double back_m = parse_short_length_m(text.substr(at + 4), units, "how far back");
    const Range backswing{0.02, 2};  // as in a stroke table, and none so short that it is a slip
    if (!backswing.holds(back_m))
        throw InputError("no putter is drawn back so far", "Type 2 cm to 2 m: 11 ft, back 9 in.");
    return {stop, back_m};
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

Stretch parse_stretch(const std::string& text, const Units& units) {
    const auto comma = text.find(',');
    Stretch stretch;
    if (comma != text.npos)
        stretch.from_m = parse_distance_m(text.substr(0, comma), units, "first mark");
    stretch.to_m =
        parse_distance_m(comma == text.npos ? text : text.substr(comma + 1), units, "line");
    constexpr double least_m = 0.1;  // a hand cannot time less
    if (stretch.to_m < stretch.from_m + least_m)
        throw InputError("the second mark does not lie beyond the first",
                         "Write the one nearer the ball first: 3ft,6ft.");
    return stretch;
}

BallStop parse_stop(const std::string& text, double called_m, const PaceFloor& floor,
                    const Units& units) {
    const DrawnBack typed = drawn_back(text, units);
    if (typed.backswing_m && floor.timed && is_time(typed.stop))
        throw InputError("only a ball that rolls out tells the floor's speed",
                         "Leave 'back' out, or let it stop before the line.");
    const double stop = floor.timed ? timed_stop_m(typed.stop, called_m, floor, units)
                                    : stopped_m(typed.stop, called_m, units);
    const PaceBall ball{.called_m = called_m, .stopped_m = stop};
    if (const std::string wrong = out_of_range(ball); !wrong.empty())
        throw InputError("that is " + wrong, "Type where the ball stopped.");
    return {stop, typed.backswing_m};
}

double parse_floor_stimp_ft(const std::string& text, const Units& units, const Player& player) {
    const DrawnBack typed = drawn_back(text, units);
    if (!typed.backswing_m) return parse_stimp_ft(text);
    const double rolled_m = parse_level_roll_m(typed.stop, units, "where it stopped");
    const auto stimp = floor_stimp_ft({{rolled_m, typed.backswing_m}}, player, 1);
    if (!stimp)
        throw InputError("the player file has no stroke table to tell the floor's speed by",
                         "Add rows: dewtrail player set --stroke 20cm,3m");
    return parse_stimp_ft(fmt::format("{}", stimp->mean));
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
