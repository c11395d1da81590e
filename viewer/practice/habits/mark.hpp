#pragma once

#include <optional>
#include <string_view>

#include "physics/read/read.hpp"
#include "viewer/practice/player.hpp"

/// Marks a read against the truth: what it would cost this player, and which part of it was wrong.
namespace dewtrail {

/// The start line on which a ball hit this hard passes over the hole's centre.
struct FittingLine {
    double angle_rad = 0;  ///< from the ball-hole line, right positive
    bool reaches = true;   ///< false: too short to get there; the line is that of a dying ball
};

/// Good to 1e-6 rad. None where no ball dies at the hole, or the ball leaves the green first.
std::optional<FittingLine> line_for_pace(const Putt& putt, double level_roll_m);

/// The read with the finish that the putt asks for, without room and costs; none if there is none.
std::optional<Read> plain_read(const Putt& putt, double player_past_m);

/// The side of the hole that a ball is on, seen from the ball, by an offset that is right positive:
/// "low" toward which the ground at the hole falls across the line, "high"; under 0.1 % of cross
/// slope "left" and "right".
std::string_view miss_side(const Putt& putt, double offset_m);

/// How an answer's ball ended if it was struck exactly so.
enum class ReadOutcome {
    holed,
    high_edge,
    just_low,
    just_high,
    low,
    high,
    just_wide,
    wide,
    short_of_hole,
    past_hole
};
/// 'Holed', 'Just missed, low side', 'Missed high', 'Short'; "just" is within one ball of the rim.
std::string_view head_words(ReadOutcome outcome);
ReadOutcome read_outcome(const Putt& putt, const Read& rolled);

/// With less break than this we do not say which part was played: an inch of aim would be most of
/// it.
inline constexpr double least_break_m = metres_per_inch;

struct Mark {
    Read best;         ///< with the putt's own finish
    Read played;       ///< what the answer does
    double lost = 0;   ///< expected putts beyond the best aim and pace for this player
    double score = 0;  ///< 0 to 10
    FittingLine fitting;
    double fit_aim_m = 0;                 ///< aim of the line that fits the player's own pace
    std::optional<double> break_share;    ///< part of that played; none under least_break_m
    double pace_share = 1;                ///< level roll over the read's
    double line_lost = 0, pace_lost = 0;  ///< what either alone would cost
    ReadOutcome outcome = ReadOutcome::holed;
};

/// Lost: expected putts with the player's aim and pace minus those with the choice that takes the
/// fewest, both with the player's line and pace spread; no slope read, for the answer is the read.
/// Score: 10 x the chance to hole with the answer over that with the best read, both with half the
/// spread; beyond 30 ft the chance to finish inside 3 ft. Some tenths of a second,
/// most of it for what follows a miss. None where
/// the putt has no read or no odds.
std::optional<Mark> mark(const Putt& putt, double aim_m, double level_putt_m, const Spread& spread,
                         double player_past_m);

}  // namespace dewtrail
