#pragma once

#include "greens/green.hpp"
#include "viewer/paper/paper.hpp"

namespace dewtrail {

/// A whole green from above, up its plan up the page: edge, contours with their heights from a
/// hole, holes with the way they fall, ball spots. On pocket paper never larger than 1 : 480.
/// std::invalid_argument if the hole is not on the green.
Picture green_page(const Green& green, const std::string& hole, Paper paper, const Units& units);

}  // namespace dewtrail
