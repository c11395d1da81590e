#include "viewer/paper/form_pages.hpp"

#include <cmath>

#include "viewer/paper/page.hpp"
#include "viewer/practice/log/log_columns.hpp"

namespace dewtrail {
namespace {

constexpr double heading_size = 13, name_size = 12, row_height = 24;
constexpr int sketch_scale = 200;

struct Column {
    std::string heading, name;
    double width;
};

/// A blank table: headings, the names of the CSV below them, empty rows down to `bottom`.
void blank_table(Page& page, const Vec2& at, const std::vector<Column>& columns, double bottom) {
    const Palette& c = page.look().colours;
    double width = 0;
    for (const Column& column : columns) width += column.width;
    const double first = at.y() + 36;
    const int rows = static_cast<int>((bottom - first) / row_height);
    const double end = first + rows * row_height;
    double x = at.x();
    const auto upright = [&](double where) {
        page.picture().push_back(Line{{{where, at.y()}, {where, end}}, 0.7, c.ink2});
    };
    for (const Column& column : columns) {
        upright(x);
        page.text({x + 5, at.y() + 15}, column.heading, Face::sans_bold, heading_size, c.ink);
        page.text({x + 5, at.y() + 30}, column.name, Face::sans, name_size, c.ink2);
        x += column.width;
    }
    upright(x);
    page.hairline(at.y(), at.x(), at.x() + width);
    for (int i = 0; i <= rows; ++i) page.hairline(first + i * row_height, at.x(), at.x() + width);
}

void field(Page& page, const Vec2& at, const std::string& name, double width) {
    page.text(at, name, Face::sans, heading_size, page.look().colours.ink2);
    const double from = at.x() + page.width_of(name, Face::sans, heading_size) + 7;
    page.hairline(at.y() + 3, from, at.x() + width);
}

/// Squares of one metre at the sketch's scale.
void sketch_squares(Page& page, const Rect& box) {
    const double metre = units_per_m / sketch_scale;
    const Palette& c = page.look().colours;
    const auto count = [metre](double length) { return std::floor(length / metre + 1e-9); };
    const double w = metre * count(box.w), h = metre * count(box.h);
    for (int i = 0; i <= count(box.w); ++i)
        page.picture().push_back(Line{{{box.x + i * metre, box.y}, {box.x + i * metre, box.y + h}},
                                      i % 5 ? 0.4 : 0.9,
                                      c.contour});
    for (int i = 0; i <= count(box.h); ++i)
        page.picture().push_back(Line{{{box.x, box.y + i * metre}, {box.x + w, box.y + i * metre}},
                                      i % 5 ? 0.4 : 0.9,
                                      c.contour});
    page.text({box.x, box.y + h + 16},
              "a square is 1 m; x to the right, y up the sheet; mark the hole and which way is "
              "north",
              Face::sans, name_size, c.ink2);
}

void survey_fields(Page& page, double y) {
    const double left = page.body().x, width = page.body().w;
    field(page, {left, y}, "Green", 0.44 * width);
    field(page, {left + 0.47 * width, y}, "Grass, cut, weather", 0.53 * width);
    y += 27;
    field(page, {left, y}, "Stimp down the slope", 0.31 * width);
    field(page, {left + 0.34 * width, y}, "up the slope", 0.25 * width);
    field(page, {left + 0.62 * width, y}, "Level on level ground shows", 0.38 * width);
}

}  // namespace

Picture survey_form(Paper paper, const Units& units) {
    Page page(
        paper,
        {"Survey of a green",
         "lay the level down, write what it shows and which way the water would run", sketch_scale},
        units);
    const Rect& body = page.body();
    survey_fields(page, body.y + 26);
    const double sketch_height = 0.40 * body.h;
    sketch_squares(page, {body.x, body.y + 68, body.w, sketch_height});
    const double tables = body.y + 68 + sketch_height + 30;
    const double gap = 22, unit = (body.w - gap) / 100;
    blank_table(page, {body.x, tables},
                {{"east", "x_m", 12 * unit},
                 {"north", "y_m", 12 * unit},
                 {"slope, %", "slope_percent", 16 * unit},
                 {"falls toward", "falls_toward_deg", 20 * unit}},
                body.bottom() - 20);
    blank_table(
        page, {body.x + 60 * unit + gap, tables},
        {{"east", "x_m", 13 * unit}, {"north", "y_m", 13 * unit}, {"height, m", "z_m", 14 * unit}},
        body.bottom() - 20);
    page.text({body.x, body.bottom() - 8},
              "falls toward: degrees clockwise from north (0 up the sheet, 90 right). Two tables: "
              "levels, heights. Then: dewtrail green fit",
              Face::sans, name_size, page.look().colours.ink2);
    return page.take();
}

Picture result_form(Paper paper, const Units& units) {
    Page page(paper, {"Putts played", "one line a putt; the columns are those of the CSV file"},
              units);
    const Rect& body = page.body();
    std::vector<Column> columns;
    for (const LogColumn& column : log_columns)
        columns.push_back({std::string(units.metric ? column.metric : column.imperial),
                           std::string(column.name), column.share * body.w});
    blank_table(page, {body.x, body.y + 14}, columns, body.bottom() - 68);
    double y = body.bottom() - 50;
    const Colour& ink2 = page.look().colours.ink2;
    y = page.paragraph(
        {body.x, y},
        "Holed: holed or missed. Left: where it stopped, seen from the ball, 2ft past 6in left, or "
        "how far, 2ft. Missed: low, high, left, right, short, long, or two of them. Aim: 2 cups "
        "right, 8in left, centre. Pace: the level putt that was meant. Ball at: 12 straight above "
        "the hole, 3 right of it, looking up the slope. Then: dewtrail log import",
        Face::sans, name_size, ink2, body.w);
    return page.take();
}

}  // namespace dewtrail
