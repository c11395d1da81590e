#include "viewer/text/outcome.hpp"

#include <fmt/format.h>

#include <cmath>

#include "viewer/text/figures.hpp"

namespace dewtrail {

HoleSide side_of(double offset_m, double rises_right) {
    const bool right = offset_m > 0;
    if (std::abs(rises_right) < least_told_slope) return right ? HoleSide::right : HoleSide::left;
    return right == (rises_right > 0) ? HoleSide::high : HoleSide::low;
}

HoleSide side_of(const Putt& putt, double offset_m) {
    return side_of(offset_m, rises_right_at_hole(putt));
}

std::string_view side_word(HoleSide side) {
    constexpr std::string_view words[] = {"left", "right", "low", "high"};
    return words[static_cast<int>(side)];
}

std::string side_words(HoleSide side) {
    const bool of_the_slope = side == HoleSide::low || side == HoleSide::high;
    return fmt::format("{}{}", side_word(side), of_the_slope ? " side" : "");
}

bool Outcome::plainly_short() const {
    return short_of && std::abs(offset_m) < hole_radius_m;
}

Outcome outcome_of(const Putt& putt, const Read& rolled) {
    const Roll& roll = rolled.roll;
    const bool at_rim = roll.rim_on_green().has_value();
    const PathPoint& nearest = roll.pass.value_or(roll.last);
    const PlayerPoint at = in_player_frame(putt, nearest.at);
    const bool stays = roll.end == RollEnd::at_rest || roll.end == RollEnd::keeps_rolling;
    Outcome outcome;
    outcome.holed = at_rim && rolled.entry.holed;
    outcome.too_fast = at_rim && !rolled.entry.holed;
    outcome.offset_m = at.offset_m;
    outcome.before_m = putt.distance_m() - at.along_m;
    outcome.short_of = stays && !at_rim && (!roll.pass || outcome.before_m > hole_radius_m);
    outcome.miss_m = (nearest.at - putt.hole).norm();
    outcome.leave_m = (roll.last.at - putt.hole).norm();
    outcome.side = side_of(putt, at.offset_m);
    return outcome;
}

std::string outcome_words(const Outcome& outcome, const Units& units) {
    if (outcome.holed) return "holed";
    if (outcome.too_fast) return "over the hole";
    if (outcome.plainly_short()) return "short";
    return fmt::format("{} {}{}", format_length(outcome.offset_m, units), side_word(outcome.side),
                       outcome.short_of ? ", short" : "");
}

std::string outcome_phrase(const Outcome& outcome, const Units& units) {
    if (outcome.holed) return "drops";
    if (outcome.too_fast) return "runs over the hole, too fast to drop";
    if (outcome.plainly_short()) return "comes up short";
    return "misses " + outcome_words(outcome, units);
}

}  // namespace dewtrail
