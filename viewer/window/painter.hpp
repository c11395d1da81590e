#pragma once

#include <SFML/Graphics/Color.hpp>
#include <SFML/Graphics/RenderTarget.hpp>
#include <SFML/Graphics/Vertex.hpp>
#include <vector>

#include "viewer/picture/triangles.hpp"
#include "viewer/window/fonts.hpp"

namespace dewtrail {

inline sf::Color sfml(const Colour& c) {
    return {c.r, c.g, c.b, c.a};
}

/// Paints pictures with SFML. Shapes and letters are gathered into lists of triangles, one for each
/// texture: what lies beside all that was gathered since joins the list of its texture, so that a
/// picture of hundreds of shapes is painted in a few strokes, and looks as if they came in order.
class Painter {
  public:
    explicit Painter(const Fonts& fonts) : fonts_(fonts) {}

    void paint(sf::RenderTarget& target, const Picture& picture);

  private:
    /// Triangles of one texture, or of none, and where they lie. Opaque ones are not blended with
    /// what lies beneath, which halves the cost of panels that are painted by software.
    struct Batch {
        const sf::Texture* texture = nullptr;
        bool opaque = false;
        std::vector<sf::Vertex> vertices;
        std::vector<Rect> boxes;
        Rect all;  ///< round the boxes

        bool meets(const Rect& box) const;
    };

    void add_shape(bool mesh);
    void write(const Text& text);
    void add_letters(const Text& text, float outline, const Colour& colour);
    /// Takes what is gathered in drawn_.
    void add_drawn(const sf::Texture* texture, bool opaque);
    Batch& batch_for(const sf::Texture* texture, bool opaque, const Rect& box);
    void flush(sf::RenderTarget& target);

    const Fonts& fonts_;
    // Kept from picture to picture for their memory:
    std::vector<Batch> batches_;
    std::size_t used_ = 0;           ///< of these
    Triangles triangles_;            ///< of one shape
    std::vector<sf::Vertex> drawn_;  ///< the same for SFML, which has single precision
};

}  // namespace dewtrail
