#include "viewer/picture/widgets/setup_strip.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/portrait.hpp"

namespace dewtrail {
namespace {

/// Between two fields in a row.
double between_fields(const Layout& l) {
    return l.u(l.portrait ? 14 : 33);
}

/// What the fields of a row share.
double row_width(const Rect& strip, const Layout& l) {
    return strip.w - 2 * l.margin() + between_fields(l) - (l.portrait ? 0 : l.u(12));
}
constexpr double field_margin_u = 6;  ///< a field can be taken hold of so far beside its ruler

}  // namespace

double ruler_width(const Target& field, const Layout& layout) {
    return field.hit.w - layout.u(2 * field_margin_u);
}

Rect ruler_of(const Rect& cell, const Look& look) {
    return {cell.x, cell.y + look.u(63.5) + (look.layout.text - 1) * look.u(43), cell.w, 0};
}

namespace {

/// One ruled field in its cell.
class FieldPainter : private Brush {
  public:
    FieldPainter(const Canvas& canvas, std::optional<Field> typed) : Brush(canvas), typed_(typed) {}

    void draw(const FieldState& f, Field field, const Rect& cell) {
        const int index = static_cast<int>(field);
        write(f.label, Face::sans, 17, cell.x, cell.y + type(16), c_.ink2);
        const double base = std::round(cell.y + u(48) + (look_.layout.text - 1) * u(38));
        const double margin = u(field_margin_u);
        target(What::field, index, {cell.x - margin, cell.y - u(2), cell.w + 2 * margin, cell.h});
        if (typed_ != field) figure(f, cell.x, base, cell.w);
        target(What::figure, index, {cell.x - u(4), base - type(27), cell.w, type(34)});
        ruler(f, index, cell);
    }

  private:
    void figure(const FieldState& f, double x, double base, double cell_w) {
        const double size = look_.layout.portrait ? fitting(f.figure, Face::book, 28, cell_w) : 28;
        write(f.figure, Face::book, size, x, base, f.enabled ? c_.ink : c_.ink2);
        const double unit_x = std::round(x + width(f.figure, Face::book, size) + u(6));
        const double room = x + cell_w + between_fields(look_.layout) - u(8) - unit_x;
        write(fitting_words(f.unit, room), Face::sans, 17, unit_x, base, c_.ink2);
    }

    /// As many of its words as there is room for.
    std::string fitting_words(std::string words, double room) const {
        while (!words.empty() && width(words, Face::sans, 17) > room)
            words.resize(words.rfind(' ') == std::string::npos ? 0 : words.rfind(' '));
        return words;
    }

    void ruler(const FieldState& f, int index, const Rect& cell) {
        const Rect rule = ruler_of(cell, look_);
        const bool on = focused(What::field, index);
        const bool near = hot(What::field, index) || hot(What::figure, index);
        const Colour line = on ? c_.copper : f.enabled ? c_.ink2 : c_.rule;
        const double thick = on ? 2.4 : near ? 1.8 : 1;
        picture_.push_back(Line{{{rule.x, rule.y}, {rule.right(), rule.y}}, u(thick), line});
        if (!f.enabled) return;
        const double x = rule.x + f.share() * rule.w;
        add_rounded_rect(picture_, {x - u(4), rule.y - u(8), u(8), u(16)}, u(2),
                         on              ? c_.copper
                         : f.players_own ? c_.heather
                                         : c_.ink);
    }

    std::optional<Field> typed_;
};

}  // namespace

void draw_field(const Canvas& canvas, const FieldState& state, Field field, const Rect& cell,
                std::optional<Field> typed) {
    FieldPainter(canvas, typed).draw(state, field, cell);
}

double field_height(const Look& look) {
    return look.u(80) * (1 + (look.layout.text - 1) * 0.6);
}

namespace {

/// Three small rings, the face in use filled.
void draw_faces(const Canvas& canvas, SlopeFace face, const Rect& cell) {
    const Look& look = canvas.look;
    Brush brush(canvas);
    const double gap = look.type(13), y = cell.y + look.type(10.5);
    for (int i = 0; i < 3; ++i) {
        const Vec2 at(cell.right() - look.u(4) - (2 - i) * gap, y);
        if (i == static_cast<int>(face))
            canvas.picture.push_back(Disc{at, look.u(4.4), look.colours.ink});
        else
            add_ring(canvas.picture, at, look.u(3.8), look.u(1.3), look.colours.ink2);
        if (brush.focused(What::face, i))
            add_ring(canvas.picture, at, look.u(8), look.u(1.8), look.colours.copper);
        brush.target(What::face, i, {at.x() - gap / 2, y - look.u(18), gap, look.u(30)});
    }
}

}  // namespace

void draw_setup_strip(const Canvas& canvas, const Setup& setup, bool finish_stops,
                      std::optional<Field> typed) {
    const Look& look = canvas.look;
    const Rect& strip = look.layout.setup_strip;
    add_rect(canvas.picture, strip, look.colours.paper2);
    if (!look.numbers) return;
    const auto fields = strip_fields(setup.face);
    const int rows = look.layout.field_rows;
    const int columns = (static_cast<int>(fields.size()) + rows - 1) / rows;
    const double pitch = (row_width(strip, look.layout)) / columns;
    FieldPainter painter(canvas, typed);
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const int column = static_cast<int>(i) % columns, line = static_cast<int>(i) / columns;
        const Rect cell{std::round(strip.x + look.layout.margin() + column * pitch),
                        std::round(strip.y + line * strip.h / rows),
                        std::round(pitch - between_fields(look.layout)), strip.h / rows};
        FieldState f = field_state(setup, fields[i], look.units);
        if (fields[i] == Field::finish && !finish_stops) {
            f.figure = "";
            f.unit = "no finish";
            f.enabled = false;
        }
        painter.draw(f, fields[i], cell);
        const bool slope = fields[i] == Field::slope || fields[i] == Field::falls_left;
        if (slope && !setup.green && !is_small(look.layout)) draw_faces(canvas, setup.face, cell);
    }
}

void draw_slope_rows(const Canvas& canvas, const Setup& setup, std::optional<Field> typed) {
    const Look& look = canvas.look;
    const Rect& strip = look.layout.rows_strip;
    add_rect(canvas.picture, strip, look.colours.paper2);
    if (!look.numbers) return;
    const auto fields = row_fields();
    static constexpr const char* names[] = {"ball", "halfway", "hole"};
    const int rows = look.layout.field_rows;
    const double third = (row_width(strip, look.layout)) / 3,
                 cell_h = look.layout.setup_strip.h / rows;
    const double wide = rows > 1 ? third : third / 2;
    FieldPainter painter(canvas, typed);
    for (int i = 0; i < 6; ++i) {
        const double x = strip.x + look.layout.margin() + (i / 2) * third;
        const double y = strip.bottom() - look.layout.setup_strip.h;
        if (i % 2 == 0)
            Brush(canvas).write(names[i / 2], Face::sans_bold, 17, x, y - look.type(4),
                                look.colours.ink);
        const bool below = i % 2 == 1 && rows > 1, beside = i % 2 == 1 && rows == 1;
        const Rect cell{std::round(x + (beside ? wide : 0)), std::round(y + (below ? cell_h : 0)),
                        std::round(wide - between_fields(look.layout)), cell_h};
        const Field field = fields[static_cast<std::size_t>(i)];
        painter.draw(field_state(setup, field, look.units), field, cell);
    }
}

}  // namespace dewtrail
