#pragma once

#include <vector>

#include "viewer/paper/sheet.hpp"
#include "viewer/putt/putt_request.hpp"

namespace dewtrail {

/// Rings of balls round the hole, one to three distances on one page, uphill up the page, drawn to
/// scale: the ball's trail, the first of its start line, and at each ball where to aim and the
/// level putt to play.
struct RingPage {
    PlacedPutt plan;                  ///< ground and finish; where its ball lies does not matter
    std::vector<double> distances_m;  ///< one to three, the nearest first
    double usual_past_m = dewtrail::usual_past_m;
};

/// Where the rings lie on the page.
struct RingPlace {
    Vec2 hole = Vec2::Zero();  ///< units of the page
    int scale = 0;             ///< 1 : scale
};

/// std::invalid_argument for no distance, more than three, or level ground.
Picture ring_page(const RingPage& rings, Paper paper, const Units& units,
                  RingPlace* place = nullptr);

}  // namespace dewtrail
