#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "viewer/picture/picture.hpp"

namespace dewtrail {

/// Triangles that fill a simple polygon of any shape and either orientation: indices of its
/// corners (by cutting off ears; as many as corners less two, fewer if the polygon crosses itself).
std::vector<std::array<std::size_t, 3>> filled(const std::vector<Vec2>& polygon);

/// A box as a polygon: printed too, where meshes, as the ground is, are left out.
Polygon filled_box(const Rect& box, const Colour& colour);

/// Does the point lie inside?
bool holds(const std::vector<Vec2>& polygon, const Vec2& p);

}  // namespace dewtrail
