#pragma once

#include "viewer/comparison/comparison.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// What a comparison shows beside the table and the sentence.
struct CompareView {
    bool detail = false;  ///< the parts of the difference, speeds, times, pulls
    bool odds = false;    ///< the chance to hole each
    bool swap = false;    ///< each with the other's aim
};

/// Chance to hole each putt's read, for the player's spread; NaN where there is none.
std::vector<double> chances_of(const Comparison& comparison, const Spread& spread);

/// The putts, reads, parts of the difference and the sentence; SI, unit in the key.
Json comparison_json(Session& session, const Comparison& comparison, const CompareView& view,
                     const std::string& sentence);

/// The table; and, after the sentences, the extras that were asked for, and the notes.
void print_comparison_table(Session& session, const Comparison& comparison,
                            const CompareView& view);
void print_comparison_rest(Session& session, const Comparison& comparison, const CompareView& view);

Json played_json(const PlayedPutts& played);
/// Where the balls came to rest round the hole, as counts.
void print_played(std::ostream& out, const PlayedPutts& played, const Units& units);

}  // namespace dewtrail
