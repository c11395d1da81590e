#pragma once

#include <vector>

#include "viewer/picture/picture.hpp"

/// Shapes as triangles with feathered edges: smooth without multisampling, which software rendering
/// pays dearly for. Texts and clips are left to who paints.
namespace dewtrail {

using Triangles = std::vector<Mesh::Vertex>;

/// `pixel`: how large one of the device is in the picture. Edges are as soft as it, and a line is
/// no thinner: it is paler instead.
void add_triangles(Triangles& out, const Line& line, double pixel = 1);
void add_triangles(Triangles& out, const Polygon& polygon, double pixel = 1);
void add_triangles(Triangles& out, const Disc& disc, double pixel = 1);
void add_triangles(Triangles& out, const Mesh& mesh, double pixel = 1);

}  // namespace dewtrail
