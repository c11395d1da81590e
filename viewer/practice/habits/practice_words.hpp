#pragma once

#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/practice/habits/bias.hpp"
#include "viewer/practice/habits/low_misses.hpp"
#include "viewer/practice/habits/mark.hpp"
#include "viewer/practice/review/review.hpp"

/// What practice and review say: short, and about the putt, never about the player.
namespace dewtrail {

/// One cause, the biggest: 'You played 81 % of the break at your pace.', 'Right line, 9 % too
/// firm.', '4 in too high.'; 'Line and pace fit.' where neither costs a hundredth of a putt. A
/// drill that asked for one of the two hears of that alone: 'The pace fits.'
std::string cause_words(const Putt& putt, const Mark& mark, double aim_m, const Units& units,
                        Drill drill = Drill::read);

/// 'three cups out right (15 in from the centre)'.
std::string aim_with_figure(double aim_m, const Units& units);

/// '72 % (65–79 %)'.
std::string share_words(const Credible& share);

/// 'Your last 24 right-to-left downhill putts: you play 72 % of the break (65–79 %).'; for few
/// putts 'Right-to-left downhill: 4 putts; the trend starts after six.'
std::string break_trend_words(const Habit& habit);
std::string pace_trend_words(const Habit& habit);

/// What causes are measured against; the mean of several putts.
struct Reviewed {
    double distance_m = 0;  ///< for the start line
    double slope = 0;       ///< as it was believed, rise over run
};

/// 'Misses by a side: 7 of 9 low.', and what that says of the break played.
std::string low_miss_words(const LowMisses& misses);

Reviewed means_of(const std::vector<PlayedPutt>& putts);

/// 'pace: 8 % too firm', 'start line: 2 in to the right at the hole', 'slope: ½ % steeper than
/// read', 'green speed: 1 ft faster than taken'.
std::string cause_part_words(Cause cause, const Part& part, const Reviewed& of, const Units& units);

/// The two causes that moved the ball farthest, if they are large enough to mention, and
/// whether the putts can tell them apart: a sentence each.
std::vector<std::string> verdict_words(const Split& split, const Reviewed& of, const Units& units);

/// 'The plan itself was 6 in low for that pace.': what was meant against the line that fits the
/// pace that was meant. Nothing where the plan would have gone in.
std::string plan_words(const Putt& putt, double aim_m, double level_putt_m, double player_past_m,
                       const Units& units);

/// 'pace', 'start line', 'slope read', 'green speed'.
std::string_view name_of(Cause cause);

}  // namespace dewtrail
