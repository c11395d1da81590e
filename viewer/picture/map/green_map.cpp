#include "viewer/picture/map/green_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "greens/input_error.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/map/read_labels.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double level_enough = 0.001;  // below, no way to fall is told
constexpr double hole_u = 7, ball_u = 5, bar_u = 15, drop_u = 42;
constexpr double round_green_u = 8;  // grass and lines end within this beyond the edge

class GreenMapPainter {
  public:
    GreenMapPainter(Picture& picture, const GreenMap& map, const PlanCamera& camera,
                    const Look& look)
        : out_(picture), map_(map), camera_(camera), look_(look) {}

    void paint(const Rect& page) {
        for (const GreenPlace& place : map_.places) take(place);
        add_obstacles(taken_, edge(), look_.u(2));
        const auto labels = place_labels(wishes_, taken_, page, look_.width);
        std::vector<Rect> words;
        for (const PlacedLabel& label : labels) words.push_back(label.box.grown(look_.u(2)));
        taken_.insert(taken_.end(), words.begin(), words.end());
        append(out_, plan_ground(map_.ground, camera_, pane(), taken_, look_, words));
        for (const GreenPlace& place : map_.places) draw(place);
        draw_labels(out_, labels, look_, surface_colour(look_.colours));
    }

    std::string legend() const {
        std::string words;
        if (const auto lines = lines_of(map_.ground, camera_, pane(), look_))
            words = fmt::format(
                "Bold contours are {} apart, thin ones halfway; their figures are heights from "
                "the hole. ",
                lines->figure(lines->apart).substr(1));
        const auto any = [&](bool hole) {
            return std::any_of(map_.places.begin(), map_.places.end(),
                               [&](const GreenPlace& place) { return place.hole == hole; });
        };
        words += "At a hole the drop lies downhill, and the figure is the slope there.";
        if (any(false)) words += " White balls are spots to putt from.";
        return words;
    }

  private:
    std::vector<Vec2> edge() const {
        std::vector<Vec2> points;
        for (const Vec2& corner : map_.ground.outline->corners())
            points.push_back(camera_.to_px(corner));
        points.push_back(points.front());
        return points;
    }

    Rect pane() const {
        const Box box = box_round(map_.ground.outline->corners());
        const Vec2 low = camera_.to_px({box.least.x(), box.most.y()});
        const Vec2 size = camera_.px_per_m * box.size();
        return Rect{low.x(), low.y(), size.x(), size.y()}.grown(look_.u(round_green_u));
    }

    Vec2 gradient(const Vec2& at) const {
        return map_.ground.surface.at(at.x(), at.y()).gradient();
    }
    /// Unit vector down the slope; zero where the green is as good as level.
    Vec2 fall(const Vec2& at) const {
        const Vec2 g = gradient(at);
        return g.norm() < level_enough ? Vec2(0, 0) : camera_.direction_px(-g.normalized());
    }

    void take(const GreenPlace& place) {
        const Vec2 at = camera_.to_px(place.at);
        const double half = look_.u((place.hole ? hole_u : ball_u) + 3);
        taken_.push_back({at.x() - half, at.y() - half, 2 * half, 2 * half});
        std::string words = printable(place.name);
        if (place.hole) {
            add_obstacles(taken_, {at, at + look_.u(drop_u) * fall(place.at)}, look_.u(6));
            words += (words.empty() ? "" : ", ") + format_slope(gradient(place.at).norm());
        }
        if (words.empty()) return;
        const LabelLine line{words, place.hole ? Face::sans_bold : Face::sans, look_.type(17),
                             look_.colours.ink};
        wishes_.push_back({.id = place.name,
                           .lines = {line},
                           .mark = at,
                           .clear = half + look_.u(2),
                           .sides = {Side::right, Side::left, Side::above, Side::below},
                           .must = place.hole});
    }

    void draw(const GreenPlace& place) {
        const Vec2 at = camera_.to_px(place.at), down = fall(place.at);
        if (!place.hole) return draw_ball(out_, at, look_.u(ball_u), look_);
        if (down.norm() > 0)
            draw_fall_line(out_, at + look_.u(bar_u) * down, at + look_.u(drop_u) * down, look_);
        draw_hole(out_, at, look_.u(hole_u), look_);
    }

    Picture& out_;
    const GreenMap& map_;
    const PlanCamera& camera_;
    const Look& look_;
    std::vector<Label> wishes_;
    std::vector<Rect> taken_;
};

}  // namespace

GreenMap map_of(const Green& green, const std::string& hole) {
    const auto from = green.holes.find(hole);
    if (from == green.holes.end())
        throw std::invalid_argument("hole '" + hole + "' is not on the green");
    const Vec2& at = from->second;
    GreenMap map{
        {*green.surface, &green.outline, at, green.surface->at(at.x(), at.y()).gradient().norm()},
        {}};
    map.ground.figures_anywhere = true;
    for (const auto& [name, place] : green.holes) map.places.push_back({name, place, true});
    for (const auto& [name, place] : green.balls) map.places.push_back({name, place});
    return map;
}

std::string legend_of(const GreenMap& map, const PlanCamera& camera, const Look& look) {
    Picture none;
    return GreenMapPainter(none, map, camera, look).legend();
}

void add_green_map(Picture& picture, const GreenMap& map, const PlanCamera& camera,
                   const Rect& page, const Look& look) {
    GreenMapPainter(picture, map, camera, look).paint(page);
}

}  // namespace dewtrail
