#pragma once

#include <string>
#include <vector>

#include "greens/contours.hpp"
#include "greens/green.hpp"
#include "viewer/picture/map/ground.hpp"

/// A whole green from above: its ground, holes with the way they fall, ball spots.
namespace dewtrail {

struct GreenPlace {
    std::string name;  ///< empty: no word beside it but a hole's slope
    Vec2 at;
    bool hole = false;
};

struct GreenMap {
    PlanGround ground;
    std::vector<GreenPlace> places;
};

/// Heights are told from `hole`; std::invalid_argument if it is not on the green, which must
/// outlive the map.
GreenMap map_of(const Green& green, const std::string& hole);

/// What its lines and marks mean, in a few sentences.
std::string legend_of(const GreenMap& map, const PlanCamera& camera, const Look& look);

/// Names find their places inside `page`.
void add_green_map(Picture& picture, const GreenMap& map, const PlanCamera& camera,
                   const Rect& page, const Look& look);

}  // namespace dewtrail
