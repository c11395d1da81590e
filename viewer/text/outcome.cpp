#include "viewer/text/outcome.hpp"

#include <fmt/format.h>

#include <cmath>

#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double least_cross_slope = 1e-3;

std::string side_word(const Outcome& outcome) {
    if (!outcome.low) return outcome.offset_m > 0 ? "right" : "left";
    return *outcome.low ? "low" : "high";
}

bool is_plain_short(const Outcome& outcome) {
    return outcome.short_of && std::abs(outcome.offset_m) < hole_radius_m;
}

}  // namespace

std::optional<bool> is_low_side(const Putt& putt, double offset_m) {
    const Vec2 e = putt.line().normalized(), right(e.y(), -e.x());
    const double rises_right = putt.surface->at(putt.hole.x(), putt.hole.y()).gradient().dot(right);
    if (std::abs(rises_right) < least_cross_slope) return std::nullopt;
    return (offset_m > 0) != (rises_right > 0);
}

Outcome outcome_of(const Putt& putt, const Read& rolled) {
    const Roll& roll = rolled.roll;
    const PathPoint& nearest = roll.pass.value_or(roll.last);
    const PlayerPoint at = in_player_frame(putt, nearest.at);
    Outcome outcome;
    outcome.holed = roll.rim && rolled.entry.holed;
    outcome.too_fast = roll.rim && !rolled.entry.holed;
    outcome.short_of = roll.end == RollEnd::at_rest && !roll.rim &&
                       (!roll.pass || at.along_m < putt.distance_m() - hole_radius_m);
    outcome.offset_m = at.offset_m;
    outcome.miss_m = (nearest.at - putt.hole).norm();
    outcome.leave_m = (roll.last.at - putt.hole).norm();
    outcome.low = is_low_side(putt, at.offset_m);
    return outcome;
}

std::string outcome_words(const Outcome& outcome, const Units& units) {
    if (outcome.holed) return "holed";
    if (outcome.too_fast) return "over the hole";
    if (is_plain_short(outcome)) return "short";
    return fmt::format("{} {}{}", format_length(outcome.offset_m, units), side_word(outcome),
                       outcome.short_of ? ", short" : "");
}

std::string outcome_phrase(const Outcome& outcome, const Units& units) {
    if (outcome.holed) return "drops";
    if (outcome.too_fast) return "runs over the hole, too fast to drop";
    if (is_plain_short(outcome)) return "comes up short";
    return "misses " + outcome_words(outcome, units);
}

}  // namespace dewtrail
