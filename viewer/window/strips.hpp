#pragma once

#include <SFML/Graphics/Vertex.hpp>
#include <vector>

#include "viewer/picture/picture.hpp"

/// Shapes as triangles with feathered edges: smooth without multisampling, which software rendering
/// pays dearly for.
namespace dewtrail {

using Triangles = std::vector<sf::Vertex>;

void add_triangles(Triangles& out, const Line& line);
void add_triangles(Triangles& out, const Polygon& polygon);
void add_triangles(Triangles& out, const Disc& disc);
void add_triangles(Triangles& out, const Mesh& mesh);

}  // namespace dewtrail
