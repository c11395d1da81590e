#pragma once

#include <vector>

#include "viewer/paper/paper.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {

inline constexpr std::size_t most_balls = 3;

/// A surveyed green for one day: which way the ground falls and how much on a grid of squares, the
/// hole of the day, and up to three balls with the trails of their reads, all to scale; the reads
/// in a table below. `putts`: one from each ball, to the same hole of the same green. On pocket
/// paper no larger than the Rules allow and without balls: what tells a line is for practice.
/// std::invalid_argument without a green, or for none or too many putts.
Picture today_page(const std::vector<Setup>& putts, double player_past_m, Paper paper,
                   const Units& units);

/// Ball spots of the green, and where it has fewer than three, spots about ten feet from the hole,
/// inside the green and apart from each other.
std::vector<Vec2> usual_balls(const Green& green, const Vec2& hole);

}  // namespace dewtrail
