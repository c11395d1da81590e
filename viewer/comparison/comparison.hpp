#pragma once

#include <array>
#include <string>
#include <vector>

#include "physics/odds/scatter.hpp"
#include "physics/read/break_parts.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/text/outcome.hpp"

/// Two to four putts side by side, and what makes the difference. No terminal and no window.
namespace dewtrail {

inline constexpr std::size_t least_compared = 2, most_compared = 4;

/// One of the putts. `name`: what sets it apart, as a heading and inside a sentence.
struct ComparedPutt {
    std::string name;
    PlacedPutt plan;
    std::optional<Read> read;  ///< its own read, path kept
    std::optional<NoLine> none;
    std::optional<Bend> bend;    ///< of the read
    std::optional<Read> rolled;  ///< with another aim, or another stroke altogether; path kept
    std::string figures{};       ///< what sets it apart, in figures; empty where nothing does
    bool at_apex = false;        ///< started at the apex of its own read

    /// The stroke that is shown: the other one if there is one, else the read; null without either.
    const Read* shown() const { return rolled ? &*rolled : read ? &*read : nullptr; }
    /// Share of the read's break that the stroke shown plays, below 0 on the wrong side of the
    /// hole; none where that says nothing.
    std::optional<double> share_of_break() const;
    /// That of a stroke struck for a part of the break, 0 to under 1; none of any other.
    std::optional<double> part_of_break() const;
    /// Until it drops, else until it passes the hole or rests; of the stroke shown.
    double time_on_the_way_s() const;
    /// From the lowest to the highest start that drops, at the hole's depth; none if none does.
    std::optional<double> room_width_m() const;
};

/// The two whose breaks differ most, and why. Where two putts break the same, `parts` is nearly 0.
struct BreakDifference {
    std::size_t more = 0, less = 0;  ///< indices
    BreakParts parts;                ///< of more minus less
};

struct Comparison {
    std::vector<ComparedPutt> putts;
    std::optional<BreakDifference> difference;  ///< none where fewer than two have a break
};

/// Reads each putt, names it by what sets it apart and finds the cause of the largest difference.
/// std::invalid_argument unless there are two to four putts.
Comparison compare(const std::vector<PlacedPutt>& plans, double player_past_m, const Units& units);

/// Tells each putt's `figures` anew: 'ball at 1:30', 'stimp 8, 3 in past'.
void tell_apart(std::vector<ComparedPutt>& putts, const Units& units);
/// What no figures set apart: '12 ft, 2 %, ball at 3:00, a foot past'; may be empty.
std::string shared_words(const std::vector<ComparedPutt>& putts, const Units& units);

/// The chance to hole the stroke that is shown, misreads as on the putt's own read. None without a
/// read, or where odds are not known.
std::optional<double> chance_of_shown(const ComparedPutt& putt, const Scatter& scatter);

/// Rolls a putt with another aim at the read's own pace. Nothing where there is no read.
void roll_with_aim(ComparedPutt& putt, double aim_offset_m, double player_past_m);
/// Rolls any stroke.
void roll_stroke(ComparedPutt& putt, const Stroke& stroke, double player_past_m);

/// An aim as typed, in metres from the hole centre, right positive: what parse_aim_offset_m takes,
/// 'apex' (the read's own apex, drawn straight back to the ball) or a share of the read's aim:
/// '72%'. Throws InputError, also where the read has no such thing.
double aim_of(const std::string& text, const PlacedPutt& plan, const Read& read,
              const Units& units);

/// The aim of a ball that is started at the apex of its own read; none on a straight putt.
std::optional<double> apex_aim_m(const Putt& putt, const Read& read);

/// Each of two putts rolled with the other's aim, at its own pace: first the first. None where
/// either has no aim spot.
std::optional<std::array<ComparedPutt, 2>> swap_aims(const Comparison& comparison,
                                                     double player_past_m);

}  // namespace dewtrail
