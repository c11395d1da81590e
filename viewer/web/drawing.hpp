#pragma once

#include <cstdint>
#include <deque>
#include <span>
#include <string>
#include <vector>

#include "viewer/picture/triangles.hpp"

namespace dewtrail {

/// A picture as the page's script reads it from memory (paint.js has the other half): corners of
/// triangles, and steps in words of 32 bits, floats and colours by their bits. A step is an
/// operation, then its numbers.
class Drawing {
  public:
    /// As WebGL takes it.
    struct Corner {
        float x, y;
        Colour colour;
    };

    /// `page`: all that is seen; `scale`: device pixels to one of the picture.
    void draw(const Picture& picture, const Rect& page, double scale);

    double scale() const { return scale_; }
    const std::vector<std::uint32_t>& words() const { return words_; }
    const std::vector<Corner>& corners() const { return corners_; }

  private:
    /// Triangles: how many corners, those that follow on what was painted before.
    enum Operation : std::uint32_t { triangles = 1, text, clip };

    template <class Kind>
    void add(const Kind& shape);
    void add(const Mesh& shape) { add_corners({shape.vertices.begin(), shape.vertices.size()}); }
    void add(const Text& shape);
    void add(const Clip& shape);
    void add_corners(std::span<const Mesh::Vertex> corners);
    void finish_triangles();
    void put(double value);
    void put(const Colour& colour);

    std::vector<std::uint32_t> words_;
    std::vector<Corner> corners_;
    std::deque<std::string> texts_;
    Triangles shape_;           ///< of one shape
    std::size_t finished_ = 0;  ///< corners that steps paint
    Rect page_;
    double scale_ = 1;
};

}  // namespace dewtrail
