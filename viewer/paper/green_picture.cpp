#include "viewer/paper/green_picture.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "viewer/paper/plan_page.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/printable.hpp"

namespace dewtrail {
namespace {

constexpr double index_lines_apart = 90;
constexpr double ball_radius = 6.5;

const Palette& colours = palette(Theme::dew);
const Lettering hole_name{Face::sans_bold, 18, colours.ink, colours.grass_light};
const Lettering ball_name{Face::sans, 18, colours.ink, colours.grass_light};
const Lettering slope_figure{Face::book, 23, colours.ink, colours.grass_light};

class GreenPicture {
  public:
    GreenPicture(const Green& green, const GreenPictureOptions& options)
        : green_(green),
          units_(options.units),
          page_(*green.surface, green.outline, options.units),
          ground_(look_at_ground(*green.surface, green.outline)),
          hole_(options.hole.empty() ? green.holes.begin() : green.holes.find(options.hole)) {
        if (hole_ == green.holes.end())
            throw std::invalid_argument(fmt::format("hole '{}' is not on the green", options.hole));
        spacing_ = contour_spacing(ground_.typical_slope, index_lines_apart / page_.per_m(),
                                   units_.metric);
    }

    const Vec2& page() const { return page_.size(); }

    void draw(Pen& pen) {
        page_.draw_grass(pen);
        place_marks(pen);
        draw_contours(pen);
        page_.draw_edge(pen);
        draw_marks(pen);
        write_title(pen);
        page_.draw_foot(pen);
    }

  private:
    double height_of(const Vec2& at) const { return green_.surface->at(at.x(), at.y()).h; }

    void place_marks(Pen& pen) {
        for (const auto& [name, place] : green_.holes) page_.take_hole(place);
        for (const auto& [name, place] : green_.balls) {
            const Vec2 half(ball_radius + 2, ball_radius + 2), at = page_.at(place);
            page_.room().take({at - half, at + half});
        }
        for (const auto& [name, place] : green_.holes) place_hole_labels(pen, name, place);
        for (const auto& [name, place] : green_.balls)
            labels_.push_back(page_.room().label_by(pen, page_.at(place), ball_radius + 8,
                                                    printable(name), ball_name));
    }

    void place_hole_labels(Pen& pen, const std::string& name, const Vec2& place) {
        const Vec2 at = page_.at(place);
        labels_.push_back(
            page_.room().label_by(pen, at, PlanPage::hole_radius + 8, printable(name), hole_name));
        const auto fall = page_.fall_at(place);
        if (!fall) return;
        const double slope = green_.surface->at(place.x(), place.y()).gradient().norm();
        labels_.push_back(
            page_.room().label_by(pen, at + 70 * *fall, 15, format_slope(slope), slope_figure));
    }

    void draw_contours(Pen& pen) {
        const double base_m = height_of(hole_->second);
        const auto lines = [&](double step_m, double from_m) {
            const auto heights =
                contour_heights(from_m, step_m, ground_.lowest_m, ground_.highest_m);
            return inside(contour_lines(*green_.surface, page_.green_m(), heights), green_.outline);
        };
        page_.draw_contours(pen, lines(spacing_.index_m, base_m),
                            lines(spacing_.index_m, base_m + spacing_.intermediate_m),
                            [&](double height_m) {
                                const double above_m = height_m - base_m;
                                const bool level = std::abs(above_m) < spacing_.index_m / 2;
                                return level ? "" : format_height(above_m, units_);
                            });
    }

    void draw_marks(Pen& pen) {
        for (const auto& [name, place] : green_.holes) page_.draw_fall_line(pen, place);
        for (const auto& [name, place] : green_.holes) page_.draw_hole(pen, place);
        for (const auto& [name, place] : green_.balls) {
            pen.disc(page_.at(place), ball_radius + 2.5, colours.grass_light);
            pen.disc(page_.at(place), ball_radius, rgb(0xFFFFFF));
            pen.ring(page_.at(place), ball_radius, colours.ink, 1.6);
        }
        for (const PageLabel& label : labels_)
            pen.text(label.baseline_left, label.text, label.lettering);
    }

    void write_title(Pen& pen) {
        const Vec2 size_m = page_.green_m().size();
        page_.write_title(
            pen, green_.name,
            fmt::format("{} by {}, stimp {}. Heights from hole {}. Up the plan is bearing 0°.",
                        format_distance(size_m.x(), units_), format_distance(size_m.y(), units_),
                        format_stimp(green_.stimp_ft), printable(hole_->first)));
    }

    const Green& green_;
    Units units_;
    PlanPage page_;
    Ground ground_;
    std::map<std::string, Vec2>::const_iterator hole_;
    ContourSpacing spacing_{};
    std::vector<PageLabel> labels_;
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
