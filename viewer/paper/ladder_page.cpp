#include "viewer/paper/ladder_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viewer/paper/page.hpp"
#include "viewer/picture/map/marks.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr std::size_t most_rungs = 6;
constexpr double aim_size = 16, pace_size = 13.5, heading_size = 20;
constexpr double heading_h = 46, after_h = 10;  // of a ladder
constexpr double least_above = 17, below = 19;  // a rung's room over and under its line
constexpr double words_w = 168, ball_w = 66;    // beside the hole, before the farthest ball
constexpr int most_scale = 200;

/// Of balls left of the hole, so that the high side lies up the page.
struct Fall {
    const char* name;
    double clock_h;
};
constexpr Fall falls[] = {
    {"Across the slope", 9}, {"Across and uphill", 7.5}, {"Across and downhill", 10.5}};

/// One putt of a ladder.
struct Rung {
    Putt putt;
    std::optional<Read> read;
    double distance_m = 0, above_m = 0;  ///< how far its trail and aim rise over the straight line
};

Rung rung_of(const LadderPage& ladder, double clock_h, double distance_m) {
    Setup setup = ladder.ground;
    set_distance_and_clock(setup, distance_m, clock_h);
    Rung rung{placed(std::move(setup)).putt, std::nullopt, distance_m, 0};
    ReadOptions options;
    options.usual_past_m = ladder.usual_past_m;
    options.keep_path = true;
    options.room = options.costs = options.look_for_others = false;
    const ReadResult result = read(rung.putt, options);
    if (result.lines.empty() || !result.lines.front().aim_offset_m) return rung;
    rung.read = result.lines.front();
    rung.above_m = std::max(0.0, -*rung.read->aim_offset_m);
    return rung;
}

class LadderPainter {
  public:
    LadderPainter(const LadderPage& ladder, Paper paper, const Units& units)
        : ladder_(ladder), paper_(paper), units_(units) {
        for (const Fall& fall : falls) {
            ladders_.emplace_back();
            for (const double distance : ladder.distances_m)
                ladders_.back().push_back(rung_of(ladder, fall.clock_h, distance));
        }
    }

    Picture paint(LadderPlace* place) {
        choose_scale();
        Page page(paper_, head(), units_);
        page_ = &page;
        hole_x_ = page.body().right() - words_w;
        double y = page.body().y + 8;
        for (std::size_t i = 0; i < ladders_.size(); ++i) y = draw_ladder(i, y);
        write_foot(y);
        place_.scale = scale_;
        if (place) *place = place_;
        return page.take();
    }

  private:
    PageHead head() const {
        return {fmt::format("Ladder for today, {} slope", slope_figure(ladder_.ground, units_)),
                fmt::format("stimp {}   ·   finish {}", stimp_figure(ladder_.ground, units_),
                            finish_words(ladder_.ground, units_)),
                scale_};
    }

    double px_per_m() const { return units_per_m / scale_; }
    double rung_h(const Rung& rung) const {
        return std::max(least_above, rung.above_m * px_per_m() + 10) + below;
    }

    double height() const {
        double h = 0;
        for (const auto& ladder : ladders_) {
            h += heading_h + after_h;
            for (const Rung& rung : ladder) h += rung_h(rung);
        }
        return h;
    }

    /// The largest at which all of them have room.
    void choose_scale() {
        const Rect body = Page(paper_, head(), units_).body();
        const double longest = ladder_.distances_m.back();
        const Vec2 room(body.w - words_w - ball_w, body.h);
        scale_ = fitting_scale({longest, 0}, room);
        while (height() > body.h - 50 && scale_ < most_scale)
            scale_ = fitting_scale({longest, 0}, room, scale_ + 1);
    }

    double draw_ladder(std::size_t i, double y) {
        const Look& look = page_->look();
        const double x = page_->body().x;
        page_->text({x + 44, y + 26}, falls[i].name, Face::book, heading_size, look.colours.ink);
        // Uphill on the page, the putt running to the right.
        const Putt& putt = ladders_[i].front().putt;
        const double turn = bearing_of(*uphill_at_hole(putt)) - bearing_of(putt.line());
        const Vec2 up(std::cos(turn), std::sin(turn)), middle(x + 20, y + 20);
        draw_fall_line(page_->picture(), middle + 17 * up, middle - 17 * up, look);
        y += heading_h;
        for (const Rung& rung : ladders_[i]) {
            y += rung_h(rung);
            draw_rung(rung, {hole_x_, y - below});
        }
        return y + after_h;
    }

    void draw_rung(const Rung& rung, const Vec2& hole) {
        const Look& look = page_->look();
        const Palette& c = look.colours;
        PlanCamera camera;
        camera.centre_m = rung.putt.hole;
        camera.centre_px = hole;
        camera.px_per_m = px_per_m();
        camera.turned_rad = M_PI / 2 - bearing_of(rung.putt.line());
        const Vec2 ball = camera.to_px(rung.putt.ball);
        place_.rungs.push_back({ball, hole, rung.distance_m});
        Picture& picture = page_->picture();
        picture.push_back(Line{{ball, hole}, 0.8, c.height_label});
        if (rung.read) {
            std::vector<Vec2> trail;
            for (const Vec2& p : Trail(*rung.read).line(60)) trail.push_back(camera.to_px(p));
            picture.push_back(Line{trail, 3.6, faded(c.trail_soft, 0.35)});
            picture.push_back(Line{trail, 1.4, c.trail});
            const Vec2 aim = camera.to_px(place_of_aim(rung.putt, *rung.read->aim_offset_m));
            add_dashes(picture, {ball, aim}, 5, 4, 0.9, c.copper);
            draw_diamond(picture, aim, 5, look, c.copper, c.paper);
        }
        draw_hole(picture, hole, std::max(3.5, hole_radius_m * px_per_m()), look);
        draw_ball(picture, ball, 4, look);
        page_->text(ball + Vec2(-9, 5), format_distance(rung.distance_m, units_), Face::sans,
                    pace_size, c.ink2, Align::right);
        write_words(rung, hole);
    }

    void write_words(const Rung& rung, const Vec2& hole) {
        const Palette& c = page_->look().colours;
        const double x = hole.x() + 18;
        if (!rung.read)
            return page_->text(hole + Vec2(18, 5), "no line", Face::sans, pace_size, c.ink2);
        const std::string aim = aim_short(*rung.read->aim_offset_m, units_);
        page_->text({x, hole.y() + 5}, aim, Face::book, aim_size, c.copper);
        page_->text({page_->body().right(), hole.y() + 5},
                    "as " + format_level_putt(rung.read->level_putt_m, units_), Face::sans,
                    pace_size, c.ink, Align::right);
    }

    void write_foot(double y) {
        const Palette& c = page_->look().colours;
        const Rect& body = page_->body();
        page_->rule(y + 2);
        page_->paragraph({body.x, y + 22},
                         "All fall to the right: aim left. Where it falls to the left, the same to "
                         "the right. Cups from the edge; then the level putt to play.",
                         Face::sans, 13, c.ink2, body.w);
    }

    const LadderPage& ladder_;
    Paper paper_;
    Units units_;
    std::vector<std::vector<Rung>> ladders_;
    Page* page_ = nullptr;
    int scale_ = 12;
    double hole_x_ = 0;
    LadderPlace place_;
};

}  // namespace

std::vector<double> ladder_distances_m(const Units& units) {
    if (units.metric) return {1, 2, 4, 6};
    std::vector<double> distances;
    for (const double feet : {4, 8, 12, 20}) distances.push_back(feet * metres_per_foot);
    return distances;
}

Picture ladder_page(const LadderPage& ladder, Paper paper, const Units& units, LadderPlace* place) {
    if (ladder.distances_m.empty() || ladder.distances_m.size() > most_rungs)
        throw std::invalid_argument("ladder_page: needs one to six distances");
    if (ladder.ground.slope < least_told_slope)
        throw std::invalid_argument("ladder_page: level ground has no fall");
    return LadderPainter(ladder, paper, units).paint(place);
}

}  // namespace dewtrail
