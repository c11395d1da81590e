#pragma once

#include <SFML/Graphics/RenderTarget.hpp>

#include "viewer/picture/picture.hpp"
#include "viewer/window/fonts.hpp"
#include "viewer/window/strips.hpp"

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
};

}  // namespace dewtrail
