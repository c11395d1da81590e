#include "viewer/paper/sheet.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <cmath>
#include <cstdint>
#include <stdexcept>

namespace dewtrail {
namespace {

constexpr double pixels_per_unit = 2;
constexpr double points_per_unit = 72.0 / 96.0;

cairo_status_t append(void* to, const unsigned char* bytes, unsigned length) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), length);
    return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("the picture failed: ") +
                                 cairo_status_to_string(status));
}

std::shared_ptr<cairo_surface_t> owned(cairo_surface_t* surface) {
    const std::shared_ptr<cairo_surface_t> owner(surface, cairo_surface_destroy);
    check(cairo_surface_status(surface));
    return owner;
}

std::shared_ptr<cairo_t> context_on(cairo_surface_t* surface) {
    return {cairo_create(surface), cairo_destroy};
}

void draw_on(cairo_surface_t* surface, double scale, const Picture& picture, Meshes meshes) {
    const auto context = context_on(surface);
    cairo_scale(context.get(), scale, scale);
    paint(context.get(), picture, meshes);
    check(cairo_status(context.get()));
}

std::string png_file(cairo_surface_t* surface) {
    std::string bytes;
    check(cairo_surface_write_to_png_stream(surface, append, &bytes));
    return bytes;
}

void finish(cairo_surface_t* surface) {
    cairo_surface_finish(surface);
    check(cairo_surface_status(surface));
}

}  // namespace

std::string sheet_pdf(const Sheet& sheet) {
    std::string bytes;
    const auto surface = owned(cairo_pdf_surface_create_for_stream(
        append, &bytes, sheet.size.x() * points_per_unit, sheet.size.y() * points_per_unit));
    for (const Picture& page : sheet.pages) {
        draw_on(surface.get(), points_per_unit, page, sheet.meshes);
        cairo_surface_show_page(surface.get());
    }
    finish(surface.get());
    return bytes;
}

std::string sheet_svg(const Sheet& sheet, std::size_t page) {
    std::string bytes;
    const auto surface =
        owned(cairo_svg_surface_create_for_stream(append, &bytes, sheet.size.x(), sheet.size.y()));
    cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_PX);
    draw_on(surface.get(), 1, sheet.pages.at(page), sheet.meshes);
    finish(surface.get());
    return bytes;
}

std::string sheet_png(const Sheet& sheet, std::size_t page) {
    Bitmap canvas(sheet.size, pixels_per_unit);
    canvas.paint(sheet.pages.at(page), sheet.meshes);
    return canvas.png();
}

std::string png_of(const unsigned char* pixels, int width, int height) {
    const auto surface = owned(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
    unsigned char* const rows = cairo_image_surface_get_data(surface.get());
    for (int y = 0; y < height; ++y) {
        auto* const row = reinterpret_cast<std::uint32_t*>(
            rows + y * cairo_image_surface_get_stride(surface.get()));
        for (int x = 0; x < width; ++x, pixels += 4)
            row[x] = static_cast<std::uint32_t>(pixels[0] << 16 | pixels[1] << 8 | pixels[2]);
    }
    cairo_surface_mark_dirty(surface.get());
    return png_file(surface.get());
}

Bitmap::Bitmap(const Vec2& units, double scale)
    : size_(units),
      pixels_per_unit_(scale),
      surface_(owned(cairo_image_surface_create(
          CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(units.x() * scale)),
          static_cast<int>(std::lround(units.y() * scale))))) {
    Picture white;
    add_rect(white, {0, 0, size_.x(), size_.y()}, rgb(0xFFFFFF));
    paint(white);
}

Bitmap::Bitmap(const Bitmap& other) : Bitmap(other.size_, other.pixels_per_unit_) {
    const auto context = context_on(surface_.get());
    cairo_set_source_surface(context.get(), other.surface_.get(), 0, 0);
    cairo_paint(context.get());
}

void Bitmap::paint(const Picture& picture, Meshes meshes) {
    draw_on(surface_.get(), pixels_per_unit_, picture, meshes);
}

std::string Bitmap::png() const {
    return png_file(surface_.get());
}

/// Cairo keeps them so on machines whose lowest byte comes first.
std::string Bitmap::bgr0() const {
    cairo_surface_flush(surface_.get());
    const unsigned char* row = cairo_image_surface_get_data(surface_.get());
    const int stride = cairo_image_surface_get_stride(surface_.get());
    const auto wide = static_cast<std::size_t>(4 * cairo_image_surface_get_width(surface_.get()));
    std::string pixels;
    pixels.reserve(wide * static_cast<std::size_t>(cairo_image_surface_get_height(surface_.get())));
    for (int y = cairo_image_surface_get_height(surface_.get()); y > 0; --y, row += stride)
        pixels.append(reinterpret_cast<const char*>(row), wide);
    return pixels;
}

}  // namespace dewtrail
