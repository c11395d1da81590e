#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/paper/paper.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {

inline constexpr std::size_t most_rungs = 5;

/// Putts of a few lengths lying one above the other, true to scale, each on its own line from the
/// hole at the left to the ball: for a ball above the hole (at 1:30), beside it (3:00) and below
/// (4:30). Each rung has the ball's trail, its start line to the aim spot, and at the ball where
/// to aim and the level putt to play. Where aim spots lie so high that trails would be small, start
/// lines are cut short; a putt that would still make the others small is told in words alone.
struct Ladder {
    Setup ground;  ///< slope, stimp and finish of a plane; the rest is not looked at
    std::vector<double> distances_m;  ///< one to most_rungs
    double usual_past_m = dewtrail::usual_past_m;
};

/// Where the putts of the first fall lie on the page, and how large.
struct LadderPlace {
    Vec2 top = Vec2::Zero();  ///< units of the page: above the holes, where the lengths are marked
    int scale = 0;            ///< 1 : scale
};

/// 4, 8, 12 and 20 ft, or 1, 2, 4 and 6 m.
std::vector<double> usual_rungs_m(bool metric);

/// Why not one of the putts has a line, in one sentence; nothing where one has.
std::optional<std::string> no_ladder_words(const Ladder& ladder, const Units& units);

/// std::invalid_argument for no distance, too many, or level ground.
Picture ladder_page(const Ladder& ladder, Paper paper, const Units& units,
                    LadderPlace* place = nullptr);

}  // namespace dewtrail
