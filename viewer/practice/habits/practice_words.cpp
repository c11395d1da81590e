#include "viewer/practice/habits/practice_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

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
    const bool wrong_side = mark.break_share && *mark.break_share < 0;
    if (wrong_side) return line_words(putt, mark, aim_m, units);  // before anything else
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

std::string low_miss_words(const LowMisses& misses) {
    std::string words =
        fmt::format("Misses by a side: {} of {} low.", misses.low, misses.low + misses.high);
    if (misses.break_share)
        words += fmt::format(" You play {} of the break.", share_words(*misses.break_share));
    return words;
}

namespace {

/// Too small to mention.
bool is_nothing(Cause cause, double size, double distance_m) {
    switch (cause) {
        case Cause::slope:
            return std::abs(size) < 0.0005;
        case Cause::stimp:
            return std::abs(size) < 0.05;
        case Cause::line:
            return distance_m * std::abs(size) < 0.125 * metres_per_inch;
        case Cause::pace:
            return std::abs(size) < 0.005;
    }
    return true;
}

std::string slope_part_words(double size, double believed) {
    // Flatter than level is downhill the other way.
    if (size < 0 && -size > believed && believed > 0) return "slope: it falls the other way";
    return fmt::format("slope: {:.1f} % {} than read", 100 * std::abs(size),
                       size > 0 ? "steeper" : "flatter");
}

}  // namespace

Reviewed means_of(const std::vector<PlayedPutt>& putts) {
    Reviewed means;
    for (const PlayedPutt& played : putts) {
        const Vec2 hole = played.putt.hole;
        means.distance_m += played.putt.distance_m() / static_cast<double>(putts.size());
        means.slope += played.putt.surface->at(hole.x(), hole.y()).gradient().norm() /
                       static_cast<double>(putts.size());
    }
    return means;
}

std::string cause_part_words(Cause cause, const Part& part, const Reviewed& of,
                             const Units& units) {
    const double size = part.size;
    const bool nothing = is_nothing(cause, size, of.distance_m);
    switch (cause) {
        case Cause::slope:
            return nothing ? "slope: as read" : slope_part_words(size, of.slope);
        case Cause::stimp:
            if (nothing) return "green speed: as taken";
            return fmt::format("green speed: {:.1f} ft {} than taken", std::abs(size),
                               size > 0 ? "faster" : "slower");
        case Cause::line:
            if (nothing) return "start line: as meant";
            return fmt::format("start line: {} to the {} at the hole",
                               format_length(of.distance_m * std::tan(size), units),
                               size > 0 ? "right" : "left");
        case Cause::pace:
            return nothing ? "pace: as meant" : "pace: " + firmness(1 + size);
    }
    return "";
}

std::vector<std::string> verdict_words(const Split& split, const Reviewed& of, const Units& units) {
    std::vector<std::string> words;
    for (const Cause cause : {split.first, split.second}) {
        const Part& part = split.part(cause);
        if (is_nothing(cause, part.size, of.distance_m)) continue;
        words.push_back(fmt::format("{} {}.", words.empty() ? "Most likely" : "Then",
                                    cause_part_words(cause, part, of, units)));
    }
    if (words.empty()) return {"Nothing was off by much."};
    if (!split.cannot_tell) return words;
    const std::string pair = fmt::format("{} from {}", name_of(split.first), name_of(split.second));
    words.push_back(split.putts == 1
                        ? fmt::format("One putt cannot tell {}. Enter three.", pair)
                        : fmt::format("{} putts cannot tell {}. Log more.", split.putts, pair));
    return words;
}

std::string plan_words(const Putt& putt, double aim_m, double level_putt_m, double player_past_m,
                       const Units& units) {
    const auto fitting =
        line_for_pace(putt, std::max(level_putt_m + player_past_m, metres_per_inch));
    if (!fitting) return "";
    if (!fitting->reaches) return "The plan itself was too soft to get there.";
    const double off_m = aim_m - putt.distance_m() * std::tan(fitting->angle_rad);
    if (std::abs(off_m) < hole_radius_m) return "";
    return fmt::format("The plan itself was {} {} for that pace.", format_length(off_m, units),
                       miss_side(putt, off_m));
}

std::string_view name_of(Cause cause) {
    constexpr std::string_view names[] = {"slope read", "green speed", "start line", "pace"};
    return names[static_cast<int>(cause)];
}

}  // namespace dewtrail
