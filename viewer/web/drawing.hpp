#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <vector>

#include "viewer/web/raster.hpp"

namespace dewtrail {

/// A picture as words of 32 bits that the page's script reads from memory (paint.js has the other
/// half): an operation, then its numbers, floats and colours by their bits.
class Drawing {
  public:
    /// `page`: all that is seen; `scale`: device pixels to one of the picture, `coarse` where
    /// triangles may be painted in fewer, since the next picture follows at once.
    void draw(const Picture& picture, const Rect& page, double scale, bool coarse = false);

    const std::vector<std::uint32_t>& words() const { return words_; }

  private:
    enum Operation : std::uint32_t { line = 1, polygon, disc, text, clip, image };

    void add(const Line& shape);
    void add(const Polygon& shape);
    void add(const Disc& shape);
    void add(const Text& shape);
    void add(const Clip& shape);
    void add(const Mesh& shape);
    void put(double value);
    void put(const Colour& colour);
    void put(const std::vector<Vec2>& points);
    void finish_mesh();

    std::vector<std::uint32_t> words_;
    std::deque<std::string> texts_;
    std::deque<Raster> rasters_;
    std::vector<Mesh::Vertex> triangles_;  ///< of meshes in a row
    Rect page_, clip_;
    double scale_ = 1;
};

}  // namespace dewtrail
