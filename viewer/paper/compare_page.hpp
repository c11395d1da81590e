#pragma once

#include "viewer/comparison/comparison.hpp"
#include "viewer/paper/sheet.hpp"

namespace dewtrail {

/// A comparison on one page: the putts drawn to scale with their ball-hole lines laid on each
/// other, each in its own line style; a table; the sentences. std::invalid_argument unless some
/// putt has a stroke to draw.
Picture compare_page(const Comparison& comparison, const std::string& title,
                     const std::vector<std::string>& sentences, Paper paper, const Units& units);

}  // namespace dewtrail
