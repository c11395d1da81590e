#include "viewer/paper/ground_shade.hpp"

#include <cstdint>
#include <memory>

#include "viewer/picture/map/ground.hpp"

namespace dewtrail {
namespace {

constexpr int cells = 192;
std::uint32_t pixel(Colour colour) {
    return static_cast<std::uint32_t>(colour.r << 16 | colour.g << 8 | colour.b);
}

void paint_cells(cairo_surface_t* image, const Surface& surface, const Box& green_m,
                 const Palette& colours) {
    unsigned char* bytes = cairo_image_surface_get_data(image);
    const int stride = cairo_image_surface_get_stride(image);
    for (int row = 0; row < cells; ++row) {
        auto* line = reinterpret_cast<std::uint32_t*>(bytes + row * stride);
        const double up = 1 - (row + 0.5) / cells;
        for (int column = 0; column < cells; ++column) {
            const double right = (column + 0.5) / cells;
            const Vec2 at = green_m.least + green_m.size().cwiseProduct(Vec2(right, up));
            const double shade = hill_shade(surface.at(at.x(), at.y()).gradient());
            line[column] = pixel(lightened(grass_at(right, 1 - up, colours), shade));
        }
    }
}

}  // namespace

void paint_shade(Pen& pen, const Surface& surface, const Box& green_m, const Box& page,
                 const Palette& colours) {
    const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> image(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, cells, cells), cairo_surface_destroy);
    if (cairo_surface_status(image.get()) != CAIRO_STATUS_SUCCESS)
        return;  // the ground stays plain
    paint_cells(image.get(), surface, green_m, colours);
    cairo_surface_mark_dirty(image.get());

    cairo_t* cr = pen.context();
    cairo_save(cr);
    cairo_translate(cr, page.least.x(), page.least.y());
    cairo_scale(cr, page.size().x() / cells, page.size().y() / cells);
    cairo_set_source_surface(cr, image.get(), 0, 0);
    cairo_pattern_set_extend(cairo_get_source(cr), CAIRO_EXTEND_PAD);
    cairo_pattern_set_filter(cairo_get_source(cr), CAIRO_FILTER_BILINEAR);
    cairo_paint(cr);
    cairo_restore(cr);
}

}  // namespace dewtrail
