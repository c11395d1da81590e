#include "viewer/picture/widgets/setup_strip.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

constexpr double margin_u = 40, between_fields_u = 33;
constexpr double field_margin_u = 6;  ///< a field can be taken hold of so far beside its ruler

}  // namespace

double share_on_ruler(const Target& field, double x, const Layout& layout) {
    return (x - field.hit.x - layout.u(field_margin_u)) /
           (field.hit.w - layout.u(2 * field_margin_u));
}

Rect ruler_of(const Rect& cell, const Look& look) {
    return {cell.x, cell.y + look.u(63.5) + (look.layout.text - 1) * look.u(43), cell.w, 0};
}

namespace {

/// One ruled field in its cell.
class FieldPainter {
  public:
    FieldPainter(Picture& picture, Targets& targets, const Attention& attention, const Look& look,
                 std::optional<Field> typed)
        : picture_(picture), targets_(targets), attention_(attention), look_(look), typed_(typed) {}

    void draw(const FieldState& f, Field field, const Rect& cell) {
        const Palette& c = look_.colours;
        const int index = static_cast<int>(field);
        const double label_y = std::round(cell.y + look_.type(16));
        picture_.push_back(Text{f.label, Face::sans, look_.type(17), {cell.x, label_y}, c.ink2});
        const double base =
            std::round(cell.y + look_.u(48) + (look_.layout.text - 1) * look_.u(38));
        targets_.push_back({What::field,
                            index,
                            {cell.x - look_.u(field_margin_u), cell.y - look_.u(2),
                             cell.w + look_.u(2 * field_margin_u), cell.h}});
        if (typed_ != field) figure(f, cell.x, base, cell.w);
        targets_.push_back({What::figure,
                            index,
                            {cell.x - look_.u(4), base - look_.type(27), cell.w, look_.type(34)}});
        ruler(f, index, cell);
    }

  private:
    void figure(const FieldState& f, double x, double base, double cell_w) {
        const Palette& c = look_.colours;
        const Colour ink = f.enabled ? c.ink : c.ink2;
        picture_.push_back(Text{f.figure, Face::book, look_.type(28), {x, base}, ink});
        const double unit_x =
            std::round(x + look_.width(Face::book, look_.type(28), f.figure) + look_.u(6));
        const double room = x + cell_w + look_.u(between_fields_u - 8) - unit_x;
        picture_.push_back(
            Text{fitting(f.unit, room), Face::sans, look_.type(17), {unit_x, base}, c.ink2});
    }

    /// As many of its words as there is room for.
    std::string fitting(std::string words, double room) const {
        while (!words.empty() && look_.width(Face::sans, look_.type(17), words) > room)
            words.resize(words.rfind(' ') == std::string::npos ? 0 : words.rfind(' '));
        return words;
    }

    void ruler(const FieldState& f, int index, const Rect& cell) {
        const Palette& c = look_.colours;
        const Rect rule = ruler_of(cell, look_);
        const bool hot = attention_.on(attention_.focused, What::field, index);
        const bool near = attention_.on(attention_.hovered, What::field, index) ||
                          attention_.on(attention_.hovered, What::figure, index);
        const Colour line = hot ? c.copper : f.enabled ? c.ink2 : c.rule;
        picture_.push_back(Line{{{rule.x, rule.y}, {rule.right(), rule.y}},
                                look_.u(hot    ? 2.4
                                        : near ? 1.8
                                               : 1),
                                line});
        if (!f.enabled) return;
        const double x = rule.x + f.share() * rule.w;
        add_rounded_rect(picture_, {x - look_.u(4), rule.y - look_.u(8), look_.u(8), look_.u(16)},
                         look_.u(2),
                         hot             ? c.copper
                         : f.players_own ? c.heather
                                         : c.ink);
    }

    Picture& picture_;
    Targets& targets_;
    const Attention& attention_;
    const Look& look_;
    std::optional<Field> typed_;
};

}  // namespace

void draw_field(Picture& picture, Targets& targets, const FieldState& state, Field field,
                const Rect& cell, std::optional<Field> typed, const Attention& attention,
                const Look& look) {
    FieldPainter(picture, targets, attention, look, typed).draw(state, field, cell);
}

double field_height(const Look& look) {
    return look.u(80) * (1 + (look.layout.text - 1) * 0.6);
}

namespace {

/// Three small rings, the face in use filled.
void draw_faces(Picture& picture, Targets& targets, SlopeFace face, const Rect& cell,
                const Attention& attention, const Look& look) {
    const Palette& c = look.colours;
    const double gap = look.type(13), y = cell.y + look.type(10.5);
    for (int i = 0; i < 3; ++i) {
        const Vec2 at(cell.right() - look.u(4) - (2 - i) * gap, y);
        if (i == static_cast<int>(face))
            picture.push_back(Disc{at, look.u(4.4), c.ink});
        else
            add_ring(picture, at, look.u(3.8), look.u(1.3), c.ink2);
        if (attention.on(attention.focused, What::face, i))
            add_ring(picture, at, look.u(8), look.u(1.8), c.copper);
        targets.push_back({What::face, i, {at.x() - gap / 2, y - look.u(18), gap, look.u(30)}});
    }
}

}  // namespace

void draw_setup_strip(Picture& picture, Targets& targets, const Setup& setup, bool finish_stops,
                      std::optional<Field> typed, const Attention& attention, const Look& look) {
    const Rect& strip = look.layout.setup_strip;
    add_rect(picture, strip, look.colours.paper2);
    if (!look.numbers) return;
    const auto fields = strip_fields(setup.face);
    const int rows = look.layout.field_rows;
    const int columns = (static_cast<int>(fields.size()) + rows - 1) / rows;
    const double pitch = (strip.w - look.u(59)) / columns;
    FieldPainter painter(picture, targets, attention, look, typed);
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const int column = static_cast<int>(i) % columns, line = static_cast<int>(i) / columns;
        const Rect cell{std::round(strip.x + look.u(margin_u) + column * pitch),
                        std::round(strip.y + line * strip.h / rows),
                        std::round(pitch - look.u(between_fields_u)), strip.h / rows};
        FieldState f = field_state(setup, fields[i], look.units);
        if (fields[i] == Field::finish && !finish_stops) {
            f.figure = "";
            f.unit = "no finish";
            f.enabled = false;
        }
        painter.draw(f, fields[i], cell);
        const bool slope = fields[i] == Field::slope || fields[i] == Field::falls_left;
        if (slope && !setup.green) draw_faces(picture, targets, setup.face, cell, attention, look);
    }
}

void draw_slope_rows(Picture& picture, Targets& targets, const Setup& setup,
                     std::optional<Field> typed, const Attention& attention, const Look& look) {
    const Rect& strip = look.layout.rows_strip;
    add_rect(picture, strip, look.colours.paper2);
    if (!look.numbers) return;
    const auto fields = row_fields();
    static constexpr const char* names[] = {"ball", "halfway", "hole"};
    const int rows = look.layout.field_rows;
    const double third = (strip.w - look.u(59)) / 3, cell_h = look.layout.setup_strip.h / rows;
    const double wide = rows > 1 ? third : third / 2;
    FieldPainter painter(picture, targets, attention, look, typed);
    for (int i = 0; i < 6; ++i) {
        const double x = strip.x + look.u(margin_u) + (i / 2) * third;
        const double y = strip.bottom() - look.layout.setup_strip.h;
        if (i % 2 == 0)
            picture.push_back(Text{names[i / 2],
                                   Face::sans_bold,
                                   look.type(17),
                                   {std::round(x), std::round(y - look.type(4))},
                                   look.colours.ink});
        const bool below = i % 2 == 1 && rows > 1, beside = i % 2 == 1 && rows == 1;
        const Rect cell{std::round(x + (beside ? wide : 0)), std::round(y + (below ? cell_h : 0)),
                        std::round(wide - look.u(between_fields_u)), cell_h};
        const Field field = fields[static_cast<std::size_t>(i)];
        painter.draw(field_state(setup, field, look.units), field, cell);
    }
}

std::optional<Rect> figure_place(const Targets& targets, Field field) {
    const auto found = find_target(targets, What::figure, static_cast<int>(field));
    if (!found) return std::nullopt;
    return found->hit;
}

}  // namespace dewtrail
