#pragma once

#include <nlohmann/json.hpp>

#include "viewer/putt/account.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// The putt as the contract's JSON keys; SI, unit in the key.
Json putt_json(const PlacedPutt& plan);

/// The figures of an account under the contract's keys, in its order; what has no row is null.
Json read_json(const Account& account);

/// Points of a path up to a length as [t_s, x_m, y_m, speed_m_s], green frame.
Json path_json(const std::vector<PathPoint>& points, double most_arc_m);

/// How far a roll's path is reported: for a ball that never stops, 3 m beyond the hole.
double followed_arc_m(const Roll& roll);

/// Why there is no line: the sentence of no_line_words, and the numbers.
Json no_line_json(const PlacedPutt& plan, const NoLine& none, const Units& units);

/// The rows of an account for people; `detail`: a coach's figures as well.
void print_account(std::ostream& out, const Account& account, bool detail);
void print_row(std::ostream& out, const AccountRow& row, bool detail = false);

/// 'Note: wet: 1½ ft taken off, stimp 8½.', a line each.
void print_notes(std::ostream& out, const std::vector<std::string>& notes);

}  // namespace dewtrail
