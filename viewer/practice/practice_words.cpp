#include "viewer/practice/practice_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "viewer/scene/aim.hpp"
#include "viewer/scene/figures.hpp"

namespace dewtrail {
namespace {

constexpr double costs_nothing = 0.01;  ///< putts
constexpr double right_within = 0.1;    ///< of the break
constexpr double right_pace_within = 0.05;

std::string firmness(double pace_share) {
    return fmt::format("{} too {}", format_percent(std::abs(pace_share - 1)),
                       pace_share > 1 ? "firm" : "soft");
}

std::string line_words(const Putt& putt, const Mark& mark, double aim_m, const Units& units) {
    if (mark.break_share && *mark.break_share < 0)
        return fmt::format("Wrong side: it breaks {}.",
                           mark.fit_aim_m > 0 ? "right to left" : "left to right");
    if (mark.break_share)
        return fmt::format("You played {} of the break at your pace.",
                           format_percent(*mark.break_share));
    const double off_m = aim_m - mark.fit_aim_m;
    const std::string_view side = miss_side(putt, off_m);
    const bool sloped = side == "high" || side == "low";
    const std::string much =
        fmt::format("{} too {}{}", format_length(off_m, units), sloped ? "" : "far ", side);
    const bool right_pace = std::abs(mark.pace_share - 1) < right_pace_within;
    return right_pace ? fmt::format("Right pace, {}.", much)
                      : fmt::format("{} at your pace.", much);
}

std::string pace_words(const Mark& mark, bool right_line) {
    return (right_line ? "Right line, " : "") + firmness(mark.pace_share) + '.';
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 32);
    return text;
}

std::string few_words(const Habit& habit) {
    return fmt::format("{}: {} putt{}; the trend starts after six.", capital(habit.group),
                       habit.putts, habit.putts == 1 ? "" : "s");
}

}  // namespace

std::string aim_with_figure(double aim_m, const Units& units) {
    return fmt::format("{} ({} from the centre)", aim_words(aim_m, units),
                       format_aim(aim_m, units));
}

std::string cause_words(const Putt& putt, const Mark& mark, double aim_m, const Units& units,
                        Drill drill) {
    const bool line_fits = mark.line_lost < costs_nothing,
               pace_fits = mark.pace_lost < costs_nothing;
    if (drill == Drill::line)
        return line_fits ? "The line fits." : line_words(putt, mark, aim_m, units);
    if (drill == Drill::pace) return pace_fits ? "The pace fits." : pace_words(mark, true);
    if (line_fits && pace_fits) return "Line and pace fit.";
    if (mark.line_lost >= mark.pace_lost) return line_words(putt, mark, aim_m, units);
    const bool right_line = mark.break_share ? std::abs(*mark.break_share - 1) < right_within
                                             : std::abs(aim_m - mark.fit_aim_m) < least_break_m;
    return pace_words(mark, right_line);
}

std::string share_words(const Credible& share) {
    const std::string least = format_percent(share.lo);
    return fmt::format("{} ({}–{})", format_percent(share.mean), least.substr(0, least.find(' ')),
                       format_percent(share.hi));
}

std::string break_trend_words(const Habit& habit) {
    if (!habit.share) return few_words(habit);
    return fmt::format("Your last {} {} putts: you play {} of the break.", habit.putts, habit.group,
                       share_words(*habit.share));
}

std::string pace_trend_words(const Habit& habit) {
    if (!habit.share) return few_words(habit);
    return fmt::format("Your last {} {} putts: you give {} of the pace.", habit.putts, habit.group,
                       share_words(*habit.share));
}

std::string cause_part_words(Cause cause, const Part& part, double distance_m, const Units& units) {
    const double size = part.size;
    switch (cause) {
        case Cause::slope:
            if (std::abs(size) < 0.0005) return "slope: as read";
            return fmt::format("slope: {:.1f} % {} than read", 100 * std::abs(size),
                               size > 0 ? "steeper" : "flatter");
        case Cause::stimp:
            if (std::abs(size) < 0.05) return "green speed: as taken";
            return fmt::format("green speed: {:.1f} ft {} than taken", std::abs(size),
                               size > 0 ? "faster" : "slower");
        case Cause::line:
            if (distance_m * std::abs(size) < 0.125 * metres_per_inch)
                return "start line: as meant";
            return fmt::format("start line: {} to the {} at the hole",
                               format_length(distance_m * std::tan(size), units),
                               size > 0 ? "right" : "left");
        case Cause::pace:
            if (std::abs(size) < 0.005) return "pace: as meant";
            return "pace: " + firmness(1 + size);
    }
    return "";
}

std::string_view name_of(Cause cause) {
    constexpr std::string_view names[] = {"slope read", "green speed", "start line", "pace"};
    return names[static_cast<int>(cause)];
}

}  // namespace dewtrail
