#include "viewer/paper/green_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <random>
#include <stdexcept>
#include <vector>

#include "viewer/paper/ground_shade.hpp"
#include "viewer/paper/pen.hpp"
#include "viewer/scene/contours.hpp"
#include "viewer/scene/figures.hpp"
#include "viewer/scene/palette.hpp"
#include "viewer/scene/printable.hpp"

namespace dewtrail {
namespace {

constexpr double page_width = 1280;
constexpr double margin = 72, title_height = 112, foot_height = 96;
constexpr double tallest_map = 1100;
constexpr double index_lines_apart = 90;
constexpr double hole_radius = 10, ball_radius = 6.5;
constexpr double level_enough = 0.001;  // below, no way to fall is told
constexpr const char* caution =
    "For practice and teaching. During a round check with the Committee (Rule 4.3a).";

const Palette& colours = palette(Theme::dew);
const Lettering hole_name{Face::sans_bold, 18, colours.ink, colours.grass_light};
const Lettering ball_name{Face::sans, 18, colours.ink, colours.grass_light};
const Lettering slope_figure{Face::book, 23, colours.ink, colours.grass_light};
const Lettering height_figure{Face::sans, 16, colours.height_label};
const Lettering caption{Face::sans, 16, colours.ink2};

/// From the green's frame to the page.
class Layout {
  public:
    explicit Layout(const Box& green) : green_(green) {
        const Vec2 size_m = green.size();
        per_m_ = std::min((page_width - 2 * margin) / size_m.x(), tallest_map / size_m.y());
        page_ = {page_width, std::round(title_height + per_m_ * size_m.y() + foot_height)};
        middle_ = {page_width / 2, title_height + per_m_ * size_m.y() / 2};
    }

    const Vec2& page() const { return page_; }
    double per_m() const { return per_m_; }
    Vec2 at(const Vec2& place) const {
        const Vec2 from_middle = per_m_ * (place - green_.middle());
        return middle_ + Vec2(from_middle.x(), -from_middle.y());
    }
    std::vector<Vec2> at(const std::vector<Vec2>& places) const {
        std::vector<Vec2> points;
        for (const Vec2& place : places) points.push_back(at(place));
        return points;
    }

  private:
    Box green_;
    double per_m_;
    Vec2 page_, middle_;
};

bool overlap(const Box& a, const Box& b) {
    return (a.least.array() < b.most.array()).all() && (b.least.array() < a.most.array()).all();
}

/// What stands on the map already, so that nothing is written across it.
class Room {
  public:
    explicit Room(const Vec2& page) : page_(page) {}

    bool is_on_page(const Box& box) const {
        return (box.least.array() > edge).all() && (box.most.array() < page_.array() - edge).all();
    }
    bool is_free(const Box& box) const {
        return is_on_page(box) && std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) {
                   return overlap(box, other);
               });
    }
    void take(const Box& box) { taken_.push_back(box); }

  private:
    static constexpr double edge = 8;
    Vec2 page_;
    std::vector<Box> taken_;
};

Box square(const Vec2& middle, double half) {
    return {middle - Vec2(half, half), middle + Vec2(half, half)};
}

/// A word, and the box its letters need. Box of the baseline's left end.
struct Label {
    std::string text;
    Lettering lettering;
    Vec2 baseline_left{0, 0};
};

Box box_of(const Label& label, double width) {
    const double size = label.lettering.size;
    return {label.baseline_left - Vec2(3, 0.8 * size),
            label.baseline_left + Vec2(width + 3, 0.3 * size)};
}

/// Right, left, above or below a mark: the first that is free, else the last that is on the page.
Label placed_by(Pen& pen, Room& room, const Vec2& mark, double clear, const std::string& text,
                const Lettering& lettering) {
    const double width = pen.text_width(text, lettering), drop = 0.35 * lettering.size;
    const Vec2 places[] = {{clear, drop},
                           {-clear - width, drop},
                           {-width / 2, -clear - 2},
                           {-width / 2, clear + 0.75 * lettering.size}};
    Label label{text, lettering, mark + places[0]};
    for (const Vec2& place : places) {
        const Label tried{text, lettering, mark + place};
        if (room.is_on_page(box_of(tried, width))) label = tried;
        if (room.is_free(box_of(tried, width))) break;
    }
    room.take(box_of(label, width));
    return label;
}

class GreenPicture {
  public:
    GreenPicture(const Green& green, const GreenPictureOptions& options)
        : green_(green),
          units_(options.units),
          layout_(box_round(green.outline.corners())),
          room_(layout_.page()),
          ground_(look_at_ground(*green.surface, green.outline)),
          hole_(options.hole.empty() ? green.holes.begin() : green.holes.find(options.hole)) {
        if (hole_ == green.holes.end())
            throw std::invalid_argument(fmt::format("hole '{}' is not on the green", options.hole));
        const double apart_m = index_lines_apart / layout_.per_m();
        spacing_ = contour_spacing(ground_.typical_slope, apart_m, units_.metric);
    }

    const Vec2& page() const { return layout_.page(); }

    void draw(Pen& pen) {
        draw_grass(pen);
        place_marks(pen);
        draw_contours(pen);
        pen.trace(layout_.at(green_.outline.corners()));
        cairo_close_path(pen.context());
        pen.stroke(blend(colours.contour, colours.grass_light, 0.4), 2);
        draw_marks(pen);
        write_title(pen);
        draw_scale(pen);
    }

  private:
    double height_of(const Vec2& at) const { return green_.surface->at(at.x(), at.y()).h; }

    void clip_to_green(Pen& pen) {
        pen.trace(layout_.at(green_.outline.corners()));
        cairo_clip(pen.context());
    }

    void draw_grass(Pen& pen) {
        pen.trace({{0, 0}, {page().x(), 0}, page(), {0, page().y()}});
        pen.fill(colours.rough);
        cairo_save(pen.context());
        clip_to_green(pen);
        const Box box = box_round(green_.outline.corners());
        const Box on_page{layout_.at(Vec2(box.least.x(), box.most.y())),
                          layout_.at(Vec2(box.most.x(), box.least.y()))};
        paint_shade(pen, *green_.surface, box, on_page, colours);
        cairo_restore(pen.context());
        draw_dew(pen);
    }

    /// The same drops every time: texture, and no meaning.
    void draw_dew(Pen& pen) {
        constexpr double dots_per_unit2 = 0.003;
        std::mt19937_64 random(1);
        const auto share = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
        const int count = static_cast<int>(dots_per_unit2 * page().x() * page().y() / 3);
        for (const double width : {1.0, 1.5, 2.1}) {
            cairo_new_path(pen.context());
            for (int i = 0; i < count; ++i) {
                const double x = page().x() * share(), y = page().y() * share();
                pen.dot({x, y});
            }
            pen.stroke(colours.dew_dot, width);
        }
    }

    /// Unit vector on the page; none where it is as good as level.
    std::optional<Vec2> fall_at(const Vec2& place) const {
        const Vec2 gradient = green_.surface->at(place.x(), place.y()).gradient();
        if (gradient.norm() < level_enough) return std::nullopt;
        const Vec2 fall = -gradient.normalized();
        return Vec2(fall.x(), -fall.y());
    }

    void place_marks(Pen& pen) {
        for (const auto& [name, place] : green_.holes) {
            const Vec2 at = layout_.at(place);
            room_.take(square(at, hole_radius + 2));
            if (const auto fall = fall_at(place))
                for (const double along : {24.0, 40.0, 56.0, 72.0})
                    room_.take(square(at + along * *fall, 9));
        }
        for (const auto& [name, place] : green_.balls)
            room_.take(square(layout_.at(place), ball_radius + 2));
        for (const auto& [name, place] : green_.holes) place_hole_labels(pen, name, place);
        for (const auto& [name, place] : green_.balls)
            labels_.push_back(placed_by(pen, room_, layout_.at(place), ball_radius + 8,
                                        printable(name), ball_name));
    }

    void place_hole_labels(Pen& pen, const std::string& name, const Vec2& place) {
        const Vec2 at = layout_.at(place);
        labels_.push_back(placed_by(pen, room_, at, hole_radius + 8, printable(name), hole_name));
        const auto fall = fall_at(place);
        if (!fall) return;
        const double slope = green_.surface->at(place.x(), place.y()).gradient().norm();
        labels_.push_back(
            placed_by(pen, room_, at + 70 * *fall, 15, format_slope(slope), slope_figure));
    }

    void draw_contours(Pen& pen) {
        const double base_m = height_of(hole_->second);
        const auto lines = [&](double step_m, double from_m) {
            const auto heights =
                contour_heights(from_m, step_m, ground_.lowest_m, ground_.highest_m);
            return inside(
                contour_lines(*green_.surface, box_round(green_.outline.corners()), heights),
                green_.outline);
        };
        const auto index = lines(spacing_.index_m, base_m);
        const auto between = lines(spacing_.index_m, base_m + spacing_.intermediate_m);
        const std::vector<Label> heights = place_heights(pen, index, base_m);

        cairo_save(pen.context());
        leave_gaps(pen, heights);
        for (const ContourLine& line : between)
            pen.line(layout_.at(line.points), faded(colours.contour, 0.38), 0.9);
        for (const ContourLine& line : index)
            pen.line(layout_.at(line.points), colours.contour, 1.3);
        cairo_restore(pen.context());
        for (const Label& label : heights)
            pen.text(label.baseline_left, label.text, label.lettering);
    }

    /// One figure for each index line, near one column if there is room.
    std::vector<Label> place_heights(Pen& pen, const std::vector<ContourLine>& lines,
                                     double base_m) {
        std::vector<Label> labels;
        for (const ContourLine& line : lines) {
            const double height_m = line.height_m - base_m;
            if (std::abs(height_m) < spacing_.index_m / 2) continue;
            const std::string text = format_height(height_m, units_);
            if (const auto label = height_on(pen, layout_.at(line.points), text))
                labels.push_back(*label);
        }
        return labels;
    }

    /// The figure in a stretch of the line that is long and level enough.
    std::optional<Label> height_on(Pen& pen, const std::vector<Vec2>& points,
                                   const std::string& text) {
        const double width = pen.text_width(text, height_figure);
        std::optional<Label> best;
        double least = std::numeric_limits<double>::infinity();
        double length = 0;
        for (std::size_t i = 1; i < points.size(); ++i) {
            const Vec2 step = points[i] - points[i - 1];
            length += step.norm();
            const Label label{text, height_figure, points[i] + Vec2(-width / 2, 5.5)};
            const double tilt = std::abs(step.y()) / std::max(step.norm(), 1e-9);
            const double cost = std::abs(points[i].x() - page().x() / 2) + 300 * tilt;
            if (cost >= least || !may_write(points[i]) || !room_.is_free(box_of(label, width)))
                continue;
            best = label;
            least = cost;
        }
        if (length < 3 * width) return std::nullopt;
        if (best) room_.take(box_of(*best, width));
        return best;
    }

    /// Not across the green's edge.
    bool may_write(const Vec2& point) const {
        const Vec2 from = (point - layout_.at(Vec2(0, 0))) / layout_.per_m();
        return green_.outline.inside_by({from.x(), -from.y()}) * layout_.per_m() > 34;
    }

    void leave_gaps(Pen& pen, const std::vector<Label>& labels) {
        cairo_t* cr = pen.context();
        cairo_new_path(cr);
        cairo_rectangle(cr, 0, 0, page().x(), page().y());
        for (const Label& label : labels) {
            const Box box = box_of(label, pen.text_width(label.text, label.lettering));
            cairo_rectangle(cr, box.least.x() - 2, box.least.y(), box.size().x() + 4,
                            box.size().y());
        }
        cairo_set_fill_rule(cr, CAIRO_FILL_RULE_EVEN_ODD);
        cairo_clip(cr);
    }

    void draw_marks(Pen& pen) {
        for (const auto& [name, place] : green_.holes) draw_fall_line(pen, place);
        for (const auto& [name, place] : green_.holes) {
            pen.disc(layout_.at(place), hole_radius + 2.5, colours.hole_ring);
            pen.disc(layout_.at(place), hole_radius, colours.hole);
        }
        for (const auto& [name, place] : green_.balls) {
            pen.disc(layout_.at(place), ball_radius + 2.5, colours.grass_light);
            pen.disc(layout_.at(place), ball_radius, rgb(0xFFFFFF));
            pen.ring(layout_.at(place), ball_radius, colours.ink, 1.6);
        }
        for (const Label& label : labels_)
            pen.text(label.baseline_left, label.text, label.lettering);
    }

    /// A hairline with a bar at its upper end and a drop at its lower.
    void draw_fall_line(Pen& pen, const Vec2& place) {
        const auto fall = fall_at(place);
        if (!fall) return;
        const Vec2 top = layout_.at(place) + 20 * *fall, end = layout_.at(place) + 70 * *fall;
        const Vec2 across(-fall->y(), fall->x());
        for (const auto& [colour, extra] :
             {std::pair{colours.grass_light, 4.0}, std::pair{colours.ink, 0.0}}) {
            pen.line({top - 6 * across, top + 6 * across}, colour, 1.8 + extra);
            pen.line({top, end}, colour, 1.6 + extra);
            pen.drop(end, 6.5 + extra / 2, *fall, colour);
        }
    }

    void write_title(Pen& pen) {
        const std::string name = printable(green_.name);
        Lettering title{Face::book_italic, 34, colours.ink};
        title.size *= std::min(1.0, (page().x() - 80) / pen.text_width(name, title));
        pen.text({40, 56}, name, title);
        const Vec2 size_m = box_round(green_.outline.corners()).size();
        pen.text(
            {40, 84},
            fmt::format("{} by {}, stimp {}. Heights from hole {}. Up the plan is bearing 0°.",
                        format_distance(size_m.x(), units_), format_distance(size_m.y(), units_),
                        format_stimp(green_.stimp_ft), printable(hole_->first)),
            {Face::sans, 17, colours.ink2});
    }

    void draw_scale(Pen& pen) {
        const double y = page().y() - 40, left = 40;
        const double length = (units_.metric ? 4.0 : 10 * metres_per_foot) * layout_.per_m();
        pen.line({{left, y}, {left + length, y}}, colours.ink, 1.6);
        for (const double share : {0.0, 0.5, 1.0})
            pen.line(
                {{left + share * length, y - (share == 0.5 ? 4 : 6)}, {left + share * length, y}},
                colours.ink, 1.6);
        pen.text({left + length + 12, y + 4}, units_.metric ? "4 m" : "10 ft", caption);
        pen.text({page().x() - 40 - pen.text_width(caution, caption), y + 4}, caution, caption);
    }

    const Green& green_;
    Units units_;
    Layout layout_;
    Room room_;
    Ground ground_;
    std::map<std::string, Vec2>::const_iterator hole_;
    ContourSpacing spacing_{};
    std::vector<Label> labels_;
};

}  // namespace

std::string green_png(const Green& green, const GreenPictureOptions& options) {
    GreenPicture picture(green, options);
    return draw_png(picture.page(), 2, [&](Pen& pen) { picture.draw(pen); });
}

std::string green_svg(const Green& green, const GreenPictureOptions& options) {
    GreenPicture picture(green, options);
    return draw_svg(picture.page(), [&](Pen& pen) { picture.draw(pen); });
}

}  // namespace dewtrail
