#pragma once

#include <SFML/Graphics/RenderTexture.hpp>
#include <SFML/Graphics/Sprite.hpp>
#include <cmath>

#include "viewer/files/whole_file.hpp"
#include "viewer/modes/shell/shell.hpp"
#include "viewer/window/painter.hpp"

namespace dewtrail {

/// The ground, repainted only when a frame brings it anew.
class GroundTexture {
  public:
    void resize(unsigned w, unsigned h) {
        if (w != texture_.getSize().x || h != texture_.getSize().y)
            if (!texture_.create(w, h))
                throw OutsideError("no texture of the window's size could be made");
    }

    void paint(Painter& painter, const Frame& frame) {
        if (frame.ground.empty()) return;
        texture_.clear(sf::Color::Transparent);
        painter.paint(texture_, frame.ground);
        texture_.display();
    }

    /// The part that shows it, and without blending: nothing lies beneath. Software rendering pays
    /// for every pixel.
    void draw(sf::RenderTarget& target, const Layout& l) const {
        const sf::IntRect part(static_cast<int>(l.green.x), static_cast<int>(l.green.y),
                               static_cast<int>(std::ceil(l.green.w)),
                               static_cast<int>(std::ceil(l.setup_strip.bottom() - l.green.y)));
        sf::Sprite sprite(texture_.getTexture(), part);
        sprite.setPosition(static_cast<float>(part.left), static_cast<float>(part.top));
        target.draw(sprite, sf::BlendNone);
    }

  private:
    sf::RenderTexture texture_;
};

}  // namespace dewtrail
