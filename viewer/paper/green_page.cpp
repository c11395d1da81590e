#include "viewer/paper/green_page.hpp"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "greens/contours.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/picture/map/read_labels.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/printable.hpp"

namespace dewtrail {
namespace {

constexpr double level_enough = 0.001;  // below, no direction of fall is shown
constexpr double arrow = 30, label_size = 13, height_size = 12;

class GreenPainter {
  public:
    GreenPainter(const Green& green, const std::string& hole, Paper paper, const Units& units)
        : green_(green),
          hole_(green.holes.find(hole)),
          paper_(paper),
          units_(units),
          box_(box_round(green.outline.corners())),
          ground_(look_at_ground(*green.surface, green.outline)) {
        if (hole_ == green.holes.end())
            throw std::invalid_argument("green_page: the hole is not on the green");
    }

    Picture paint() {
        const bool small = paper_ == Paper::pocket;
        const Page probe(paper_, head(1), units_);
        const double edge = small ? 8 : 24;
        const Vec2 place(probe.body().w - 2 * edge, probe.body().h - 2 * edge);
        const int scale = fitting_scale(box_.size(), place, small ? round_scale : 12);
        Page page(paper_, head(scale), units_);
        page_ = &page;
        camera_.centre_m = box_.middle();
        camera_.centre_px = page.body().centre();
        camera_.px_per_m = units_per_m / scale;
        place_labels_of_spots();
        draw_contours();
        draw_edge();
        draw_spots();
        return page.take();
    }

  private:
    PageHead head(int scale) const {
        return {printable(green_.name),
                fmt::format("stimp {}   ·   heights from hole {}", format_stimp(green_.stimp_ft),
                            printable(hole_->first)),
                scale, false};
    }

    std::optional<Vec2> fall_px(const Vec2& place) const {
        const Vec2 gradient = green_.surface->at(place.x(), place.y()).gradient();
        if (gradient.norm() < level_enough) return std::nullopt;
        return camera_.direction_px(-gradient.normalized());
    }

    static Rect square(const Vec2& at, double half) {
        return {at.x() - half, at.y() - half, 2 * half, 2 * half};
    }

    void want_label(const std::string& name, const Vec2& place, bool hole) {
        const Vec2 at = camera_.to_px(place);
        std::string words = printable(name);
        const double slope = green_.surface->at(place.x(), place.y()).gradient().norm();
        if (hole) words += ", " + format_slope(slope);
        wishes_.push_back({.id = name,
                           .lines = {{words, hole ? Face::sans_bold : Face::sans, label_size,
                                      page_->look().colours.ink}},
                           .mark = at,
                           .clear = 9,
                           .sides = {Side::right, Side::left, Side::above, Side::below},
                           .must = hole});
    }

    /// Spots to practise from; on pocket paper there is no room for them.
    std::map<std::string, Vec2> ball_spots() const {
        return paper_ == Paper::pocket ? std::map<std::string, Vec2>{} : green_.balls;
    }

    void place_labels_of_spots() {
        for (const auto& [name, place] : green_.holes) {
            const Vec2 at = camera_.to_px(place);
            taken_.push_back(square(at, 8));
            if (const auto fall = fall_px(place))
                add_obstacles(taken_, {at, at + arrow * *fall}, 5);
            want_label(name, place, true);
        }
        for (const auto& [name, place] : ball_spots()) {
            taken_.push_back(square(camera_.to_px(place), 6));
            want_label(name, place, false);
        }
        labels_ = place_labels(wishes_, taken_, page_->body(), page_->look().width);
        for (const PlacedLabel& label : labels_) taken_.push_back(label.box);
    }

    std::vector<Vec2> px(const std::vector<Vec2>& places) const {
        std::vector<Vec2> points;
        for (const Vec2& place : places) points.push_back(camera_.to_px(place));
        return points;
    }

    void draw_contours() {
        const double base = green_.surface->at(hole_->second.x(), hole_->second.y()).h;
        const ContourSpacing spacing =
            contour_spacing(ground_.typical_slope, 34 / camera_.px_per_m, units_.metric);
        for (const ContourLine& line : lines_at(base, spacing.index_m)) {
            const double steps = std::round((line.height_m - base) / spacing.index_m);
            draw_index(px(line.points), steps * spacing.index_m);
        }
        for (const ContourLine& line : lines_at(base + spacing.intermediate_m, spacing.index_m))
            page_->picture().push_back(
                Line{px(line.points), 0.6, faded(page_->look().colours.contour, 0.5)});
    }

    std::vector<ContourLine> lines_at(double from_m, double step_m) const {
        const auto heights = contour_heights(from_m, step_m, ground_.lowest_m, ground_.highest_m);
        return inside(contour_lines(*green_.surface, box_, heights), green_.outline);
    }

    /// With its height in a gap, where there is room for one.
    void draw_index(const std::vector<Vec2>& line, double height_m) {
        const Colour& colour = page_->look().colours.contour;
        const std::string words = format_height(height_m, units_);
        const double half = page_->width_of(words, Face::sans, height_size) / 2 + 4;
        const auto at = std::abs(height_m) < 1e-9 ? std::nullopt : free_place(line, half);
        if (!at) return page_->picture().push_back(Line{line, 1.1, colour});
        add_line_with_gap(page_->picture(), line, *at, half, 1.1, colour);
        page_->text(*at + Vec2(0, 0.35 * height_size), words, Face::sans, height_size,
                    page_->look().colours.height_label, Align::centre);
        taken_.push_back({at->x() - half, at->y() - 8, 2 * half, 16});
    }

    std::optional<Vec2> free_place(const std::vector<Vec2>& line, double half) const {
        double length = 0;
        for (std::size_t i = 1; i < line.size(); ++i) length += (line[i] - line[i - 1]).norm();
        if (length < 5 * half) return std::nullopt;
        for (std::size_t k = 0; k < line.size(); ++k) {
            // From the middle outwards, by turns.
            const std::size_t off = (k + 1) / 2, middle = line.size() / 2;
            if (k % 2 ? off > middle : middle + off >= line.size()) continue;
            const Vec2& at = line[k % 2 ? middle - off : middle + off];
            const Rect box{at.x() - half, at.y() - 9, 2 * half, 18};
            const bool free = std::none_of(taken_.begin(), taken_.end(),
                                           [&](const Rect& t) { return t.meets(box); });
            if (free && well_inside(at, half)) return at;
        }
        return std::nullopt;
    }

    bool well_inside(const Vec2& at, double by) const {
        return green_.outline.inside_by(camera_.to_green(at)) * camera_.px_per_m > by;
    }

    void draw_edge() {
        page_->picture().push_back(
            Line{px(green_.outline.corners()), 1.4, page_->look().colours.ink2, true});
    }

    void draw_spots() {
        const Look& look = page_->look();
        Picture& out = page_->picture();
        for (const auto& [name, place] : green_.holes) {
            const Vec2 at = camera_.to_px(place);
            if (const auto fall = fall_px(place)) {
                out.push_back(Line{{at, at + (arrow - 6) * *fall}, 1.2, look.colours.ink});
                draw_drop(out, at + (arrow - 5) * *fall, -*fall, 3.6, look.colours.ink);
            }
            draw_hole(out, at, 4.5, look);
        }
        for (const auto& [name, place] : ball_spots())
            draw_ball(out, camera_.to_px(place), 3.6, look);
        draw_labels(out, labels_, look, look.colours.paper);
    }

    const Green& green_;
    std::map<std::string, Vec2>::const_iterator hole_;
    Paper paper_;
    Units units_;
    Box box_;
    Ground ground_;
    PlanCamera camera_;
    Page* page_ = nullptr;
    std::vector<Label> wishes_;
    std::vector<PlacedLabel> labels_;
    std::vector<Rect> taken_;
};

}  // namespace

Picture green_page(const Green& green, const std::string& hole, Paper paper, const Units& units) {
    return GreenPainter(green, hole, paper, units).paint();
}

}  // namespace dewtrail
