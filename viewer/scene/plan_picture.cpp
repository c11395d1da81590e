#include "viewer/scene/plan_picture.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "viewer/scene/figures.hpp"
#include "viewer/scene/ground.hpp"
#include "viewer/scene/symbols.hpp"

namespace dewtrail {
namespace {

constexpr double half_hours = 24, minutes_of_five = 144;
constexpr double least_slope = 1e-3;
constexpr double fall_line_u = 98;

class PlanPainter {
  public:
    PlanPainter(const Solved& s, const Trail& trail, const PlanCamera& camera, const Rect& pane,
                const MapView& view, const Look& look, std::vector<Label>& wishes)
        : s_(s),
          trail_(trail),
          camera_(camera),
          pane_(pane),
          view_(view),
          look_(look),
          c_(look.colours),
          surface_(surface_colour(look.colours)),
          wishes_(wishes) {}

    PlanPicture paint() {
        const Projection project = [this](const Vec2& at) {
            return std::optional(camera_.to_px(at));
        };
        out_.marks = marks_of(s_, project, look_.u(20));
        out_.marks.hole_px = hole_px();
        out_.marks.ball_px = ball_px();
        breaks_ =
            view_.taught ? placed_break_marks(s_, trail_, project) : std::vector<PlacedBreakMark>{};
        add(Clip{pane_});
        whole_ = pixels(trail_.line(trail_.end_s()));
        wiped_ = pixels(trail_.line(view_.time_s));
        add_dew(out_.picture, pane_, wiped_, look_.u(9), view_.dry, look_);
        clock_ring();
        straight_line();
        second_line();
        draw_trail(out_.picture, wiped_, look_.u(9), look_);
        trail_dots();
        if (view_.marks_shown) draw_start_line(out_.picture, s_, out_.marks, look_);
        cups();
        draw_hole(out_.picture, *out_.marks.hole, hole_px(), look_);
        moving_ball();
        draw_ball(out_.picture, *out_.marks.ball, ball_px(), look_, !s_.on_green);
        if (view_.marks_shown) {
            draw_aim_marks(out_.picture, out_.marks, hole_px(), look_, surface_);
            other_choices();
        } else if (out_.marks.stand_in) {
            draw_dashed_ring(out_.picture, *out_.marks.stand_in, hole_px(), look_, surface_);
        }
        labels();
        draw_attention(out_.picture, out_.marks, view_, look_);
        add(Clip{});
        return std::move(out_);
    }

  private:
    void add(Shape shape) { out_.picture.push_back(std::move(shape)); }

    std::vector<Vec2> pixels(const std::vector<Vec2>& line) const {
        std::vector<Vec2> px;
        for (const Vec2& p : line) {
            const Vec2 at = camera_.to_px(p);
            if (px.empty() || &p == &line.back() || (at - px.back()).norm() > 2.5) px.push_back(at);
        }
        return px;
    }

    double hole_px() const { return std::max(look_.u(10), hole_radius_m * camera_.px_per_m); }
    double ball_px() const { return std::max(look_.u(7), ball_radius_m * camera_.px_per_m); }

    /// Hairline circle at the ball's distance, with the ball clock on it.
    void clock_ring() {
        if (!s_.clock_h || s_.slope < least_slope) return;
        const double radius = s_.distance_m * camera_.px_per_m;
        const Vec2 hole = *out_.marks.hole;
        std::vector<Vec2> ring;
        for (int i = 0; i <= 240; ++i) ring.push_back(on_ring(hole, radius, i / 20.0));
        add(Line{ring, look_.u(1), c_.height_label});
        for (int i = 0; i < minutes_of_five; ++i) tick(hole, radius, i / 12.0, look_.u(4), 1);
        for (int i = 0; i < half_hours; ++i) tick(hole, radius, i / 2.0, look_.u(13), 1.4);
    }

    Vec2 on_ring(const Vec2& hole, double radius, double hours) const {
        const double bearing = s_.uphill_bearing_rad + hours * std::numbers::pi / 6;
        return hole + radius * camera_.direction_px(along_bearing(bearing));
    }

    void tick(const Vec2& hole, double radius, double hours, double length, double width_u) {
        const Vec2 at = on_ring(hole, radius, hours);
        if (!pane_.contains(at)) return;
        const Vec2 out = (at - hole) / radius;
        add(Line{
            {at - length / 2 * out, at + length / 2 * out}, look_.u(width_u), c_.height_label});
    }

    /// Times of the dial where nothing else is.
    void hours(const std::vector<Rect>& obstacles) {
        if (!s_.clock_h || s_.slope < least_slope) return;
        const double radius = s_.distance_m * camera_.px_per_m;
        for (int i = 0; i < half_hours; ++i) hour(*out_.marks.hole, radius, i / 2.0, obstacles);
    }

    void hour(const Vec2& hole, double radius, double hours, const std::vector<Rect>& obstacles) {
        const Vec2 at = on_ring(hole, radius, hours);
        const Vec2 out = (at - hole) / radius;
        const double dial = on_dial_distance(hours);
        if (!pane_.contains(at) || dial < 0.26) return;
        const Vec2 place = at + (look_.u(14) + look_.type(18) * std::abs(out.x())) * out;
        Text text{format_clock(hours), Face::sans,
                  look_.type(16),      place + Vec2(0, look_.type(5.5)),
                  c_.height_label,     Align::centre};
        const Rect box = rect_of(text, look_.width);
        if (!pane_.grown(-2).holds(box) || view_.covered.meets(box)) return;
        for (const Rect& o : obstacles)
            if (o.meets(box)) return;
        out_.taken.push_back(box);
        draw_map_text(out_.picture, std::move(text), look_, surface_);
    }

    /// Hours between the ball and a time on the dial.
    double on_dial_distance(double hours) const {
        return std::abs(std::remainder(hours - *s_.clock_h, 12));
    }

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
        for (const FinishChoice& choice : s_.choices) {
            if (choice.chosen || !choice.aim_offset_m) continue;
            const Vec2 at = camera_.to_px(place_of_aim(s_.putt, *choice.aim_offset_m));
            add(Line{{*out_.marks.ball, at}, look_.u(1.1), faded(c_.copper, 0.75)});
            draw_diamond(out_.picture, at, 5.5, look_, c_.copper, surface_);
        }
    }

    /// The ball on its way; at the end it lies in the hole, or where it came to rest.
    void moving_ball() {
        if (trail_.empty() || (trail_.holed() && view_.time_s >= trail_.end_s())) return;
        if (view_.time_s <= 0) return;
        const double seen = 1 - 0.4 * trail_.sunk(view_.time_s);  // farther from the eye above
        draw_ball(out_.picture, camera_.to_px(trail_.at(view_.time_s).at), seen * ball_px(), look_);
    }

    void labels() {
        std::vector<Rect> obstacles = mark_boxes(out_.marks, look_);
        add_obstacles(obstacles, whole_, look_.u(8));
        if (out_.marks.line_seen)
            add_obstacles(obstacles, {out_.marks.line_from, out_.marks.line_to}, look_.u(3));
        for (const PlacedBreakMark& b : breaks_) add_obstacles(obstacles, {b.at, b.at}, look_.u(8));
        if (view_.covered.h > 0) obstacles.push_back(view_.covered);
        if (view_.marks_shown) {
            start_line_words(obstacles);
            wishes_ = labels_for(s_, out_.marks, breaks_, true, look_);
            out_.labels = place_labels(wishes_, obstacles, pane_, look_.width);
            draw_labels(out_.picture, out_.labels, look_, surface_);
        }
        for (const PlacedLabel& placed : out_.labels) obstacles.push_back(placed.box);
        fall_line(obstacles);
        hours(obstacles);
        for (const PlacedLabel& placed : out_.labels)
            out_.taken.push_back(placed.box.grown(look_.u(4)));
        const auto marks = mark_boxes(out_.marks, look_);
        out_.taken.insert(out_.taken.end(), marks.begin(), marks.end());
        add_obstacles(out_.taken, whole_, look_.u(8));
    }

    /// In the first corner of the pane that nothing else needs.
    void fall_line(std::vector<Rect>& obstacles) {
        const Vec2 up = camera_.direction_px(along_bearing(s_.uphill_bearing_rad));
        const std::string figure = s_.slope < least_slope ? "level" : format_slope(s_.slope);
        const double half = look_.u(fall_line_u / 2);
        const double text_w = std::max(look_.width(Face::sans, look_.type(18), "fall line"),
                                       look_.width(Face::book, look_.type(26), figure));
        const double across = std::abs(up.x()) * half;
        const double w = 2 * across + look_.u(20) + text_w, h = 2 * half + look_.u(14);
        const double x0 = pane_.x + look_.u(45), x1 = pane_.right() - look_.u(32) - w;
        const double y0 = pane_.y + look_.u(34), y1 = pane_.bottom() - look_.u(28) - h;
        Rect box{x0, y0, w, h};
        std::ptrdiff_t fewest = 1000000;
        for (const Vec2& corner : {Vec2(x0, y0), Vec2(x0, y1), Vec2(x1, y0), Vec2(x1, y1)}) {
            const Rect tried{corner.x(), corner.y(), w, h};
            const auto met = std::count_if(obstacles.begin(), obstacles.end(),
                                           [&](const Rect& o) { return o.meets(tried.grown(8)); });
            if (met >= fewest) continue;
            fewest = met;
            box = tried;
        }
        const Vec2 centre(box.x + across + look_.u(7), box.y + h / 2);
        out_.bar = centre + half * up;
        out_.drop = centre - half * up;
        if (s_.slope >= least_slope) draw_fall_line(out_.picture, out_.bar, out_.drop, look_);
        const double x = std::round(centre.x() + across + look_.u(20));
        fall_line_text({"fall line",
                        Face::sans,
                        look_.type(18),
                        {x, std::round(centre.y() + look_.u(1))},
                        c_.ink});
        fall_line_text({figure,
                        Face::book,
                        look_.type(26),
                        {x, std::round(centre.y() + look_.u(1) + look_.type(28))},
                        c_.ink});
        obstacles.push_back(box);
        out_.taken.push_back(box);
    }

    void fall_line_text(Text text) {
        draw_map_text(out_.picture, std::move(text), look_, surface_);
    }

    /// 'start line, 4 in above the apex' along the line, if there is room beside it.
    void start_line_words(std::vector<Rect>& obstacles) {
        const Read* read = s_.shown();
        if (!read || !read->line_above_apex_m || !out_.marks.line_seen || !s_.read) return;
        const Vec2 from = out_.marks.line_from, to = out_.marks.line_to;
        const std::string words = fmt::format("start line, {} above the apex",
                                              format_length(*read->line_above_apex_m, look_.units));
        const double size = look_.type(17), w = look_.width(Face::sans, size, words);
        if ((to - from).norm() < w + look_.u(150)) return;
        Vec2 along = (to - from).normalized();
        if (along.x() < -1e-9) along = -along;
        Vec2 up(along.y(), -along.x());
        const double side = up.dot(out_.marks.high_side) >= 0 ? 1 : -1;
        const Vec2 middle = from + 0.58 * (to - from);
        const Vec2 baseline = middle + up * (side > 0 ? look_.u(7) : -look_.u(7) - 0.72 * size);
        const Vec2 row = baseline + up * 0.3 * size;
        std::vector<Rect> boxes;
        add_obstacles(boxes, {row - along * w / 2, row + along * w / 2}, 0.42 * size);
        for (const Rect& box : boxes) {
            if (!pane_.grown(-4).holds(box)) return;
            for (const Rect& o : out_.taken)
                if (o.meets(box)) return;
        }
        draw_map_text(out_.picture,
                      {words, Face::sans, size, baseline, c_.copper, Align::centre,
                       std::atan2(along.y(), along.x())},
                      look_, surface_);
        obstacles.insert(obstacles.end(), boxes.begin(), boxes.end());
        out_.taken.insert(out_.taken.end(), boxes.begin(), boxes.end());
    }

    const Solved& s_;
    const Trail& trail_;
    const PlanCamera& camera_;
    const Rect& pane_;
    const MapView& view_;
    const Look& look_;
    const Palette& c_;
    Colour surface_;
    std::vector<Label>& wishes_;
    std::vector<PlacedBreakMark> breaks_;
    std::vector<Vec2> whole_, wiped_;
    PlanPicture out_;
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

std::vector<Vec2> to_be_seen(const Solved& s) {
    std::vector<Vec2> points = {s.putt.ball, s.putt.hole};
    const Read* read = s.shown();
    if (!read) return points;
    const double most = 1.5 * s.distance_m;
    if (read->aim_offset_m && std::abs(*read->aim_offset_m) < most)
        points.push_back(place_of_aim(s.putt, *read->aim_offset_m));
    if (read->stand_in_hole && read->level_putt_m < 2.5 * s.distance_m)
        points.push_back(on_green(s.putt, *read->stand_in_hole));
    if (read->apex) points.push_back(on_green(s.putt, *read->apex));
    if (read->past_m && !read->entry.holed) {
        const Vec2 rest = read->open ? read->open->last.at : read->roll.last.at;
        if ((rest - s.putt.hole).norm() < most) points.push_back(rest);
    }
    return points;
}

}  // namespace dewtrail
