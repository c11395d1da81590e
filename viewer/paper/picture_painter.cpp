#include "viewer/paper/picture_painter.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <memory>

namespace dewtrail {
namespace {

class Painter {
  public:
    Painter(Pen& pen, Meshes meshes) : pen_(pen), meshes_(meshes) {}

    void operator()(const Line& line) {
        if (line.colour.a == 0 || line.points.size() < 2) return;
        pen_.trace(line.points);
        if (line.closed) cairo_close_path(pen_.context());
        pen_.stroke(line.colour, line.width);
    }
    void operator()(const Polygon& polygon) {
        if (polygon.colour.a == 0) return;
        pen_.trace(polygon.points);
        pen_.fill(polygon.colour);
    }
    void operator()(const Disc& disc) {
        if (disc.colour.a > 0) pen_.disc(disc.centre, disc.radius, disc.colour);
    }
    void operator()(const Mesh& mesh) {
        if (meshes_ == Meshes::left_out) return;
        cairo_t* cr = pen_.context();
        cairo_save(cr);
        // Neighbours would show their seams.
        cairo_set_antialias(cr, CAIRO_ANTIALIAS_NONE);
        for (std::size_t i = 0; i + 2 < mesh.vertices.size(); i += 3) triangle(&mesh.vertices[i]);
        cairo_restore(cr);
    }
    void operator()(const Text& text) {
        Lettering lettering{text.face, text.size, text.colour};
        if (text.outline > 0) lettering.halo = text.outline_colour;
        const double width = pen_.text_width(text.words, lettering);
        const double left = text.align == Align::left     ? 0
                            : text.align == Align::centre ? width / 2
                                                          : width;
        cairo_t* cr = pen_.context();
        cairo_save(cr);
        cairo_translate(cr, text.at.x(), text.at.y());
        cairo_rotate(cr, text.turned_rad);
        pen_.text({-left, 0}, text.words, lettering);
        cairo_restore(cr);
    }
    void operator()(const Clip& clip) {
        cairo_t* cr = pen_.context();
        cairo_reset_clip(cr);
        if (clip.box.w <= 0) return;
        cairo_rectangle(cr, clip.box.x, clip.box.y, clip.box.w, clip.box.h);
        cairo_clip(cr);
    }

  private:
    /// Small ones in the colour of their middle; what changes colour on the way, as a gradient.
    void triangle(const Mesh::Vertex* corner) {
        pen_.trace({corner[0].at, corner[1].at, corner[2].at});
        if (widest_step(corner) > flat_step) return fill_gradient(corner);
        Colour middle;
        for (const auto part : parts)
            middle.*part = static_cast<std::uint8_t>(
                (corner[0].colour.*part + corner[1].colour.*part + corner[2].colour.*part) / 3);
        if (middle.a > 0) pen_.fill(middle);
    }

    static int widest_step(const Mesh::Vertex* corner) {
        int widest = 0;
        for (const auto part : parts)
            for (int i = 0; i < 3; ++i)
                widest = std::max(
                    widest, std::abs(corner[i].colour.*part - corner[(i + 1) % 3].colour.*part));
        return widest;
    }

    void fill_gradient(const Mesh::Vertex* corner) {
        cairo_pattern_t* pattern = cairo_pattern_create_mesh();
        cairo_mesh_pattern_begin_patch(pattern);
        cairo_mesh_pattern_move_to(pattern, corner[0].at.x(), corner[0].at.y());
        for (const int i : {1, 2})
            cairo_mesh_pattern_line_to(pattern, corner[i].at.x(), corner[i].at.y());
        for (unsigned i = 0; i < 3; ++i) {
            const Colour& c = corner[i].colour;
            cairo_mesh_pattern_set_corner_color_rgba(pattern, i, c.r / 255.0, c.g / 255.0,
                                                     c.b / 255.0, c.a / 255.0);
        }
        cairo_mesh_pattern_end_patch(pattern);
        cairo_t* cr = pen_.context();
        cairo_set_source(cr, pattern);
        cairo_fill(cr);
        cairo_pattern_destroy(pattern);
    }

    static constexpr int flat_step = 4;
    static constexpr std::uint8_t Colour::*parts[] = {&Colour::r, &Colour::g, &Colour::b,
                                                      &Colour::a};
    Pen& pen_;
    Meshes meshes_;
};

}  // namespace

void paint(Pen& pen, const Picture& picture, Meshes meshes) {
    Painter painter(pen, meshes);
    for (const Shape& shape : picture) std::visit(painter, shape);
}

TextWidth paper_width() {
    const std::shared_ptr<cairo_surface_t> surface(
        cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, nullptr), cairo_surface_destroy);
    const std::shared_ptr<cairo_t> context(cairo_create(surface.get()), cairo_destroy);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(context.get(), options);
    cairo_font_options_destroy(options);
    return [context](Face face, double size, std::string_view words) {
        return Pen(context.get()).text_width(std::string(words), {face, size, {}});
    };
}

}  // namespace dewtrail
