#pragma once

#include <memory>
#include <string>

#include "viewer/paper/paper.hpp"
#include "viewer/paper/picture_painter.hpp"

/// Pictures as files.
namespace dewtrail {

/// The whole file's bytes; nothing is written. std::runtime_error if cairo fails, which out of
/// memory it does.
std::string sheet_pdf(const Sheet& sheet);
std::string sheet_svg(const Sheet& sheet, std::size_t page = 0);
/// Two pixels to a unit.
std::string sheet_png(const Sheet& sheet, std::size_t page = 0);

/// Pixels, rows from the top, each red, green, blue and opacity: the PNG file's bytes, opaque.
std::string png_of(const unsigned char* pixels, int width, int height);

/// Pixels to paint one picture over the other; a copy goes on where its original was.
class Bitmap {
  public:
    Bitmap(const Vec2& units, double pixels_per_unit);
    Bitmap(const Bitmap& other);

    void paint(const Picture& picture, Meshes meshes = Meshes::drawn);
    /// The PNG file's bytes.
    std::string png() const;
    /// Its pixels, rows from the top, each blue, green, red and one byte unused.
    std::string bgr0() const;

  private:
    Vec2 size_;
    double pixels_per_unit_;
    std::shared_ptr<cairo_surface_t> surface_;
};

}  // namespace dewtrail
