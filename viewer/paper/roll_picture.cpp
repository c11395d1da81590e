#include "viewer/paper/roll_picture.hpp"

#include <fmt/format.h>

#include "viewer/paper/picture_painter.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

const Rect pane{0, 0, design_width, design_height - 56};

Look look_of(const Units& units, Theme theme) {
    Look look;
    look.colours = palette(theme);
    look.layout = lay_out(design_width, design_height, 1, false);
    look.units = units;
    look.width = paper_width();
    return look;
}

}  // namespace

/// What stands still: the camera and the ground, painted once.
struct RollPicture::Painted {
    Painted(const Solved& solved, const Trail& trail, const Units& units, Theme theme)
        : look(look_of(units, theme)),
          camera(fit_plan(all_seen(solved, trail), pane, 1)),
          ground(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(design_width),
                                            static_cast<int>(design_height)),
                 cairo_surface_destroy) {
        std::vector<Label> labels;
        const PlanPicture plan =
            plan_picture(solved, trail, camera, pane, view_at(0), look, labels);
        const std::shared_ptr<cairo_t> context(cairo_create(ground.get()), cairo_destroy);
        Pen pen(context.get());
        paint(
            pen,
            plan_ground(solved, camera, pane, plan.taken, look, boxes_of_words(plan.picture, look)),
            Meshes::drawn);
    }

    static std::vector<Vec2> all_seen(const Solved& solved, const Trail& trail) {
        std::vector<Vec2> points = to_be_seen(solved);
        points.push_back(trail.at(trail.end_s()).at);
        return points;
    }

    static MapView view_at(double time_s) {
        MapView view;
        view.taught = false;
        view.time_s = time_s;
        return view;
    }

    Look look;
    PlanCamera camera;
    std::shared_ptr<cairo_surface_t> ground;
};

RollPicture::RollPicture(Solved solved, std::string title, const Units& units, Theme theme)
    : solved_(std::move(solved)), title_(std::move(title)), trail_(*solved_.read) {
    solved_.second.reset();
    solved_.none.reset();
    solved_.instead.reset();
    solved_.choices.clear();
    painted_ = std::make_unique<Painted>(solved_, trail_, units, theme);
}

RollPicture::~RollPicture() = default;

std::string RollPicture::png(double time_s) const {
    const Look& look = painted_->look;
    std::vector<Label> labels;
    const PlanPicture plan = plan_picture(solved_, trail_, painted_->camera, pane,
                                          Painted::view_at(time_s), look, labels);
    Picture strip;
    add_rect(strip, {0, pane.bottom(), design_width, design_height - pane.bottom()},
             look.colours.paper);
    const double baseline = pane.bottom() + 36;
    strip.push_back(Text{title_, Face::book, 22, {40, baseline}, look.colours.ink});
    strip.push_back(Text{format_time(std::min(time_s, trail_.end_s())),
                         Face::book,
                         22,
                         {design_width - 40, baseline},
                         look.colours.ink2,
                         Align::right});
    return draw_png({design_width, design_height}, 1, [&](Pen& pen) {
        cairo_set_source_surface(pen.context(), painted_->ground.get(), 0, 0);
        cairo_paint(pen.context());
        paint(pen, plan.picture, Meshes::drawn);
        paint(pen, {Clip{}}, Meshes::drawn);
        paint(pen, strip, Meshes::drawn);
    });
}

}  // namespace dewtrail
