#pragma once

#include <nlohmann/json.hpp>

#include "physics/odds/odds.hpp"
#include "physics/read/band.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// The putt and one of its lines as the contract's JSON keys; SI, unit in the key. `odds`: the
/// block of that name, which is worked out elsewhere.
Json putt_json(const PlacedPutt& plan);
Json read_json(const PlacedPutt& plan, const Read& read, const Json& odds = nullptr);

/// Points of a path up to a length as [t_s, x_m, y_m, speed_m_s], green frame.
Json path_json(const std::vector<PathPoint>& points, double most_arc_m);

/// How far a roll's path is reported: for a ball that never stops, 3 m beyond the hole.
double followed_arc_m(const Roll& roll);

/// Why there is no line: the sentence of no_line_words, and the numbers.
Json no_line_json(const PlacedPutt& plan, const NoLine& none, const Units& units);

/// The read for people: what a player uses.
void print_read(std::ostream& out, const PlacedPutt& plan, const Read& read,
                const std::optional<StrokeOdds>& odds, const Units& units);

/// And below it for a coach: degrees, speeds, entry clock, room in degrees and percent, start spot
/// in millimetres, odds in percent.
void print_detail(std::ostream& out, const PlacedPutt& plan, const Read& read,
                  const std::optional<Odds>& odds, const Units& units);

/// What `--slope-sure` and `--stimp-sure` leave open; none if neither was given.
std::optional<Band> sure_band(const PlacedPutt& plan, const Read& read);

/// Notes of the plan and of the read itself (too fast to drop, off the green, other lines, …).
std::vector<std::string> notes_of(const PlacedPutt& plan, const Read& read, int other_lines);

}  // namespace dewtrail
