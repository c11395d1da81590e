#pragma once

#include <string>

#include "viewer/putt/solved.hpp"

namespace dewtrail {

/// Whether the finish is a distance past the hole; else it is a speed at the hole.
bool asks_past(const PlacedPutt& plan);

/// What a set-up holds, as it was typed as long as that stands, else in figures. A clock that was
/// typed is told to the minute.
std::string distance_figure(const Setup& setup, const Units& units);
std::string slope_figure(const Setup& setup, const Units& units);
std::string clock_figure(const Setup& setup);
std::string stimp_figure(const Setup& setup, const Units& units);
std::string past_figure(const Setup& setup, const Units& units);

/// 'a foot past', '7 in past', '2.3 ft/s at the hole'.
std::string finish_words(const Setup& setup, const Units& units);

/// '12 ft, 2 %, ball at 3:00, stimp 10, a foot past'.
std::string putt_words(const PlacedPutt& plan, const Units& units);

/// The putt and its read as plain text, for the clipboard.
std::string read_as_text(const Setup& setup, const Solved& solved, const Units& units);

/// The ground as a level on the line shows it: 'At the ball up ½ %, falls left 1 %. Halfway level.
/// At the hole down 1 %, falls right ½ %.'
std::string line_reading_words(const Putt& putt);

/// Why there is no line, in one sentence.
std::string no_line_words(const PlacedPutt& plan, const NoLine& none, const Units& units);

}  // namespace dewtrail
