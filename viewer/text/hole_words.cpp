#include "viewer/text/hole_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/outcome.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

using How = HoleOutcome::How;

constexpr double hardly_turned_rad = 3 / degrees_per_rad;

/// The side on which it met the rim, seen the way it came.
std::string side_met(const Putt& putt, const HoleMeeting& meeting) {
    const RimArrival arrival = arrival_at(putt, meeting.rim);
    return side_words(side_of(arrival.offset_m, arrival.slope_right));
}

std::string side_it_fell(const Putt& putt, const HoleMeeting& meeting) {
    const double rises_right = arrival_at(putt, meeting.rim).slope_right;
    return fmt::format("{} side", side_word(side_of(meeting.outcome.touched_m.x(), rises_right)));
}

bool turned_away(How how) {
    return how == How::lips_out || how == How::hops_over;
}

/// Words for a ball that this meeting left outside the hole.
std::string out_words(const Putt& putt, const HoleMeeting& meeting) {
    if (meeting.outcome.how == How::hops_over) return "hopped over the hole";
    if (meeting.outcome.how == How::lips_out) {
        const bool grazed = std::abs(meeting.outcome.turn_rad) < hardly_turned_rad;
        return (grazed ? "burned the edge, " : "lipped out, ") + side_met(putt, meeting);
    }
    return "hung on the rim";
}

}  // namespace

std::string how_words(const Putt& putt, const HoleMeeting& meeting) {
    if (meeting.outcome.how != How::drops_off_the_side) return to_string(meeting.outcome.how);
    return "drops off the " + side_it_fell(putt, meeting);
}

std::string how_words(const Putt& putt, const OpenRoll& roll) {
    return roll.meetings.empty() ? to_string(How::passes) : how_words(putt, roll.meetings.front());
}

std::string verdict_at_hole(const Putt& putt, const OpenRoll& roll) {
    if (roll.meetings.empty()) return "";
    const HoleMeeting &first = roll.meetings.front(), &last = roll.meetings.back();
    if (!roll.holed) return out_words(putt, last);
    if (turned_away(first.outcome.how)) return out_words(putt, first) + ", and came back in";
    const std::string in = "in the hole, " + entry_words(entry_clock_h(putt, last.rim));
    return last.outcome.how == How::drops ? in : in + ": " + how_words(putt, last);
}

double entry_clock_h(const Putt& putt, const PathPoint& rim) {
    const double round =
        std::remainder(bearing_of(rim.at - putt.hole) - bearing_of(putt.line()), 2 * M_PI);
    return (round < 0 ? round + 2 * M_PI : round) * hours_per_rad;
}

}  // namespace dewtrail
