#include "viewer/putt/putt_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "viewer/putt/account.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

std::string typed_or(const Setup& setup, const std::string& typed, const Units& units,
                     const std::string& figure) {
    return typed.empty() || setup.typed.metric != units.metric ? figure : typed;
}

}  // namespace

std::string distance_figure(const Setup& setup, const Units& units) {
    return typed_or(setup, setup.typed.distance, units, format_distance(distance_of(setup), units));
}

std::string slope_figure(const Setup& setup, const Units& units) {
    return typed_or(setup, setup.typed.slope, units, format_slope(slope_at_hole(setup)));
}

std::string clock_figure(const Setup& setup) {
    const double clock_h = bearing_hours(setup);
    return setup.typed.clock.empty() ? format_clock(clock_h) : format_entry_clock(clock_h);
}

std::string stimp_figure(const Setup& setup, const Units& units) {
    return typed_or(setup, setup.typed.stimp, units, format_stimp(setup.stimp_ft));
}

std::string past_figure(const Setup& setup, const Units& units) {
    return typed_or(setup, setup.typed.finish, units, format_past(setup.finish.value, units));
}

std::string finish_words(const Setup& setup, const Units& units) {
    const double value = setup.finish.value;
    if (setup.finish.kind == Finish::Kind::hole_speed)
        return format_speed(value, units) + " at the hole";
    const std::string words = finish_words(value, units);
    // Only what is exactly a foot or firm is told by its name when it was typed.
    const auto is = [&](double past_m) { return std::abs(value - past_m) < 1e-6; };
    if (setup.typed.finish.empty() || is(0) || is(usual_past_m) || is(firm_past_m)) return words;
    return past_figure(setup, units) + " past";
}

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
    const std::string from = distance_figure(plan.setup, units);
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
    const std::string place = fmt::format("on {} at stimp {}", slope_figure(plan.setup, units),
                                          stimp_figure(plan.setup, units));
    switch (none.why) {
        case NoLine::Why::never_stops:
            return never_stops_words(plan, none, place, units);
        case NoLine::Why::always_faster:
            return fmt::format("No line: {} the slowest arrival from {} is {}.", place,
                               distance_figure(plan.setup, units),
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
        (asks_past(plan) ? "stops " : "is at ") + finish_words(plan.setup, units);
    if (!none.nearest_finish)
        return fmt::format("No line: no start line {}, and none was found near it.", asked);
    const std::string nearest = asks_past(plan) ? format_past(*none.nearest_finish, units)
                                                : format_speed(*none.nearest_finish, units);
    return fmt::format("No line: no start line {}. The nearest that does: {}.", asked, nearest);
}

namespace {

/// A step on the way makes a level hole no level putt.
std::string slope_words(const PlacedPutt& plan, const Units& units) {
    const Putt& putt = plan.putt;
    const std::string slope = slope_figure(plan.setup, units);
    if (putt.slope_at_hole() > 0 && slope != format_slope(0)) return slope;
    const double rise_m = putt.mean_rise() * putt.distance_m();
    const std::string height = format_length(rise_m, units);
    if (height == format_length(0, units)) return "level";
    return fmt::format("level at the hole, {} {}", rise_m > 0 ? "rises" : "falls", height);
}

}  // namespace

std::string putt_words(const PlacedPutt& plan, const Units& units) {
    const Setup& setup = plan.setup;
    std::string text = distance_figure(setup, units);
    if (setup.green) text += fmt::format(" on {}", setup.green->name);
    if (!setup.hole_name.empty()) text += fmt::format(", hole {}", setup.hole_name);
    if (!setup.ball_name.empty()) text += fmt::format(", ball {}", setup.ball_name);
    text += ", " + slope_words(plan, units);
    if (clock_of(setup)) text += ", ball at " + clock_figure(setup);
    return fmt::format("{}, stimp {}, {}", text, stimp_figure(setup, units),
                       finish_words(setup, units));
}

std::string read_as_text(const Setup& setup, const Solved& solved, const Units& units) {
    std::string text = putt_words(placed(setup), units) + ". ";
    if (!solved.read) return text + trouble_of(solved, units).words;
    const Account account = account_of(solved.putt, *solved.read, units);
    text += fmt::format("{}. Aim {}. {}.", account.heading, told(*account.row(Glyph::aim)),
                        as_sentence(told(*account.row(Glyph::stand_in))));
    const AccountRow& apex = *account.row(Glyph::apex);
    text += fmt::format(" {} {}", apex.name, apex.words);
    if (!apex.second.empty()) text += (solved.read->turns ? "; " : "; the ") + apex.second;
    return text + ".";
}

namespace {

std::string tilt_words(const Putt& putt, double share) {
    const Vec2 at = putt.ball + share * putt.line(), e = putt.line().normalized();
    const Vec2 gradient = putt.surface->at(at.x(), at.y()).gradient();
    const double up = gradient.dot(e), falls_left = gradient.dot(Vec2(e.y(), -e.x()));
    const auto one = [](double slope, const char* more, const char* less) {
        const std::string figure = format_slope(std::abs(slope));
        return figure == format_slope(0) ? std::string()
                                         : fmt::format("{} {}", slope > 0 ? more : less, figure);
    };
    const std::string along = one(up, "up", "down"),
                      across = one(falls_left, "falls left", "falls right");
    if (along.empty() && across.empty()) return "level";
    return along + (along.empty() || across.empty() ? "" : ", ") + across;
}

}  // namespace

std::string line_reading_words(const Putt& putt) {
    return fmt::format("At the ball {}. Halfway {}. At the hole {}.", tilt_words(putt, 0),
                       tilt_words(putt, 0.5), tilt_words(putt, 1));
}

}  // namespace dewtrail
