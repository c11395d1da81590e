#include "viewer/paper/roll_picture.hpp"

#include <fmt/format.h>

#include "viewer/paper/sheet.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/putt/account.hpp"
#include "viewer/putt/putt_words.hpp"
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

std::string title_of(const PlacedPutt& putt, const Read& stroke, const std::string& verdict,
                     const Units& units) {
    const Account account = account_of(putt.putt, stroke, units);
    return fmt::format("{}  ·  aim {}, level putt {}: {}", putt_words(putt, units),
                       account.row(Glyph::aim)->words,
                       format_level_putt(stroke.level_putt_m, units), verdict);
}

}  // namespace

/// What stands still: the camera and the ground, painted once.
struct RollPicture::Painted {
    Painted(const Solved& solved, const Trail& trail, std::string slope_words, const Units& units,
            Theme theme)
        : look(screen_look(units, theme, lay_out(design_width, design_height, 1, false))),
          slope(std::move(slope_words)),
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
        view.slope = slope;
        std::vector<Label> labels;
        return plan_picture(solved, trail, camera, pane, view, look, labels);
    }

    Look look;
    std::string slope;
    PlanCamera camera;
    Bitmap ground;
};

RollPicture::RollPicture(const PlacedPutt& putt, const Read& stroke, const std::string& verdict,
                         const Units& units, Theme theme)
    : title_(title_of(putt, stroke, verdict, units)), trail_(stroke) {
    solved_.putt = putt.putt;
    solved_.read = stroke;
    painted_ =
        std::make_unique<Painted>(solved_, trail_, slope_figure(putt.setup, units), units, theme);
}

RollPicture::~RollPicture() = default;

Picture RollPicture::picture(double time_s) const {
    const Palette& c = painted_->look.colours;
    constexpr double beside = 40, time_room = 90;
    Picture picture = painted_->plan(solved_, trail_, time_s).picture;
    picture.push_back(Clip{});
    add_rect(picture, {0, pane.bottom(), design_width, design_height - pane.bottom()}, c.paper);
    const double baseline = pane.bottom() + 36;
    picture.push_back(fitted({title_, Face::book, 22, {beside, baseline}, c.ink},
                             design_width - 2 * beside - time_room, painted_->look));
    picture.push_back(Text{format_time(std::min(time_s, trail_.end_s())),
                           Face::book,
                           22,
                           {design_width - beside, baseline},
                           c.ink2,
                           Align::right});
    return picture;
}

Bitmap RollPicture::frame(double time_s) const {
    Bitmap frame = painted_->ground;
    frame.paint(picture(time_s));
    return frame;
}

}  // namespace dewtrail
