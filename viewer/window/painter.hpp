#pragma once

#include <SFML/Graphics/RenderTarget.hpp>
#include <SFML/Graphics/Vertex.hpp>
#include <vector>

#include "viewer/picture/triangles.hpp"
#include "viewer/window/fonts.hpp"

namespace dewtrail {

/// Paints pictures with SFML: shapes gathered into triangle lists, flushed where a text or a clip
/// comes between.
class Painter {
  public:
    explicit Painter(const Fonts& fonts) : fonts_(fonts) {}

    void paint(sf::RenderTarget& target, const Picture& picture);

  private:
    void flush(sf::RenderTarget& target);
    void write(sf::RenderTarget& target, const Text& text) const;

    const Fonts& fonts_;
    Triangles triangles_;
    std::vector<sf::Vertex> drawn_;  ///< the same for SFML, which has single precision
};

}  // namespace dewtrail
