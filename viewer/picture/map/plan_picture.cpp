#include "viewer/picture/map/plan_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/picture/map/clock_ring.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/map_painter.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double fall_line_u = 98;

class PlanPainter : private MapPainter {
  public:
    PlanPainter(const Solved& s, const Trail& trail, const PlanCamera& camera, const Rect& pane,
                const MapView& view, const Look& look, std::vector<Label>& wishes)
        : MapPainter(s, trail, pane, view, look, surface_colour(look.colours), wishes),
          camera_(camera) {}

    PlanPicture paint() {
        begin([this](const Vec2& at) { return std::optional(camera_.to_px(at)); });
        out_.marks.hole_px = hole_px();
        out_.marks.ball_px = ball_px();
        make_room_for_turns();
        whole_ = pixels(trail_.line(trail_.end_s()));
        wiped_ = pixels(trail_.line(view_.time_s));
        add_dew(out_.picture, pane_, wiped_, look_.u(9), view_.dry, look_);
        ring_ = ring_of(s_, camera_, out_.marks);
        if (ring_) circle_ = ring_->circle();
        if (ring_) draw_clock_ring(out_.picture, *ring_, pane_, look_);
        straight_line();
        second_line();
        band();
        trail_dots();
        start_line();
        appear(Appearing::aim, [&] { cups(); });
        draw_hole(out_.picture, *out_.marks.hole, hole_px(), look_, pulse());
        start_spot();
        moving_ball();
        draw_ball(out_.picture, *out_.marks.ball, ball_px(), look_, !s_.putt.ball_on_green());
        aim_marks(out_.marks, hole_px());
        if (view_.marks_shown) appear(Appearing::aim, [&] { other_choices(); });
        labels();
        return end(whole_);
    }

  private:
    std::vector<Vec2> pixels(const std::vector<Vec2>& line) const {
        std::vector<Vec2> px;
        px.reserve(line.size());
        for (const Vec2& p : line) {
            const Vec2 at = camera_.to_px(p);
            if (px.empty() || &p == &line.back() || (at - px.back()).norm() > 2.5) px.push_back(at);
        }
        return px;
    }

    double hole_px() const { return std::max(look_.u(10), hole_radius_m * camera_.px_per_m); }
    double ball_px() const { return std::max(look_.u(7), ball_radius_m * camera_.px_per_m); }

    void straight_line() {
        add_dashes(out_.picture, {*out_.marks.ball, *out_.marks.hole}, look_.u(1.8), look_.u(6.7),
                   look_.u(1.5), c_.ink2);
    }

    void second_line() {
        if (!s_.second) return;
        add(Line{pixels(Trail(*s_.second).line(60)), look_.u(1), faded(c_.trail, 0.8)});
    }

    void trail_dots() {
        for (const PlacedBreakMark& b : breaks_) {
            if (b.mark.time_s > view_.time_s) continue;
            const Vec2 across = Vec2(-b.along.y(), b.along.x()) * look_.u(6);
            add(Line{{b.at - across, b.at + across}, look_.u(2.6), c_.half_second});
        }
        double time = 0.5;
        for (const Vec2& at : trail_.half_seconds()) {
            if (time <= view_.time_s) add(Disc{camera_.to_px(at), look_.u(2.3), c_.half_second});
            time += 0.5;
        }
    }

    /// Cups edge to edge from the hole to the aim spot.
    void cups() {
        const Read* read = s_.shown();
        if (!read || !out_.marks.aim || !view_.marks_shown) return;
        const Vec2 way = *out_.marks.aim - *out_.marks.hole;
        const double cup = 2 * hole_radius_m * camera_.px_per_m, length = way.norm();
        if (cup < look_.u(9) || length > 12 * cup) return;
        for (double at = cup; at < length - 0.45 * cup; at += cup)
            add_ring(out_.picture, *out_.marks.hole + way * (at / length), cup / 2 - look_.u(0.5),
                     look_.u(1.3), faded(c_.copper, 0.55));
    }

    void other_choices() {
        for (const Marks::Finish& finish : out_.marks.finishes) {
            add(Line{{*out_.marks.ball, finish.at}, look_.u(1.1), faded(c_.copper, 0.75)});
            draw_diamond(out_.picture, finish.at, 5.5, look_, c_.copper, surface_);
        }
    }

    /// A ball that cannot stop rolls on from the hole to the edge of the pane, and fades there.
    void band() {
        const double runs_off = trail_.runs_off_from_s();
        draw_trail(out_.picture, runs_off < view_.time_s ? pixels(trail_.line(runs_off)) : wiped_,
                   look_.u(9), look_);
        const double reach = std::hypot(pane_.w, pane_.h) / camera_.px_per_m;
        draw_fading_trail(out_.picture, pixels(trail_.tail(view_.time_s, reach)), look_.u(9), pane_,
                          look_);
    }

    void moving_ball() {
        if (const auto ball = rolling())
            draw_ball(out_.picture, camera_.to_px(ball->at), ball_px() * ball->share, look_, false,
                      ball->dark);
    }

    void labels() {
        std::vector<Rect> taken = obstacles(whole_);
        add_obstacles(taken, {*out_.marks.ball, *out_.marks.hole}, look_.u(1));
        for (const Marks::Finish& finish : out_.marks.finishes)
            add_obstacles(taken, {*out_.marks.ball, finish.at}, look_.u(2));
        if (view_.marks_shown && out_.marks.finishes.empty()) start_line_words(taken);
        place_names(taken, true);
        Rect fall = place_of_fall_line(taken);
        if (covered_by(fall, {}, mark_boxes(out_.marks, look_)) > 0) {
            // It comes first, and the names go round it: nothing would be left for it.
            out_.labels.clear();
            fall = place_of_fall_line(taken);
            taken.push_back(fall);
            place_names(taken, true);
        }
        draw_names();
        draw_fall_line_in(fall);
        taken.push_back(fall);
        for (const PlacedLabel& placed : out_.labels) taken.push_back(placed.box);
        if (ring_) {
            const auto before = static_cast<std::ptrdiff_t>(out_.taken.size());
            write_hours(out_, *ring_, taken, pane_, look_, surface_);
            taken.insert(taken.end(), out_.taken.begin() + before, out_.taken.end());
        }
        sides_of_player(taken);
        if (ring_) keep_heights_off_the_ring();
    }

    void keep_heights_off_the_ring() {
        std::vector<Rect> boxes;
        boxes.reserve(out_.taken.capacity());
        add_obstacles(boxes, circle_, look_.u(2));
        for (const Rect& box : boxes)
            if (pane_.meets(box)) out_.taken.push_back(box);
    }

    std::string slope_words() const {
        if (s_.putt.slope_at_hole() < least_told_slope) return "level";
        return view_.slope.empty() ? format_slope(s_.putt.slope_at_hole()) : view_.slope;
    }
    Vec2 uphill_px() const {
        return camera_.direction_px(uphill_at_hole(s_.putt).value_or(Vec2(0, 1)));
    }

    /// Where along the sides of the pane nothing else is, the corners first.
    Rect place_of_fall_line(std::vector<Rect>& taken) const {
        const std::size_t without_ring = taken.size();
        add_obstacles(taken, circle_, look_.u(2));
        const double text_w = std::max(look_.width(Face::sans, look_.type(18), "fall line"),
                                       look_.width(Face::book, look_.type(26), slope_words()));
        const double w = std::abs(uphill_px().x()) * look_.u(fall_line_u) + look_.u(27) + text_w;
        const double h = look_.u(fall_line_u + 14);
        const double x0 = pane_.x + look_.u(45), x1 = pane_.right() - look_.u(32) - w;
        const double y0 = std::max(pane_.y, view_.covered.bottom()) + look_.u(34);
        const double y1 = std::max(y0, pane_.bottom() - look_.u(28) - h);
        const std::vector<Rect> marks = mark_boxes(out_.marks, look_);
        Rect best;
        double least = HUGE_VAL;
        const auto attempt = [&](double across, double down) {
            const Rect tried{x0 + across * (x1 - x0), y0 + down * (y1 - y0), w, h};
            const double met = covered_by(tried.grown(6), taken, marks);
            if (met >= least) return;
            least = met;
            best = tried;
        };
        for (const double across : {0.0, 1.0})
            for (const double down : {0.0, 1.0}) attempt(across, down);
        for (const double across : {0.0, 1.0, 0.5, 0.25, 0.75})
            for (int i = 0; i <= 8; ++i) attempt(across, i / 8.0);
        taken.resize(without_ring);
        return best;
    }

    void draw_fall_line_in(const Rect& box) {
        const Vec2 up = uphill_px();
        const double half = look_.u(fall_line_u / 2), across = std::abs(up.x()) * half;
        const Vec2 centre(box.x + across + look_.u(7), box.y + box.h / 2);
        out_.bar = centre + half * up;
        out_.drop = centre - half * up;
        if (s_.putt.slope_at_hole() >= least_told_slope)
            draw_fall_line(out_.picture, out_.bar, out_.drop, look_);
        const double x = std::round(centre.x() + across + look_.u(20));
        const double y = std::round(centre.y() + look_.u(1));
        const Text figure{
            slope_words(), Face::book, look_.type(26), {x, y + std::round(look_.type(28))}, c_.ink};
        if (view_.slope_told || s_.putt.slope_at_hole() >= least_told_slope)
            map_text({"fall line", Face::sans, look_.type(18), {x, y}, c_.ink});
        if (view_.slope_told) map_text(figure);
        out_.fall_line = box;
        out_.slope_figure = rect_of(figure, look_.width);
        out_.taken.push_back(box);
    }

    /// How much of what is there already a box would cover; names and marks before all else.
    double covered_by(const Rect& box, const std::vector<Rect>& taken,
                      const std::vector<Rect>& marks) const {
        constexpr double worse = 1000;
        double met = 0;
        for (const Rect& o : taken)
            if (o.meets(box)) met += 1;
        for (const PlacedLabel& label : out_.labels)
            if (label.box.meets(box)) met += worse;
        for (const Rect& mark : marks)
            if (mark.meets(box)) met += worse;
        return met;
    }

    /// 'start line, 4 in above the apex' along the line, if there is room beside it.
    void start_line_words(std::vector<Rect>& taken) {
        const Read* read = s_.shown();
        if (!read || !read->line_above_apex_m || read->turns || !out_.marks.apex ||
            !out_.marks.line_seen || !s_.read)
            return;
        if (pane_.h < look_.u(300)) return;  // the names need what room there is
        const Vec2 from = out_.marks.line_from, to = out_.marks.line_to;
        const std::string words = fmt::format("start line, {} above the apex",
                                              format_length(*read->line_above_apex_m, look_.units));
        const double size = look_.type(17), w = look_.width(Face::sans, size, words);
        if ((to - from).norm() < w + look_.u(60)) return;
        Vec2 along = (to - from).normalized();
        if (along.x() < -1e-9) along = -along;
        const Vec2 up(along.y(), -along.x());
        const bool above = up.dot(out_.marks.high_side) >= 0;
        const Vec2 beside = up * (above ? look_.u(7) : -look_.u(7) - 0.72 * size);
        const std::vector<Rect> others = obstacles(whole_, false);
        std::vector<Rect> boxes;
        boxes.reserve(2 + static_cast<std::size_t>(w / 4));
        std::vector<Vec2> under(2);
        for (const double share : {0.58, 0.5, 0.66, 0.42, 0.74}) {
            const Vec2 baseline = from + share * (to - from) + beside;
            const Vec2 middle = baseline + up * 0.3 * size, half = along * w / 2;
            boxes.clear();
            under = {middle - half, middle + half};
            add_obstacles(boxes, under, 0.42 * size);
            if (!all_free(boxes, others)) continue;
            map_text({words, Face::sans, size, baseline, c_.copper, Align::centre,
                      std::atan2(along.y(), along.x())});
            taken.insert(taken.end(), boxes.begin(), boxes.end());
            out_.taken.insert(out_.taken.end(), boxes.begin(), boxes.end());
            return;
        }
    }

    /// The player's left and right in words at the ball, behind it rather than on the clock ring.
    void sides_of_player(std::vector<Rect>& taken) {
        const auto right = right_where_turned(camera_, s_.putt);
        if (!right) return;
        for (const double side : {-1.0, 1.0})
            if (const auto words = side_of_player(side, *right, taken)) {
                map_text(*words);
                taken.push_back(rect_of(*words, look_.width));
                out_.taken.push_back(taken.back());
            }
    }

    /// Where it has room near the ball, a little clear of other words.
    std::optional<Text> side_of_player(double side, const Vec2& right,
                                       const std::vector<Rect>& taken) const {
        const Vec2 back(-right.y(), right.x());
        const Text words{side < 0 ? "your left" : "your right", Face::book_italic, look_.type(20),
                         Vec2::Zero(), c_.ink2};
        for (const double away : {8.0, 20.0, 32.0, 44.0})
            for (const double behind : {16.0, 28.0, 40.0, -16.0, -28.0, -40.0, 0.0}) {
                const Vec2 at = *out_.marks.ball + look_.u(behind) * back;
                const Text tried =
                    set_beside(words, at, side * right, ball_px() + look_.u(away), look_.width);
                if (all_free({rect_of(tried, look_.width).grown(look_.u(4))}, taken)) return tried;
            }
        return std::nullopt;
    }

    bool all_free(const std::vector<Rect>& boxes, const std::vector<Rect>& others) const {
        return std::all_of(boxes.begin(), boxes.end(), [&](const Rect& box) {
            return pane_.grown(-4).holds(box) &&
                   std::none_of(others.begin(), others.end(),
                                [&](const Rect& o) { return o.meets(box); });
        });
    }

    const PlanCamera& camera_;
    std::optional<ClockRing> ring_;
    std::vector<Vec2> circle_;  ///< of the ring; empty where there is none
    std::vector<Vec2> whole_, wiped_;
};

}  // namespace

Colour surface_colour(const Palette& colours) {
    return blend(colours.grass_dark, colours.grass_light, 0.5);
}

PlanPicture plan_picture(const Solved& solved, const Trail& trail, const PlanCamera& camera,
                         const Rect& pane, const MapView& view, const Look& look,
                         std::vector<Label>& wishes) {
    return PlanPainter(solved, trail, camera, pane, view, look, wishes).paint();
}

double plan_turn(const Layout& layout, const Putt& putt) {
    return layout.portrait ? -bearing_of(putt.line()) : 0;
}

std::optional<Vec2> right_where_turned(const PlanCamera& camera, const Putt& putt) {
    constexpr double within = 0.5;  // 60° of the picture's own
    const Vec2 right = camera.direction_px(right_of(putt.line().normalized()));
    return right.x() > within ? std::nullopt : std::optional(right);
}

std::vector<Vec2> to_be_seen(const Solved& s) {
    std::vector<Vec2> points = {s.putt.ball, s.putt.hole};
    const Read* read = s.shown();
    if (!read) return points;
    const double most = 1.5 * s.putt.distance_m();
    if (read->aim_offset_m && std::abs(*read->aim_offset_m) < most)
        points.push_back(place_of_aim(s.putt, *read->aim_offset_m));
    if (read->stand_in_hole && read->level_putt_m < 2.5 * s.putt.distance_m())
        points.push_back(on_green(s.putt, *read->stand_in_hole));
    if (read->apex) points.push_back(on_green(s.putt, *read->apex));
    if (read->past_m && !read->entry.holed) {
        const Vec2 rest = read->open ? read->open->last.at : read->roll.last.at;
        if ((rest - s.putt.hole).norm() < most) points.push_back(rest);
    }
    return points;
}

}  // namespace dewtrail
