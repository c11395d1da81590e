#include "viewer/paper/picture_painter.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <numbers>

#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

using PngSurface = std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)>;
using Context = std::unique_ptr<cairo_t, void (*)(cairo_t*)>;

void choose_font(cairo_t* cr, Face face, double size) {
    const bool sans = face == Face::sans || face == Face::sans_bold;
    const bool bold = face == Face::book_bold || face == Face::sans_bold;
    cairo_select_font_face(
        cr, sans ? "Lato" : "Gentium Book Plus",
        face == Face::book_italic ? CAIRO_FONT_SLANT_ITALIC : CAIRO_FONT_SLANT_NORMAL,
        bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cr, size);
    // Without a single font cairo draws letters of its own, and no ½.
    if (cairo_scaled_font_get_type(cairo_get_scaled_font(cr)) == CAIRO_FONT_TYPE_USER)
        throw OutsideError("no font could be read: install fonts-sil-gentiumplus and fonts-lato");
}

double width_of(cairo_t* cr, const std::string& words) {
    cairo_text_extents_t extents;
    cairo_text_extents(cr, words.c_str(), &extents);
    return extents.x_advance;
}

class Painter {
  public:
    Painter(cairo_t* context, Meshes meshes) : cr_(context), meshes_(meshes) {}

    void operator()(const Line& line) {
        if (line.colour.a == 0 || line.points.size() < 2) return;
        trace(line.points);
        if (line.closed) cairo_close_path(cr_);
        stroke(line.colour, line.width);
    }
    void operator()(const Polygon& polygon) {
        if (polygon.colour.a == 0) return;
        trace(polygon.points);
        fill(polygon.colour);
    }
    void operator()(const Disc& disc) {
        if (disc.colour.a == 0) return;
        cairo_new_path(cr_);
        cairo_arc(cr_, disc.centre.x(), disc.centre.y(), disc.radius, 0, 2 * std::numbers::pi);
        fill(disc.colour);
    }
    void operator()(const Mesh& mesh) {
        if (meshes_ == Meshes::left_out || mesh.vertices.empty()) return;
        const bool pixels =
            cairo_surface_get_type(cairo_get_target(cr_)) == CAIRO_SURFACE_TYPE_IMAGE;
        if (!pixels && mesh.vertices.size() > most_vertices) return paint_as_image(mesh);
        cairo_save(cr_);
        // Neighbours would show their seams.
        cairo_set_antialias(cr_, CAIRO_ANTIALIAS_NONE);
        for (std::size_t i = 0; i + 2 < mesh.vertices.size(); i += 3) triangle(&mesh.vertices[i]);
        cairo_restore(cr_);
    }
    void operator()(const Text& text) {
        choose_font(cr_, text.face, text.size);
        const double width = text.align == Align::left ? 0 : width_of(cr_, text.words);
        const double left = text.align == Align::centre ? width / 2 : width;
        cairo_save(cr_);
        cairo_translate(cr_, text.at.x(), text.at.y());
        cairo_rotate(cr_, text.turned_rad);
        cairo_move_to(cr_, -left, 0);
        if (text.outline > 0) {
            cairo_text_path(cr_, text.words.c_str());
            stroke(text.outline_colour, 2 * text.outline);
            cairo_move_to(cr_, -left, 0);
        }
        ink(text.colour);
        cairo_show_text(cr_, text.words.c_str());
        cairo_restore(cr_);
    }
    void operator()(const Clip& clip) {
        cairo_reset_clip(cr_);
        if (clip.box.w <= 0) return;
        cairo_rectangle(cr_, clip.box.x, clip.box.y, clip.box.w, clip.box.h);
        cairo_clip(cr_);
    }

  private:
    void ink(const Colour& c) {
        cairo_set_source_rgba(cr_, c.r / 255.0, c.g / 255.0, c.b / 255.0, c.a / 255.0);
    }
    void trace(const Points& points) {
        cairo_new_path(cr_);
        for (const Vec2& point : points) cairo_line_to(cr_, point.x(), point.y());
    }
    void fill(const Colour& colour) {
        ink(colour);
        cairo_fill(cr_);
    }
    void stroke(const Colour& colour, double width) {
        ink(colour);
        cairo_set_line_width(cr_, width);
        cairo_stroke(cr_);
    }

    /// Small ones in the colour of their middle; what changes colour on the way, as a gradient.
    void triangle(const Mesh::Vertex* corner) {
        trace({corner[0].at, corner[1].at, corner[2].at});
        if (widest_step(corner) > flat_step) return fill_gradient(corner);
        Colour middle;
        for (const auto part : parts)
            middle.*part = static_cast<std::uint8_t>(
                (corner[0].colour.*part + corner[1].colour.*part + corner[2].colour.*part) / 3);
        if (middle.a > 0) fill(middle);
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
        cairo_set_source(cr_, pattern);
        cairo_fill(cr_);
        cairo_pattern_destroy(pattern);
    }

    /// Thousands of triangles would make a vector file of megabytes, with seams where it is shown.
    void paint_as_image(const Mesh& mesh) {
        Vec2 least = mesh.vertices.front().at, most = least;
        for (const Mesh::Vertex& v : mesh.vertices) {
            least = least.cwiseMin(v.at);
            most = most.cwiseMax(v.at);
        }
        const Vec2 size = most - least;
        const PngSurface image(
            cairo_image_surface_create(CAIRO_FORMAT_ARGB32, static_cast<int>(std::ceil(size.x())),
                                       static_cast<int>(std::ceil(size.y()))),
            cairo_surface_destroy);
        const Context context(cairo_create(image.get()), cairo_destroy);
        cairo_translate(context.get(), -least.x(), -least.y());
        Painter(context.get(), meshes_)(mesh);
        cairo_set_source_surface(cr_, image.get(), least.x(), least.y());
        cairo_paint(cr_);
    }

    static constexpr std::size_t most_vertices = 3000;
    static constexpr int flat_step = 4;
    static constexpr std::uint8_t Colour::*parts[] = {&Colour::r, &Colour::g, &Colour::b,
                                                      &Colour::a};
    cairo_t* cr_;
    Meshes meshes_;
};

}  // namespace

void paint(cairo_t* context, const Picture& picture, Meshes meshes) {
    cairo_set_line_cap(context, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(context, CAIRO_LINE_JOIN_ROUND);
    Painter painter(context, meshes);
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
        choose_font(context.get(), face, size);
        return width_of(context.get(), std::string(words));
    };
}

}  // namespace dewtrail
