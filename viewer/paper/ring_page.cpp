#include "viewer/paper/ring_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "viewer/paper/page.hpp"
#include "viewer/paper/ring_words.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/ring.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr int balls = 12;
constexpr double aim_size = 16, pace_size = 13.5;
constexpr double line_gap = 16;  // from the aim's baseline to the level putt's
constexpr double side_gap = 8;
constexpr double least_tasks_height = 130;
constexpr double start_line_share = 0.3;  // of the distance that is drawn of it
constexpr double ball_radius = 4.6;

/// A ball's two words.
struct Told {
    std::string aim, pace;
};

Told told(const RingRow& row, const Units& units) {
    if (row.result.lines.empty()) return {"no line", ""};
    const Read& read = row.result.lines.front();
    return {read.aim_offset_m ? aim_short(*read.aim_offset_m, units) : "no spot",
            format_level_putt(read.level_putt_m, units)};
}

std::string distances_words(const std::vector<double>& distances_m, const Units& units) {
    std::string words;
    for (std::size_t i = 0; i < distances_m.size(); ++i) {
        if (i > 0) words += i + 1 == distances_m.size() ? " and " : ", ";
        words += format_distance(distances_m[i], units);
    }
    return words;
}

class RingPainter {
  public:
    RingPainter(const RingPage& rings, Paper paper, const Units& units)
        : rings_(rings), paper_(paper), units_(units) {
        ReadOptions options;
        options.usual_past_m = rings.usual_past_m;
        options.keep_path = true;
        options.room = options.costs = options.look_for_others = false;
        for (const double distance : rings.distances_m)
            rows_.push_back(read_ring(rings.plan, distance, balls, options));
        uphill_ = *uphill_at_hole(rings.plan.putt);
    }

    Picture paint(RingPlace* place) {
        const double most = rings_.distances_m.back();
        Page probe(paper_, head(12), units_);
        const double side = side_room(probe);
        const Vec2 room(probe.body().w - 2 * side,
                        probe.body().h - 2 * ring_margin - least_tasks_height);
        scale_ = fitting_scale({2 * most, 2 * most}, room);
        Page page(paper_, head(scale_), units_);
        page_ = &page;
        radius_ = most * units_per_m / scale_;
        hole_ = {page.body().x + page.body().w / 2, page.body().y + ring_margin + 8 + radius_};
        camera();
        draw();
        write_ring_words({page, rings_, units_, hole_, radius_, shared_spot(rows_.back())});
        if (place) *place = {hole_, scale_};
        return page.take();
    }

  private:
    PageHead head(int scale) const {
        return {fmt::format("Rings for today, {} slope", slope_figure(rings_.plan.setup, units_)),
                fmt::format("stimp {}   ·   balls at {}   ·   finish {}",
                            stimp_figure(rings_.plan.setup, units_),
                            distances_words(rings_.distances_m, units_),
                            finish_words(rings_.plan.setup, units_)),
                scale};
    }

    /// What the words beside the outer ring need.
    double side_room(const Page& page) const {
        double widest = 0;
        for (const RingRow& row : rows_.back()) {
            if (std::abs(std::remainder(row.clock_h - 3, 6)) > 1.1) continue;
            const Told words = told(row, units_);
            const double reach = std::abs(std::sin(row.clock_h * M_PI / 6));
            const double free = (1 - reach) * rings_.distances_m.back() * units_per_m / 48;
            widest = std::max({widest, page.width_of(words.aim, Face::book, aim_size) - free,
                               page.width_of(words.pace, Face::sans, pace_size) - free});
        }
        return widest + side_gap;
    }

    /// Uphill at the hole goes up the page.
    void camera() {
        camera_.centre_m = rings_.plan.putt.hole;
        camera_.centre_px = hole_;
        camera_.px_per_m = units_per_m / scale_;
        camera_.turned_rad = -bearing_of(uphill_);
    }

    void draw() {
        for (std::size_t i = 0; i < rows_.size(); ++i) draw_ring(i);
        for (std::size_t i = 0; i < rows_.size(); ++i)
            for (const RingRow& row : rows_[i]) draw_line(row);
        if (const auto spot = shared_spot(rows_.back()); spot && is_shared(*spot)) {
            const double away = spot->median_m * camera_.px_per_m;
            if (away > 12 && away < radius_ / 2)
                draw_diamond(page_->picture(), hole_ - Vec2(0, away), 9, page_->look(),
                             colours().copper, colours().paper);
        }
        draw_hole(page_->picture(), hole_, std::max(4.0, hole_radius_m * camera_.px_per_m),
                  page_->look());
        for (std::size_t i = 0; i < rows_.size(); ++i)
            for (const RingRow& row : rows_[i]) draw_ball_with_words(row, i);
    }

    void draw_ring(std::size_t i) {
        const double radius = rings_.distances_m[i] * camera_.px_per_m;
        std::vector<Vec2> ring;
        for (int k = 0; k < 240; ++k)
            ring.push_back(hole_ +
                           radius * Vec2(std::cos(k * M_PI / 120), std::sin(k * M_PI / 120)));
        page_->picture().push_back(Line{ring, 0.8, colours().height_label, true});
    }

    void draw_line(const RingRow& row) {
        if (row.result.lines.empty()) return;
        const Read& read = row.result.lines.front();
        std::vector<Vec2> trail;
        for (const Vec2& p : Trail(read).line(60)) trail.push_back(camera_.to_px(p));
        page_->picture().push_back(Line{trail, 3.6, faded(colours().trail_soft, 0.35)});
        page_->picture().push_back(Line{trail, 1.4, colours().trail});
        const Putt& putt = row.plan.putt;
        const Vec2 start = along_bearing(putt.launch(read.stroke).bearing_rad);
        const Vec2 end = putt.ball + start_line_share * putt.distance_m() * start;
        page_->picture().push_back(
            Line{{camera_.to_px(putt.ball), camera_.to_px(end)}, 1.5, colours().copper});
    }

    void draw_ball_with_words(const RingRow& row, std::size_t ring) {
        const Vec2 at = camera_.to_px(row.plan.putt.ball);
        if (row.off_green) return;
        draw_ball(page_->picture(), at, ball_radius, page_->look());
        const Told words = told(row, units_);
        if (ring + 1 == rows_.size())
            outer_words(row, at, words);
        else if (!is_crowded(row, ring))
            inner_words(row, at, words);
    }

    void write(const Vec2& baseline, const Told& words, Align align) {
        const Look& look = page_->look();
        draw_map_text(page_->picture(),
                      {words.aim, Face::book, aim_size, baseline, colours().copper, align}, look,
                      colours().paper);
        draw_map_text(
            page_->picture(),
            {words.pace, Face::sans, pace_size, baseline + Vec2(0, line_gap), colours().ink, align},
            look, colours().paper);
    }

    /// Outside the ring.
    void outer_words(const RingRow& row, const Vec2& at, const Told& words) {
        const double turn = row.clock_h * M_PI / 6;
        const Vec2 out(std::sin(turn), -std::cos(turn));
        if (std::abs(out.x()) < 0.1) {
            const double y = out.y() < 0 ? at.y() - 27 : at.y() + 22;
            return write({at.x(), y}, words, Align::centre);
        }
        const Align align = out.x() > 0 ? Align::left : Align::right;
        const double side = out.x() > 0 ? side_gap : -side_gap;
        write({at.x() + side, at.y() + (out.y() < -0.1  ? -12
                                        : out.y() > 0.1 ? 11
                                                        : -2)},
              words, align);
    }

    /// On a small ring the words beside the fall line would run into one another.
    bool is_crowded(const RingRow& row, std::size_t ring) const {
        constexpr double least_apart = 62;
        const double apart = rings_.distances_m[ring] * camera_.px_per_m * 2 * M_PI / balls;
        const double from_fall_line = std::abs(std::remainder(row.clock_h, 6));
        return apart < least_apart && from_fall_line > 0.5 && from_fall_line < 1.5;
    }

    /// On the downhill side of the ball, clear of the trail that comes by from farther out.
    void inner_words(const RingRow& row, const Vec2& at, const Told& words) {
        const double turn = row.clock_h * M_PI / 6;
        const Vec2 out(std::sin(turn), -std::cos(turn));
        const double side = out.x() > 0 ? 1 : -1;
        const Align away = side > 0 ? Align::left : Align::right;
        const Align toward = side > 0 ? Align::right : Align::left;
        if (std::abs(out.x()) < 0.1)
            return write(at + (out.y() < 0 ? Vec2(9, -17) : Vec2(9, 44)), words, Align::left);
        if (out.y() < -0.1) return write(at + Vec2(side * 14, 11), words, away);
        if (out.y() < 0.1) return write(at + Vec2(side * 4, 23), words, away);
        if (out.y() < 0.7) return write(at + Vec2(side * 6, 25), words, Align::centre);
        write(at + Vec2(-side * 1, 25), words, toward);
    }

    const Palette& colours() const { return page_->look().colours; }

    const RingPage& rings_;
    Paper paper_;
    Units units_;
    std::vector<std::vector<RingRow>> rows_;
    Vec2 uphill_;
    Page* page_ = nullptr;
    PlanCamera camera_;
    int scale_ = 12;
    double radius_ = 0;
    Vec2 hole_ = Vec2::Zero();
};

}  // namespace

Picture ring_page(const RingPage& rings, Paper paper, const Units& units, RingPlace* place) {
    if (rings.distances_m.empty() || rings.distances_m.size() > 3)
        throw std::invalid_argument("ring_page: needs one to three distances");
    if (!uphill_at_hole(rings.plan.putt))
        throw std::invalid_argument("ring_page: level ground has no clock");
    return RingPainter(rings, paper, units).paint(place);
}

}  // namespace dewtrail
