#include "viewer/paper/putts_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/paper/plan_page.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

const Palette& colours = palette(Theme::dew);
const Lettering slope_figure{Face::book, 23, colours.ink, colours.grass_light};

/// Half-tenths between the lines from here on; nearer the hole they would crowd.
constexpr double between_from = 1.75;

/// Expected putts as the height of a surface, for what draws contours. Heights alone.
class PuttsSurface final : public Surface {
  public:
    explicit PuttsSurface(const ProspectTable& table) : table_(table) {}
    SurfaceJet at(double x, double y) const override {
        SurfaceJet jet{};
        jet.h = table_.putts_from({x, y});
        return jet;
    }

  private:
    const ProspectTable& table_;
};

std::vector<double> every_tenth(double from) {
    std::vector<double> putts;
    for (int i = 0; i < 30; ++i) putts.push_back(from + 0.1 * i);
    return putts;
}

class PuttsPicture {
  public:
    PuttsPicture(const Surface& surface, const Outline& outline, const Vec2& hole,
                 const NextPutts& next, const PuttsPictureOptions& options)
        : surface_(surface),
          outline_(outline),
          hole_(hole),
          putts_(next.table()),
          options_(options),
          page_(surface, outline, options.units) {}

    const Vec2& page() const { return page_.size(); }

    void draw(Pen& pen) {
        page_.draw_grass(pen);
        page_.take_hole(hole_);
        const auto slope = slope_label(pen);
        page_.draw_contours(pen, lines(1.1), lines(between_from),
                            [](double putts) { return fmt::format("{:.1f}", putts); });
        page_.draw_edge(pen);
        page_.draw_fall_line(pen, hole_);
        page_.draw_hole(pen, hole_);
        if (slope) pen.text(slope->baseline_left, slope->text, slope->lettering);
        page_.write_title(pen, options_.title, options_.below);
        page_.draw_foot(pen);
    }

  private:
    std::vector<ContourLine> lines(double from) const {
        constexpr int cells = 160;  // lines near the hole are small
        return inside(contour_lines(putts_, page_.green_m(), every_tenth(from), cells), outline_);
    }

    std::optional<PageLabel> slope_label(Pen& pen) {
        const auto fall = page_.fall_at(hole_);
        if (!fall) return std::nullopt;
        const double slope = surface_.at(hole_.x(), hole_.y()).gradient().norm();
        return page_.room().label_by(pen, page_.at(hole_) + 70 * *fall, 15, format_slope(slope),
                                     slope_figure);
    }

    const Surface& surface_;
    const Outline& outline_;
    Vec2 hole_;
    PuttsSurface putts_;
    const PuttsPictureOptions& options_;
    PlanPage page_;
};

}  // namespace

std::string putts_png(const Surface& surface, const Outline& outline, const Vec2& hole,
                      const NextPutts& next, const PuttsPictureOptions& options) {
    PuttsPicture picture(surface, outline, hole, next, options);
    return draw_png(picture.page(), 2, [&](Pen& pen) { picture.draw(pen); });
}

std::string putts_svg(const Surface& surface, const Outline& outline, const Vec2& hole,
                      const NextPutts& next, const PuttsPictureOptions& options) {
    PuttsPicture picture(surface, outline, hole, next, options);
    return draw_svg(picture.page(), [&](Pen& pen) { picture.draw(pen); });
}

}  // namespace dewtrail
