#pragma once

#include <cairo.h>

#include <functional>
#include <string>
#include <vector>

#include "physics/surface/surface.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/picture/picture.hpp"

/// A cairo context with the type and marks that all pages share. Positions in units of the
/// page, x right and y down.
namespace dewtrail {

struct Lettering {
    Face face = Face::sans;
    double size = 16;
    Colour colour;
    Colour halo{0, 0, 0, 0};  ///< drawn 2½ wide round each letter; none if clear
};

class Pen {
  public:
    explicit Pen(cairo_t* context) : cr_(context) {}

    void line(const std::vector<Vec2>& points, const Colour& colour, double width);
    void trace(const std::vector<Vec2>& points);  ///< adds to the path, begun anew
    void fill(const Colour& colour);
    void stroke(const Colour& colour, double width);
    void disc(const Vec2& centre, double radius, const Colour& colour);
    void ring(const Vec2& centre, double radius, const Colour& colour, double width);
    void dot(const Vec2& centre);  ///< adds a dot to the path; stroke it with the dot's width
    /// A drop of water whose tip points back along `fall`, a unit vector.
    void drop(const Vec2& centre, double radius, const Vec2& fall, const Colour& colour);

    double text_width(const std::string& text, const Lettering& lettering);
    void text(const Vec2& baseline_left, const std::string& text, const Lettering& lettering);

    cairo_t* context() const { return cr_; }

  private:
    void choose(const Lettering& lettering);
    void ink(const Colour& colour);

    cairo_t* cr_;
};

/// A drawing as a file's bytes: `draw` is given a pen on a page of this size in units.
/// std::runtime_error if cairo fails, which out of memory it does.
std::string draw_png(const Vec2& size, double pixels_per_unit,
                     const std::function<void(Pen&)>& draw);
std::string draw_svg(const Vec2& size, const std::function<void(Pen&)>& draw);
/// Several pages of one size; a unit is 1/96 in, as in an SVG. `draw` is given the page's number
/// from 0.
std::string draw_pdf(const Vec2& size, int pages, const std::function<void(Pen&, int)>& draw);

}  // namespace dewtrail
