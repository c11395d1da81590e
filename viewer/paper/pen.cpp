#include "viewer/paper/pen.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <cmath>
#include <memory>
#include <numbers>
#include <stdexcept>

#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

constexpr double halo_width = 5;  // 2½ to either side of a letter's edge

cairo_status_t append(void* to, const unsigned char* bytes, unsigned length) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), length);
    return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("the picture failed: ") +
                                 cairo_status_to_string(status));
}

using CairoSurface = std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)>;

void draw_on(cairo_surface_t* surface, double scale, const std::function<void(Pen&)>& draw) {
    const std::unique_ptr<cairo_t, void (*)(cairo_t*)> context(cairo_create(surface),
                                                               cairo_destroy);
    cairo_scale(context.get(), scale, scale);
    cairo_set_line_cap(context.get(), CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(context.get(), CAIRO_LINE_JOIN_ROUND);
    Pen pen(context.get());
    draw(pen);
    check(cairo_status(context.get()));
}

}  // namespace

void Pen::ink(const Colour& colour) {
    cairo_set_source_rgba(cr_, colour.r / 255.0, colour.g / 255.0, colour.b / 255.0,
                          colour.a / 255.0);
}

void Pen::trace(const std::vector<Vec2>& points) {
    cairo_new_path(cr_);
    for (const Vec2& point : points) cairo_line_to(cr_, point.x(), point.y());
}

void Pen::fill(const Colour& colour) {
    ink(colour);
    cairo_fill(cr_);
}

void Pen::stroke(const Colour& colour, double width) {
    ink(colour);
    cairo_set_line_width(cr_, width);
    cairo_stroke(cr_);
}

void Pen::line(const std::vector<Vec2>& points, const Colour& colour, double width) {
    trace(points);
    stroke(colour, width);
}

void Pen::disc(const Vec2& centre, double radius, const Colour& colour) {
    cairo_new_path(cr_);
    cairo_arc(cr_, centre.x(), centre.y(), radius, 0, 2 * std::numbers::pi);
    fill(colour);
}

void Pen::ring(const Vec2& centre, double radius, const Colour& colour, double width) {
    cairo_new_path(cr_);
    cairo_arc(cr_, centre.x(), centre.y(), radius, 0, 2 * std::numbers::pi);
    stroke(colour, width);
}

void Pen::dot(const Vec2& centre) {
    cairo_move_to(cr_, centre.x(), centre.y());
    cairo_line_to(cr_, centre.x(), centre.y());
}

void Pen::drop(const Vec2& centre, double radius, const Vec2& fall, const Colour& colour) {
    const Vec2 tip = centre - 2.1 * radius * fall;
    const double heading = std::atan2(fall.y(), fall.x());
    constexpr double shoulder = 2.2;  // radians from the round end to where the sides begin
    cairo_new_path(cr_);
    cairo_move_to(cr_, tip.x(), tip.y());
    cairo_arc(cr_, centre.x(), centre.y(), radius, heading - shoulder, heading + shoulder);
    cairo_close_path(cr_);
    fill(colour);
}

void Pen::choose(const Lettering& lettering) {
    const Face face = lettering.face;
    const bool sans = face == Face::sans || face == Face::sans_bold;
    const bool bold = face == Face::book_bold || face == Face::sans_bold;
    cairo_select_font_face(
        cr_, sans ? "Lato" : "Gentium Book Plus",
        face == Face::book_italic ? CAIRO_FONT_SLANT_ITALIC : CAIRO_FONT_SLANT_NORMAL,
        bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cr_, lettering.size);
    // Without any font cairo falls back on its own letters, which have no ½.
    if (cairo_scaled_font_get_type(cairo_get_scaled_font(cr_)) == CAIRO_FONT_TYPE_USER)
        throw OutsideError("no font could be read: install fonts-sil-gentiumplus and fonts-lato");
}

double Pen::text_width(const std::string& text, const Lettering& lettering) {
    choose(lettering);
    cairo_text_extents_t extents;
    cairo_text_extents(cr_, text.c_str(), &extents);
    return extents.x_advance;
}

void Pen::text(const Vec2& baseline_left, const std::string& text, const Lettering& lettering) {
    choose(lettering);
    cairo_new_path(cr_);
    cairo_move_to(cr_, baseline_left.x(), baseline_left.y());
    if (lettering.halo.a > 0) {
        cairo_text_path(cr_, text.c_str());
        stroke(lettering.halo, halo_width);
        cairo_move_to(cr_, baseline_left.x(), baseline_left.y());
    }
    ink(lettering.colour);
    cairo_show_text(cr_, text.c_str());
}

std::string draw_png(const Vec2& size, double pixels_per_unit,
                     const std::function<void(Pen&)>& draw) {
    const Vec2 pixels(std::round(size.x() * pixels_per_unit),
                      std::round(size.y() * pixels_per_unit));
    const CairoSurface surface(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(pixels.x()),
                                   static_cast<int>(pixels.y())),
        cairo_surface_destroy);
    check(cairo_surface_status(surface.get()));
    draw_on(surface.get(), pixels_per_unit, draw);
    std::string bytes;
    check(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
    return bytes;
}

std::string draw_svg(const Vec2& size, const std::function<void(Pen&)>& draw) {
    std::string bytes;
    {
        const CairoSurface surface(
            cairo_svg_surface_create_for_stream(append, &bytes, size.x(), size.y()),
            cairo_surface_destroy);
        check(cairo_surface_status(surface.get()));
        cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_PX);
        draw_on(surface.get(), 1, draw);
        cairo_surface_finish(surface.get());
        check(cairo_surface_status(surface.get()));
    }
    return bytes;
}

std::string draw_pdf(const Vec2& size, int pages, const std::function<void(Pen&, int)>& draw) {
    constexpr double points_per_unit = 72.0 / 96.0;
    std::string bytes;
    {
        const CairoSurface surface(
            cairo_pdf_surface_create_for_stream(append, &bytes, size.x() * points_per_unit,
                                                size.y() * points_per_unit),
            cairo_surface_destroy);
        check(cairo_surface_status(surface.get()));
        for (int page = 0; page < pages; ++page) {
            draw_on(surface.get(), points_per_unit, [&](Pen& pen) { draw(pen, page); });
            cairo_surface_show_page(surface.get());
        }
        cairo_surface_finish(surface.get());
        check(cairo_surface_status(surface.get()));
    }
    return bytes;
}

}  // namespace dewtrail
