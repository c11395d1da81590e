#include "viewer/paper/sheet.hpp"

#include <memory>

#include "viewer/paper/pen.hpp"

namespace dewtrail {
namespace {

constexpr double pixels_per_unit = 2;

/// Draws the shapes of a picture one after the other. Meshes are left out: on paper they are grass,
/// and ink.
class Painter {
  public:
    explicit Painter(Pen& pen) : pen_(pen) {}

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
    void operator()(const Mesh&) {}
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
    Pen& pen_;
};

void paint(Pen& pen, const Picture& picture) {
    Painter painter(pen);
    for (const Shape& shape : picture) std::visit(painter, shape);
}

/// Measures with the fonts that the pages are set in, unhinted as on paper.
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

Palette print_palette() {
    Palette colours = palette(Theme::dew);
    const Colour white = rgb(0xFFFFFF);
    colours.paper = colours.paper2 = white;
    colours.grass_light = colours.grass_dark = colours.hole_ring = white;
    colours.dew_dot = faded(white, 0);
    return colours;
}

}  // namespace

Vec2 size_of(Paper paper) {
    switch (paper) {
        case Paper::letter:
            return units_per_inch * Vec2(8.5, 11);
        case Paper::pocket:
            return units_per_inch * Vec2(4.25, 7);
        default:
            return units_per_mm * Vec2(210, 297);
    }
}

Look paper_look(const Units& units, double scale) {
    Look look;
    look.colours = print_palette();
    look.layout.scale = scale;
    look.units = units;
    look.width = paper_width();
    return look;
}

std::string sheet_pdf(const Sheet& sheet) {
    return draw_pdf(size_of(sheet.paper), static_cast<int>(sheet.pages.size()),
                    [&](Pen& pen, int page) { paint(pen, sheet.pages[page]); });
}

std::string sheet_svg(const Sheet& sheet, std::size_t page) {
    return draw_svg(size_of(sheet.paper), [&](Pen& pen) { paint(pen, sheet.pages.at(page)); });
}

std::string sheet_png(const Sheet& sheet, std::size_t page) {
    return draw_png(size_of(sheet.paper), pixels_per_unit, [&](Pen& pen) {
        pen.trace({{0, 0},
                   {size_of(sheet.paper).x(), 0},
                   size_of(sheet.paper),
                   {0, size_of(sheet.paper).y()}});
        pen.fill(rgb(0xFFFFFF));
        paint(pen, sheet.pages.at(page));
    });
}

}  // namespace dewtrail
