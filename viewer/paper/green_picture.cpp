#include "viewer/paper/green_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "greens/input_error.hpp"
#include "viewer/picture/map/green_map.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double margin = 72, left = 40, title_height = 112, foot_height = 96;
constexpr double tallest_map = 1100;
constexpr const char* short_caution =
    "For practice and teaching. During a round check with the Committee (Rule 4.3a).";

/// Half-tenths between the lines from here on; nearer the hole they would crowd.
constexpr double thin_from = 1.75;

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

/// A scale, and the caution.
void draw_foot(Picture& picture, double y, double px_per_m, const Look& look) {
    const Palette& c = look.colours;
    const double length = (look.units.metric ? 4.0 : 10 * metres_per_foot) * px_per_m;
    picture.push_back(Line{{{left, y}, {left + length, y}}, 1.6, c.ink});
    for (const double share : {0.0, 0.5, 1.0}) {
        const double x = left + share * length, tick = share == 0.5 ? 4 : 6;
        picture.push_back(Line{{{x, y - tick}, {x, y}}, 1.6, c.ink});
    }
    picture.push_back(Text{
        look.units.metric ? "4 m" : "10 ft", Face::sans, 16, {left + length + 12, y + 4}, c.ink2});
    picture.push_back(
        Text{short_caution, Face::sans, 16, {design_width - left, y + 4}, c.ink2, Align::right});
}

Sheet picture_of(const GreenMap& map, const std::string& title, const std::string& below,
                 const Units& units) {
    const Box box = box_round(map.ground.outline->corners());
    PlanCamera camera;
    camera.px_per_m =
        std::min((design_width - 2 * margin) / box.size().x(), tallest_map / box.size().y());
    const double high = camera.px_per_m * box.size().y();
    const Vec2 size(design_width, std::round(title_height + high + foot_height));
    camera.centre_m = box.middle();
    camera.centre_px = {design_width / 2, title_height + high / 2};
    const Rect page{0, 0, size.x(), size.y()};
    const Look look = screen_look(units, Theme::dew, {});
    Picture picture;
    add_rect(picture, page, look.colours.rough);
    add_green_map(picture, map, camera, page, look);
    add_dew(picture, page, {}, 0, {}, look);
    const auto write = [&](const Text& text) {
        picture.push_back(fitted(text, design_width - 2 * left, look));
    };
    write({printable(title), Face::book_italic, 34, {left, 56}, look.colours.ink});
    write({below, Face::sans, 17, {left, 84}, look.colours.ink2});
    draw_foot(picture, size.y() - 40, camera.px_per_m, look);
    return {size, std::move(picture)};
}

}  // namespace

Sheet green_picture(const Green& green, const std::string& hole, const Units& units) {
    const Vec2 size_m = box_round(green.outline.corners()).size();
    return picture_of(
        map_of(green, hole), green.name,
        fmt::format("{} by {}, stimp {}. Heights from {}. Up the plan is bearing 0°.",
                    format_distance(size_m.x(), units), format_distance(size_m.y(), units),
                    format_stimp(green.stimp_ft), hole_called(hole)),
        units);
}

Sheet putts_picture(const PuttsMap& map, const Units& units) {
    const PuttsSurface putts(map.next.table());
    GreenMap green{{map.surface, &map.outline, map.hole, 0}, {{"", map.hole, true}}};
    green.ground.figures_anywhere = true;
    constexpr int cells = 160;  // lines near the hole are small
    green.ground.lines.emplace(
        GroundLines{putts, 1, 0.1, [](double more) { return fmt::format("{:.1f}", 1 + more); },
                    cells, thin_from});
    return picture_of(green, map.title, map.below, units);
}

}  // namespace dewtrail
