#pragma once

#include "viewer/comparison/printed_comparison.hpp"
#include "viewer/paper/paper.hpp"

namespace dewtrail {

/// A comparison on one page: the putts drawn to scale along their ball-hole lines, which are laid
/// on each other, and so many times wider across; each in its own line style; where the misses of
/// many strokes ended, with a legend; a table; the sentences. std::invalid_argument unless some
/// putt has a stroke to draw.
Picture compare_page(const PrintedComparison& printed, Paper paper, const Units& units);

}  // namespace dewtrail
