#include "viewer/paper/plan_page.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "viewer/paper/ground_shade.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/text/printable.hpp"

namespace dewtrail {
namespace {

constexpr double page_width = 1280;
constexpr double margin = 72, title_height = 112, foot_height = 96;
constexpr double tallest_map = 1100;
constexpr double page_edge = 8;
constexpr double level_enough = 0.001;  // below, no direction of fall is shown
constexpr const char* caution =
    "For practice and teaching. During a round check with the Committee (Rule 4.3a).";

const Palette& colours = palette(Theme::dew);
const Lettering line_figure{Face::sans, 16, colours.height_label};
const Lettering caption{Face::sans, 16, colours.ink2};

bool overlap(const Box& a, const Box& b) {
    return a.least.x() < b.most.x() && a.least.y() < b.most.y() && b.least.x() < a.most.x() &&
           b.least.y() < a.most.y();
}

Box square(const Vec2& middle, double half) {
    return {middle - Vec2(half, half), middle + Vec2(half, half)};
}

Box box_of(const PageLabel& label, double width) {
    const double size = label.lettering.size;
    return {label.baseline_left - Vec2(3, 0.8 * size),
            label.baseline_left + Vec2(width + 3, 0.3 * size)};
}

}  // namespace

bool PageRoom::is_on_page(const Box& box) const {
    return box.least.minCoeff() > page_edge && (page_ - box.most).minCoeff() > page_edge;
}

bool PageRoom::is_free(const Box& box) const {
    return is_on_page(box) && std::none_of(taken_.begin(), taken_.end(),
                                           [&](const Box& other) { return overlap(box, other); });
}

PageLabel PageRoom::label_by(Pen& pen, const Vec2& mark, double clear, const std::string& text,
                             const Lettering& lettering) {
    const double width = pen.text_width(text, lettering), drop = 0.35 * lettering.size;
    const Vec2 places[] = {{clear, drop},
                           {-clear - width, drop},
                           {-width / 2, -clear - 2},
                           {-width / 2, clear + 0.75 * lettering.size}};
    PageLabel label{text, lettering, mark + places[0]};
    for (const Vec2& place : places) {
        const PageLabel tried{text, lettering, mark + place};
        if (is_on_page(box_of(tried, width))) label = tried;
        if (is_free(box_of(tried, width))) break;
    }
    take(box_of(label, width));
    return label;
}

PlanPage::PlanPage(const Surface& surface, const Outline& outline, const Units& units)
    : surface_(surface),
      outline_(outline),
      units_(units),
      green_m_(box_round(outline.corners())),
      per_m_(std::min((page_width - 2 * margin) / green_m_.size().x(),
                      tallest_map / green_m_.size().y())),
      size_(page_width, std::round(title_height + per_m_ * green_m_.size().y() + foot_height)),
      middle_(page_width / 2, title_height + per_m_ * green_m_.size().y() / 2),
      room_(size_) {}

Vec2 PlanPage::at(const Vec2& place) const {
    const Vec2 from_middle = per_m_ * (place - green_m_.middle());
    return middle_ + Vec2(from_middle.x(), -from_middle.y());
}

std::vector<Vec2> PlanPage::at(const std::vector<Vec2>& places) const {
    std::vector<Vec2> points;
    for (const Vec2& place : places) points.push_back(at(place));
    return points;
}

std::optional<Vec2> PlanPage::fall_at(const Vec2& place) const {
    const Vec2 gradient = surface_.at(place.x(), place.y()).gradient();
    if (gradient.norm() < level_enough) return std::nullopt;
    const Vec2 fall = -gradient.normalized();
    return Vec2(fall.x(), -fall.y());
}

void PlanPage::draw_grass(Pen& pen) const {
    pen.trace({{0, 0}, {size_.x(), 0}, size_, {0, size_.y()}});
    pen.fill(colours.rough);
    cairo_save(pen.context());
    pen.trace(at(outline_.corners()));
    cairo_clip(pen.context());
    const Box on_page{at(Vec2(green_m_.least.x(), green_m_.most.y())),
                      at(Vec2(green_m_.most.x(), green_m_.least.y()))};
    paint_shade(pen, surface_, green_m_, on_page, colours);
    cairo_restore(pen.context());
    draw_dew(pen);
}

/// The same drops every time: texture, and no meaning.
void PlanPage::draw_dew(Pen& pen) const {
    constexpr double dots_per_unit2 = 0.003;
    std::mt19937_64 random(1);
    const auto share = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
    const int count = static_cast<int>(dots_per_unit2 * size_.x() * size_.y() / 3);
    for (const double width : {1.0, 1.5, 2.1}) {
        cairo_new_path(pen.context());
        for (int i = 0; i < count; ++i) {
            const double x = size_.x() * share(), y = size_.y() * share();
            pen.dot({x, y});
        }
        pen.stroke(colours.dew_dot, width);
    }
}

void PlanPage::draw_edge(Pen& pen) const {
    pen.trace(at(outline_.corners()));
    cairo_close_path(pen.context());
    pen.stroke(blend(colours.contour, colours.grass_light, 0.4), 2);
}

void PlanPage::draw_contours(Pen& pen, const std::vector<ContourLine>& bold,
                             const std::vector<ContourLine>& thin,
                             const std::function<std::string(double height)>& figure) {
    std::vector<PageLabel> labels;
    for (const ContourLine& line : bold)
        if (const std::string text = figure(line.height_m); !text.empty())
            if (const auto label = label_on(pen, at(line.points), text)) labels.push_back(*label);
    cairo_save(pen.context());
    leave_gaps(pen, labels);
    for (const ContourLine& line : thin)
        pen.line(at(line.points), faded(colours.contour, 0.38), 0.9);
    for (const ContourLine& line : bold) pen.line(at(line.points), colours.contour, 1.3);
    cairo_restore(pen.context());
    for (const PageLabel& label : labels)
        pen.text(label.baseline_left, label.text, label.lettering);
}

/// The figure in a stretch of the line that is long and level enough, near one column.
std::optional<PageLabel> PlanPage::label_on(Pen& pen, const std::vector<Vec2>& points,
                                            const std::string& text) {
    const double width = pen.text_width(text, line_figure);
    std::optional<PageLabel> best;
    double least = std::numeric_limits<double>::infinity();
    double length = 0;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const Vec2 step = points[i] - points[i - 1];
        length += step.norm();
        const PageLabel label{text, line_figure, points[i] + Vec2(-width / 2, 5.5)};
        const double tilt = std::abs(step.y()) / std::max(step.norm(), 1e-9);
        const double cost = std::abs(points[i].x() - size_.x() / 2) + 300 * tilt;
        if (cost >= least || !is_well_inside(points[i]) || !room_.is_free(box_of(label, width)))
            continue;
        best = label;
        least = cost;
    }
    if (length < 3 * width) return std::nullopt;
    if (best) room_.take(box_of(*best, width));
    return best;
}

/// Far enough from the green's edge to be written on.
bool PlanPage::is_well_inside(const Vec2& point) const {
    const Vec2 from = (point - at(Vec2(0, 0))) / per_m_;
    return outline_.inside_by({from.x(), -from.y()}) * per_m_ > 34;
}

void PlanPage::leave_gaps(Pen& pen, const std::vector<PageLabel>& labels) const {
    cairo_t* cr = pen.context();
    cairo_new_path(cr);
    cairo_rectangle(cr, 0, 0, size_.x(), size_.y());
    for (const PageLabel& label : labels) {
        const Box box = box_of(label, pen.text_width(label.text, label.lettering));
        cairo_rectangle(cr, box.least.x() - 2, box.least.y(), box.size().x() + 4, box.size().y());
    }
    cairo_set_fill_rule(cr, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_clip(cr);
}

void PlanPage::take_hole(const Vec2& place) {
    room_.take(square(at(place), hole_radius + 2));
    if (const auto fall = fall_at(place))
        for (const double along : {24.0, 40.0, 56.0, 72.0})
            room_.take(square(at(place) + along * *fall, 9));
}

void PlanPage::draw_hole(Pen& pen, const Vec2& place) const {
    pen.disc(at(place), hole_radius + 2.5, colours.hole_ring);
    pen.disc(at(place), hole_radius, colours.hole);
}

void PlanPage::draw_fall_line(Pen& pen, const Vec2& place) const {
    const auto fall = fall_at(place);
    if (!fall) return;
    const Vec2 top = at(place) + 20 * *fall, end = at(place) + 70 * *fall;
    const Vec2 across(-fall->y(), fall->x());
    for (const auto& [colour, extra] :
         {std::pair{colours.grass_light, 4.0}, std::pair{colours.ink, 0.0}}) {
        pen.line({top - 6 * across, top + 6 * across}, colour, 1.8 + extra);
        pen.line({top, end}, colour, 1.6 + extra);
        pen.drop(end, 6.5 + extra / 2, *fall, colour);
    }
}

void PlanPage::write_title(Pen& pen, const std::string& name, const std::string& below) const {
    const auto fitted = [&](const std::string& text, Lettering lettering) {
        lettering.size *= std::min(1.0, (size_.x() - 80) / pen.text_width(text, lettering));
        return lettering;
    };
    const std::string title = printable(name);
    pen.text({40, 56}, title, fitted(title, {Face::book_italic, 34, colours.ink}));
    pen.text({40, 84}, below, fitted(below, {Face::sans, 17, colours.ink2}));
}

void PlanPage::draw_foot(Pen& pen) const {
    const double y = size_.y() - 40, left = 40;
    const double length = (units_.metric ? 4.0 : 10 * metres_per_foot) * per_m_;
    pen.line({{left, y}, {left + length, y}}, colours.ink, 1.6);
    for (const double share : {0.0, 0.5, 1.0})
        pen.line({{left + share * length, y - (share == 0.5 ? 4 : 6)}, {left + share * length, y}},
                 colours.ink, 1.6);
    pen.text({left + length + 12, y + 4}, units_.metric ? "4 m" : "10 ft", caption);
    pen.text({size_.x() - 40 - pen.text_width(caution, caption), y + 4}, caution, caption);
}

}  // namespace dewtrail
