#pragma once

#include <vector>

#include "viewer/paper/sheet.hpp"
#include "viewer/putt/putt_request.hpp"

namespace dewtrail {

/// Putts of several lengths lying one above the other on their ball-hole lines, drawn to one scale:
/// the trail, the aim spot, and beside it where to aim and the level putt to play. Three ladders on
/// a page: straight across the slope, across and uphill, across and downhill. All fall to the right
/// of the player; the other way they are the same in a mirror.
struct LadderPage {
    Setup ground;                     ///< a plane; where its ball lies does not matter
    std::vector<double> distances_m;  ///< one to six, the nearest first
    double usual_past_m = dewtrail::usual_past_m;
};

/// The putts that a ladder has where no others are asked for: 4, 8, 12 and 20 ft; 1, 2, 4 and 6 m.
std::vector<double> ladder_distances_m(const Units& units);

/// Where the putts lie on the page.
struct LadderPlace {
    int scale = 0;  ///< 1 : scale
    struct Rung {
        Vec2 ball = Vec2::Zero(), hole = Vec2::Zero();  ///< units of the page
        double distance_m = 0;
    };
    std::vector<Rung> rungs;
};

/// std::invalid_argument for no distance, more than six, or level ground.
Picture ladder_page(const LadderPage& ladder, Paper paper, const Units& units,
                    LadderPlace* place = nullptr);

}  // namespace dewtrail
