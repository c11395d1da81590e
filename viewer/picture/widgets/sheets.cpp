#include "viewer/picture/widgets/sheets.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/portrait.hpp"
#include "viewer/text/glossary.hpp"

namespace dewtrail {
namespace {

constexpr double title_u = 64, row_u = 42, small_row_u = 52, help_row_u = 34;

constexpr double middle = 0.5;

/// The paper of a sheet with its title, `size_u` for what comes below that (type units), with so
/// much of the room left above it.
Rect draw_paper(const Canvas& canvas, const std::string& title, const Vec2& size_u,
                double above = middle) {
    const Look& look = canvas.look;
    const Layout& l = look.layout;
    const double w = std::min(l.width - look.u(40), look.type(size_u.x()));
    const double h =
        std::min(l.height - look.u(16), look.type(title_u) + look.type(size_u.y()) + look.u(24));
    const Rect sheet{std::round((l.width - w) / 2), std::round((l.height - h) * above), w, h};
    add_rect(canvas.picture, {0, 0, l.width, l.height}, {20, 32, 28, 90});
    add_edged_paper(canvas, sheet, 10);
    canvas.targets.clear();
    canvas.targets.push_back({What::sheet, 0, sheet});
    Brush(canvas).write_within(w - look.u(64), title, Face::book, 34, sheet.x + look.u(32),
                               sheet.y + look.type(48), look.colours.ink);
    return sheet;
}

/// One line of the help sheet; returns how many keys it has.
class HelpPen : private Brush {
  public:
    HelpPen(const Canvas& canvas, const Vec2& pointer) : Brush(canvas), pointer_(pointer) {}

    int draw(const HelpLine& line, double x, double y, double wide, int number) {
        const std::string what(line.what), keys(line.keys);
        const double keys_w = width(keys, Face::sans_bold, 16);
        write(what, Face::sans, fitting(what, Face::sans, 17, wide - keys_w - u(10)), x, y,
              c_.ink2);
        const double from = x + wide - keys_w;
        for (std::size_t i = 0; i < line.each.size(); ++i) {
            const auto before = static_cast<std::size_t>(line.each[i].data() - line.keys.data());
            const double left = from + width(keys.substr(0, before), Face::sans_bold, 16);
            const double w = width(std::string(line.each[i]), Face::sans_bold, 16);
            const bool whole = line.each.size() == 1;
            const Rect hit{whole ? x : left - u(5), y - type(22), whole ? wide : w + u(10),
                           type(help_row_u)};
            if (hit.contains(pointer_))
                add_rounded_rect(picture_, {left - u(5), hit.y, w + u(10), hit.h}, u(6), c_.paper2);
            target(What::key, number + static_cast<int>(i), hit);
        }
        write(keys, Face::sans_bold, 16, x + wide, y, c_.ink, Align::right);
        return static_cast<int>(line.each.size());
    }

  private:
    const Vec2& pointer_;
};

}  // namespace

void draw_help_sheet(const Canvas& canvas, const std::vector<HelpLine>& lines,
                     const Vec2& pointer) {
    const Look& look = canvas.look;
    const std::size_t per_column = (lines.size() + 1) / 2;
    const double needed = static_cast<double>(per_column) * help_row_u;
    const Rect sheet = draw_paper(canvas, "Keys", {860, needed});
    const double left = std::round(sheet.x + look.u(32)), gap = look.u(40);
    const double half = (sheet.w - look.u(64) - gap) / 2;
    const double row_h =
        std::min(look.type(help_row_u),
                 (sheet.h - look.type(title_u) - look.u(24)) / static_cast<double>(per_column));
    HelpPen pen(canvas, pointer);
    int number = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const double x = left + static_cast<double>(i / per_column) * (half + gap);
        const double y =
            sheet.y + look.type(title_u) + (static_cast<double>(i % per_column) + 0.65) * row_h;
        number += pen.draw(lines[i], x, y, half, number);
    }
}

void draw_words_sheet(const Canvas& canvas, const std::vector<Word>& more) {
    const Look& look = canvas.look;
    Brush brush(canvas);
    const auto words = glossary();
    const Rect sheet = draw_paper(canvas, "Words", {1040, 560});
    const double left = std::round(sheet.x + look.u(32)), gap = look.u(36);
    const double half = (sheet.w - look.u(64) - gap) / 2, name_w = look.type(140);
    // As large as all of them fit.
    double size = 17;
    const auto height_of = [&](std::size_t from, std::size_t to) {
        double h = 0;
        for (std::size_t i = from; i < to; ++i)
            h += look.type(size * 0.62) +
                 look.type(size * 1.28) *
                     static_cast<double>(wrapped(words[i].sentence, Face::book, look.type(size),
                                                 half - name_w, look.width)
                                             .size());
        return h;
    };
    const std::size_t first_column = (words.size() + 1) / 2;
    const double room = sheet.h - look.type(title_u) - look.type(50);
    while (size > 11 &&
           std::max(height_of(0, first_column), height_of(first_column, words.size())) > room)
        size -= 0.5;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool second = i >= first_column;
        const double x = left + (second ? half + gap : 0);
        const double y = sheet.y + look.type(title_u) + height_of(second ? first_column : 0, i);
        brush.write(std::string(words[i].word), Face::sans_bold,
                    std::min(size, brush.fitting(std::string(words[i].word), Face::sans_bold, size,
                                                 name_w - look.u(8))),
                    x, y + look.type(size * 1.28), look.colours.ink);
        brush.paragraph(std::string(words[i].sentence), Face::book, size, x + name_w, y,
                        half - name_w, size * 1.28, look.colours.ink2);
    }
    const double foot = std::round(sheet.bottom() - look.type(22));
    const double keys_x = brush
                              .word({"Keys  →", What::page, 0, true, 18, Align::right},
                                    sheet.right() - look.u(32), foot)
                              .x;
    double wide = 0;
    for (const Word& word : more) wide += brush.width(word.words, Face::sans_bold, word.size);
    const double between = std::min(
        look.u(24), (keys_x - look.u(24) - left - wide) / static_cast<double>(more.size()));
    double x = left;
    for (const Word& word : more) {
        brush.word(word, x, foot);
        x += brush.width(word.words, Face::sans_bold, word.size) + between;
    }
}

void draw_list_sheet(const Canvas& canvas, const ListSheet& list, int chosen, const Vec2& pointer) {
    const Look& look = canvas.look;
    Brush brush(canvas);
    double wide = look.type(420);  // a column, or as wide as its longest row
    for (const std::string& row : list.rows)
        wide = std::max(wide, brush.width(row, Face::book, 25) + look.u(64));
    const double row_type = look.type(is_small(look.layout) ? small_row_u : row_u);
    const std::size_t count = std::max<std::size_t>(1, list.rows.size());
    // In columns where there are more than one below the other has room for; in the end smaller.
    const auto high = static_cast<std::size_t>(std::max(
        1.0, (look.layout.height - look.u(40)) / row_type - look.type(title_u) / row_type - 1e-9));
    const std::size_t columns = std::min<std::size_t>((count + high - 1) / high, 3),
                      rows = (count + columns - 1) / columns;
    const Rect sheet = draw_paper(canvas, list.title,
                                  {wide / look.type(1) * static_cast<double>(columns),
                                   row_type / look.type(1) * static_cast<double>(rows)});
    const double top = sheet.y + look.type(title_u);
    const double row_h =
        std::min(row_type, (sheet.bottom() - look.u(16) - top) / static_cast<double>(rows));
    const double column_w = (sheet.w - look.u(32)) / static_cast<double>(columns);
    if (list.rows.empty())
        brush.write(list.none, Face::sans, 17, sheet.x + look.u(32), top + look.type(24),
                    look.colours.ink2);
    for (std::size_t i = 0; i < list.rows.size(); ++i) {
        const Rect row{sheet.x + look.u(16) + static_cast<double>(i / rows) * column_w,
                       std::round(top + static_cast<double>(i % rows) * row_h), column_w, row_h};
        if (static_cast<int>(i) == chosen || row.contains(pointer))
            add_rounded_rect(canvas.picture, row, look.u(6), look.colours.paper2);
        const double size = 25 * std::min(1.0, row_h / row_type);
        brush.write_within(row.w - look.u(32), list.rows[i], Face::book, size, row.x + look.u(16),
                           row.y + 0.65 * row_h, look.colours.ink);
        brush.target(list.what, static_cast<int>(i), row);
    }
}

void draw_line_sheet(const Canvas& canvas, const std::string& title, const std::string& button,
                     const std::string& keys) {
    const Look& look = canvas.look;
    const bool by_thumb = is_small(look.layout);
    constexpr double above_a_keyboard = 0.15;
    const Rect sheet =
        draw_paper(canvas, title, {420, 3 * row_u}, by_thumb ? above_a_keyboard : middle);
    const double x = sheet.x + look.u(32), w = sheet.w - look.u(64), row = look.type(row_u),
                 y = sheet.y + look.type(title_u) + row;
    Brush brush(canvas);
    brush.target(What::new_name, 0, {x, y - row, w, row});
    brush.rule(x, y, w, true);
    const double high = look.type(small_row_u), wide = by_thumb ? w : look.type(110);
    brush.button(button, {x + w - wide, sheet.bottom() - look.u(20) - high, wide, high},
                 {What::button, 0, {}});
    if (!by_thumb)
        brush.write(keys, Face::sans, 17, x, sheet.bottom() - look.u(20) - high / 2 + look.type(6),
                    look.colours.ink2);
}

}  // namespace dewtrail
