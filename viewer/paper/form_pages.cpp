#include "viewer/paper/form_pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/paper/page.hpp"
#include "viewer/practice/log/log_columns.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double form_heading_size = 13, form_name_size = 11.5, least_form_row = 22,
                 most_form_row = 36;
constexpr int sketch_scale = 240, survey_rows = 18;

/// `heading`: a unit stands behind its comma.
struct FormColumn {
    std::string heading, name;
    double width;
};

/// A blank table: headings, their units, the names of the CSV's columns, then `rows` empty rows,
/// or as many as there is room for, down to `bottom`. Returns where it ends.
double blank_table(Page& page, const Vec2& at, const std::vector<FormColumn>& columns,
                   double bottom, int rows = 0) {
    const Palette& c = page.look().colours;
    const double first = at.y() + 50;
    if (rows == 0) rows = static_cast<int>((bottom - first) / least_form_row);
    const double row_height = std::min(most_form_row, (bottom - first) / rows);
    const double end = first + rows * row_height;
    double x = at.x();
    const auto upright = [&](double where) {
        page.picture().push_back(Line{{{where, at.y()}, {where, end}}, 0.7, c.ink2});
    };
    const auto fitted = [&](const std::string& words, Face face, double size, double line,
                            double room, const Colour& colour) {
        const double width = page.width_of(words, face, size);
        page.text({x + 4, at.y() + line}, words, face,
                  size * std::min(1.0, room / std::max(width, 1.0)), colour);
    };
    for (const FormColumn& column : columns) {
        upright(x);
        const std::size_t comma = std::min(column.heading.find(", "), column.heading.size());
        const double room = column.width - 8;
        fitted(column.heading.substr(0, comma), Face::sans_bold, form_heading_size, 15, room,
               c.ink);
        if (comma < column.heading.size())
            fitted(column.heading.substr(comma + 2), Face::sans, form_heading_size, 30, room,
                   c.ink);
        fitted(column.name, Face::sans, form_name_size, 45, room, c.ink2);
        x += column.width;
    }
    upright(x);
    page.hairline(at.y(), at.x(), x);
    for (int i = 0; i <= rows; ++i) page.hairline(first + i * row_height, at.x(), x);
    return end;
}

void field(Page& page, const Vec2& at, const std::string& name, double width) {
    page.text(at, name, Face::sans, form_heading_size, page.look().colours.ink2);
    const double from = at.x() + page.width_of(name, Face::sans, form_heading_size) + 7;
    page.hairline(at.y() + 3, from, at.x() + width);
}

/// Squares of a yard or a metre at the sketch's scale.
void sketch_squares(Page& page, const Rect& box, bool metric) {
    const double side = (metric ? 1 : 3 * metres_per_foot) * units_per_m / sketch_scale;
    const Palette& c = page.look().colours;
    const auto count = [side](double length) { return std::floor(length / side + 1e-9); };
    const double w = side * count(box.w), h = side * count(box.h);
    const auto line = [&](const Vec2& from, const Vec2& to, int i) {
        page.picture().push_back(Line{{from, to}, i % 5 ? 0.4 : 0.9, c.contour});
    };
    for (int i = 0; i <= count(box.w); ++i)
        line({box.x + i * side, box.y}, {box.x + i * side, box.y + h}, i);
    for (int i = 0; i <= count(box.h); ++i)
        line({box.x, box.y + i * side}, {box.x + w, box.y + i * side}, i);
    page.paragraph({box.x, box.y + h + 16},
                   fmt::format("a square is {}; mark the hole, spot 1 and which way is 0°",
                               metric ? "1 m" : "3 ft"),
                   Face::sans, form_name_size, c.ink2, box.w);
}

void survey_fields(Page& page, double y, const Units& units) {
    const double left = page.body().x, width = page.body().w;
    field(page, {left, y}, "Green", 0.44 * width);
    field(page, {left + 0.47 * width, y}, "Grass, cut, weather", 0.53 * width);
    y += 27;
    field(page, {left, y}, "Stimp down the slope", 0.31 * width);
    field(page, {left + 0.34 * width, y}, "up the slope", 0.22 * width);
    field(page, {left + 0.59 * width, y},
          fmt::format("My pace ({})", format_length(units.pace_m, units)), 0.41 * width);
}

}  // namespace

Picture survey_form(Paper paper, const Units& units) {
    Page page(paper,
              {"Survey of a green",
               "walk from spot to spot; write what the level shows and which way water would run",
               sketch_scale},
              units);
    const Rect& body = page.body();
    survey_fields(page, body.y + 26, units);
    const double top = body.y + 68, foot = body.bottom() - 52;
    const double table = 0.57 * body.w, unit = table / 100;
    blank_table(page, {body.x, top},
                {{"spot", "", 11 * unit},
                 {"walk, paces", "paces", 17 * unit},
                 {"toward, °", "walked_deg", 21 * unit},
                 {"slope, %", "slope_percent", 24 * unit},
                 {"falls toward, °", "falls_toward_deg", 27 * unit}},
                foot, survey_rows);
    sketch_squares(page, {body.x + table + 20, top, body.w - table - 20, foot - top - 34},
                   units.metric);
    page.paragraph(
        {body.x, body.bottom() - 32},
        "Spot 1 is where the walk begins: 0 paces. Degrees go clockwise from a direction "
        "you choose (0° up the sketch, 90° right). A level turned end for end gives a "
        "pair: 1.6deg/-0.9deg. Then: dewtrail green fit --levels FILE, or type it in "
        "with dewtrail window --mode green",
        Face::sans, form_name_size, page.look().colours.ink2, body.w);
    return page.take();
}

Picture result_form(Paper paper, const Units& units) {
    Page page(paper, {"Putts played", "one line a putt; the columns are those of the CSV file"},
              units);
    const Rect& body = page.body();
    std::vector<FormColumn> columns;
    for (const LogColumn& column : log_columns)
        columns.push_back({std::string(units.metric ? column.metric : column.imperial),
                           std::string(column.name), column.share * body.w});
    blank_table(page, {body.x, body.y + 14}, columns, body.bottom() - 84);
    const Colour& ink2 = page.look().colours.ink2;
    page.paragraph(
        {body.x, body.bottom() - 66},
        fmt::format(
            "Holed: holed or missed. Left: where it stopped, seen from the ball, {}, or how "
            "far, {}. Missed: low, high, left, right, short, long, or two of them. Aim: 2 "
            "cups right, {} left, centre. Pace: the level putt that was meant. Ball at: 12 "
            "straight above the hole, 3 right of it, looking up the slope. Breaks: rl, lr "
            "or straight. Runs: up, level or down. Then: dewtrail log import",
            units.metric ? "60cm past 15cm left" : "2ft past 6in left",
            units.metric ? "60cm" : "2ft", units.metric ? "20cm" : "8in"),
        Face::sans, form_name_size, ink2, body.w);
    return page.take();
}

}  // namespace dewtrail
