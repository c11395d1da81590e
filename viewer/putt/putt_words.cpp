#include "viewer/putt/putt_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {

bool asks_past(const PlacedPutt& plan) {
    return plan.putt.finish.kind == Finish::Kind::past;
}

namespace {

/// On the level, over the centre (Holmes 1991); a slope hardly moves it.
constexpr double fastest_drop_m_s = 1.63;

std::string never_stops_words(const PlacedPutt& plan, const NoLine& none, const std::string& place,
                              const Units& units) {
    std::string words = fmt::format("No line: {} nothing stops (a ball stops up to {}).", place,
                                    format_slope(none.holds_up_to_slope));
    const double least = none.least_arrival_m_s.value_or(0);
    const std::string from = format_distance(plan.putt.distance_m(), units);
    if (least > fastest_drop_m_s)
        return words + fmt::format(
                           " From {} the slowest arrival is {}, faster than the {} a hole "
                           "can take.",
                           from, format_speed(least, units), format_speed(fastest_drop_m_s, units));
    if (least > 0.1)
        words +=
            fmt::format(" From {} the slowest arrival is {}.", from, format_speed(least, units));
    return words + " Ask for a speed at the hole instead: --hole-speed.";
}

}  // namespace

std::string no_line_words(const PlacedPutt& plan, const NoLine& none, const Units& units) {
    const std::string place =
        fmt::format("on {} at stimp {}", format_slope(plan.putt.slope_at_hole()),
                    format_stimp(plan.setup.stimp_ft));
    switch (none.why) {
        case NoLine::Why::never_stops:
            return never_stops_words(plan, none, place, units);
        case NoLine::Why::always_faster:
            return fmt::format("No line: {} the slowest arrival from {} is {}.", place,
                               format_distance(plan.putt.distance_m(), units),
                               format_speed(none.least_arrival_m_s.value_or(NAN), units));
        case NoLine::Why::leaves_the_green:
            return "No line: on its way the ball would leave the green. Move the ball or the hole, "
                   "or "
                   "ask for another finish.";
        case NoLine::Why::check_failed:
            return "No line that can be trusted: the putt is so delicate that a second integration "
                   "of the "
                   "stroke rolls elsewhere. Ask for a firmer finish.";
        case NoLine::Why::none_found:
            break;
    }
    const std::string asked =
        asks_past(plan)
            ? fmt::format("stops {}", finish_words(plan.putt.finish.value, units))
            : fmt::format("is at {} at the hole", format_speed(plan.putt.finish.value, units));
    if (!none.nearest_finish)
        return fmt::format("No line: no start line {}, and none was found near it.", asked);
    const std::string nearest = asks_past(plan) ? format_past(*none.nearest_finish, units)
                                                : format_speed(*none.nearest_finish, units);
    return fmt::format("No line: no start line {}. The nearest that does: {}.", asked, nearest);
}

std::string putt_words(const PlacedPutt& plan, const Units& units) {
    std::string text = format_distance(plan.putt.distance_m(), units);
    if (plan.setup.green) text += fmt::format(" on {}", plan.setup.green->name);
    if (!plan.setup.hole_name.empty()) text += fmt::format(", hole {}", plan.setup.hole_name);
    if (!plan.setup.ball_name.empty()) text += fmt::format(", ball {}", plan.setup.ball_name);
    text += plan.putt.slope_at_hole() > 0
                ? fmt::format(", {}", format_slope(plan.putt.slope_at_hole()))
                : ", level";
    if (clock_of(plan.setup))
        text += fmt::format(", ball at {}", format_clock(*clock_of(plan.setup)));
    text += fmt::format(", stimp {}", format_stimp(plan.setup.stimp_ft));
    return text + ", " +
           (asks_past(plan) ? finish_words(plan.putt.finish.value, units)
                            : format_speed(plan.putt.finish.value, units) + " at the hole");
}

}  // namespace dewtrail
