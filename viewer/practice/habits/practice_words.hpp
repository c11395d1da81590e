#pragma once

#include <optional>
#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/practice/habits/diagnosis_words.hpp"
#include "viewer/practice/habits/finding.hpp"
#include "viewer/practice/habits/low_misses.hpp"
#include "viewer/practice/measure/home_drill.hpp"
#include "viewer/practice/review/review.hpp"

/// What practice and review say: short, and about the putt, never about the player.
namespace dewtrail {

class DrillSession;

// ---- after six putts

/// '72 % (65–79 %)'.
std::string share_words(const Credible& share);

/// 'You play 66 % of the break (58–74 %), and 7 of 7 were too low. Wrong side 2 of 12.'; where
/// nothing stands out it says so; before six putts 'The trend starts after six putts.'
std::string finding_words(const Finding& finding);

/// One instruction that follows from it: 'See it, then aim half as much again.'; nothing where
/// nothing stands out.
std::string instruction_words(const Finding& finding);

/// The kinds that differ from the whole: 'Right-to-left downhill: 45 % of the break (38–55 %).'
std::vector<std::string> kind_words(const Finding& finding);

/// All that the answers say: the finding that leads and its instruction, the other, the kinds that
/// differ.
std::vector<std::string> all_finding_words(const Findings& findings);

/// 'Line drill, five putts', 'Whole read, five short left-to-right downhill putts'.
std::string next_drill_words(const NextDrill& next);

/// The end of a session: '10 putts, 7 that break: 76 % of the break.', the finding, over more putts
/// than the session's with their count, 'Next: see it, then aim half as
/// much again.', 'Aim cost 0.60 strokes, pace 0.20. Best: putt 5. Dearest: putt 8.' and the kinds
/// that differ; where the instruction is about the other part 'This time the pace cost more. For
/// that: Pace drill, five putts.'; what to practise at home. Empty what there is nothing to say of.
struct EndWords {
    std::string counts, finding, instruction, dearer, costs;
    std::optional<HomeDrill> home;
};
EndWords end_words(const DrillSession& session, const Units& units);

/// 'Misses by a side: 7 of 9 low.', and what that says of the break played.
std::string low_miss_words(const LowMisses& misses);

// ---- review

/// 'pace: 8 % too firm', 'start line: 2 in to the right at the hole', 'slope: ½ % steeper than
/// read', 'green speed: 1 ft faster than taken', 'pace: as meant'.
std::string cause_part_words(Cause cause, const Part& part, const Reviewed& of, const Units& units);

/// The two likeliest of the causes that moved the ball, and whether the putts can tell: a sentence
/// each. 'Nothing stands out' where the first is less than 4 in 10 likely.
std::vector<std::string> verdict_words(const Split& split, const Reviewed& of, const Units& units);

/// 'The plan itself was 6 in low for that pace.': what was meant against the line that fits the
/// pace that was meant. Nothing where the plan would have gone in.
std::string plan_words(const Putt& putt, double aim_m, double level_putt_m, double player_past_m,
                       const Units& units);

/// 'pace', 'start line', 'slope read', 'green speed'.
std::string_view name_of(Cause cause);

}  // namespace dewtrail
