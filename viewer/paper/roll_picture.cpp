#include "viewer/paper/roll_picture.hpp"

#include <fmt/format.h>

#include "viewer/paper/sheet.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

static_assert(RollPicture::width == design_width && RollPicture::height == design_height);

const Rect pane{0, 0, design_width, design_height - 56};

std::vector<Vec2> all_seen(const Solved& solved, const Trail& trail) {
    std::vector<Vec2> points = to_be_seen(solved);
    points.push_back(trail.at(trail.end_s()).at);
    return points;
}

}  // namespace

/// What stands still: the camera and the ground, painted once.
struct RollPicture::Painted {
    Painted(const Solved& solved, const Trail& trail, const Units& units, Theme theme)
        : look(screen_look(units, theme, lay_out(design_width, design_height, 1, false))),
          camera(fit_plan(all_seen(solved, trail), pane, 1)),
          ground({design_width, design_height}, 1) {
        const PlanPicture at_first = plan(solved, trail, 0);
        ground.paint(plan_ground(solved, camera, pane, at_first.taken, look,
                                 boxes_of_words(at_first.picture, look)));
    }

    PlanPicture plan(const Solved& solved, const Trail& trail, double time_s) const {
        MapView view;
        view.taught = false;
        view.time_s = time_s;
        std::vector<Label> labels;
        return plan_picture(solved, trail, camera, pane, view, look, labels);
    }

    Look look;
    PlanCamera camera;
    Bitmap ground;
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

Bitmap RollPicture::frame(double time_s) const {
    const Palette& c = painted_->look.colours;
    Picture picture = painted_->plan(solved_, trail_, time_s).picture;
    picture.push_back(Clip{});
    add_rect(picture, {0, pane.bottom(), design_width, design_height - pane.bottom()}, c.paper);
    const double baseline = pane.bottom() + 36;
    picture.push_back(Text{title_, Face::book, 22, {40, baseline}, c.ink});
    picture.push_back(Text{format_time(std::min(time_s, trail_.end_s())),
                           Face::book,
                           22,
                           {design_width - 40, baseline},
                           c.ink2,
                           Align::right});
    Bitmap frame = painted_->ground;
    frame.paint(picture);
    return frame;
}

}  // namespace dewtrail
