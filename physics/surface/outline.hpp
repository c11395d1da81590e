#pragma once

#include <vector>

#include "physics/surface/surface.hpp"

namespace dewtrail {

/// The edge of a green: a simple closed polygon, green frame, metres, either orientation.
class Outline {
  public:
    /// At least three corners, no two neighbours alike, no crossing edges: else
    /// std::invalid_argument.
    explicit Outline(std::vector<Vec2> corners);

    /// Distance to the edge, metres: positive inside, negative outside.
    double inside_by(const Vec2& p) const;

    const std::vector<Vec2>& corners() const { return corners_; }

  private:
    std::vector<Vec2> corners_;
};

}  // namespace dewtrail
