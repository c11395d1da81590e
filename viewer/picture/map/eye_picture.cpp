#include "viewer/picture/map/eye_picture.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/map/map_painter.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double trail_half_width_m = 0.021;
constexpr double most_shown_s = 60;

class EyePainter : private MapPainter {
  public:
    EyePainter(const Solved& s, const Trail& trail, const EyeCamera& eye, EyePlace place,
               const Rect& pane, const MapView& view, const Look& look, std::vector<Label>& wishes)
        : MapPainter(s, trail, pane, view, look,
                     blend(surface_colour(look.colours), look.colours.grass_light, 0.5), wishes),
          eye_(eye),
          place_(place) {}

    PlanPicture paint() {
        begin([this](const Vec2& at) { return px(at); });
        out_.marks.finishes.clear();
        out_.marks.hole_px = hole_px();
        out_.marks.ball_px = ball_px(s_.putt.ball) * 1.5;
        make_room_for_turns();
        clip_start_line();
        straight_line();
        second_line();
        ribbon();
        break_bars();
        start_line();
        hole();
        start_spot();
        ball();
        aim_marks(upright(out_.marks), hole_px());
        const auto whole = seen(trail_.line(trail_.end_s()));
        labels(whole);
        return end(whole);
    }

  private:
    /// The apex stands on its foot.
    static Marks upright(Marks marks) {
        marks.apex_side = {0, -1};
        marks.upright = true;
        return marks;
    }

    std::optional<Vec2> px(const Vec2& at) const { return eye_.to_px(on_ground(s_.putt, at)); }
    double scale_at(const Vec2& at) const { return eye_.px_per_m(on_ground(s_.putt, at)); }
    double hole_px() const { return std::max(look_.u(10), hole_radius_m * scale_at(s_.putt.hole)); }
    double ball_px(const Vec2& at) const {
        return std::max(look_.u(6.5), ball_radius_m * scale_at(at));
    }

    std::vector<Vec2> seen(const std::vector<Vec2>& line) const {
        std::vector<Vec2> pixels;
        for (const Vec2& p : line)
            if (const auto at = px(p)) pixels.push_back(*at);
        return pixels;
    }

    /// The start line lies on the ground, so it is cut where the ground passes under the eye.
    void clip_start_line() {
        Marks& m = out_.marks;
        if (!s_.shown()) return;
        const double angle = bearing_of(s_.putt.line()) + s_.shown()->stroke.angle_rad;
        const double length = std::max(s_.shown()->level_putt_m, s_.putt.distance_m());
        std::vector<EyeCamera::Point> points;
        for (int i = 0; i <= 40; ++i)
            points.push_back(
                on_ground(s_.putt, s_.putt.ball + along_bearing(angle) * length * i / 40.0));
        const auto pieces = seen_pieces(eye_, points);
        m.line_seen = !pieces.empty();
        if (!m.line_seen) return;
        m.line_from = pieces[0].front();
        m.line_to = m.aim ? *m.aim : pieces[0].back();
    }

    void straight_line() {
        std::vector<EyeCamera::Point> points;
        for (int i = 0; i <= 60; ++i)
            points.push_back(on_ground(s_.putt, s_.putt.ball + s_.putt.line() * i / 60.0));
        for (const auto& piece : seen_pieces(eye_, points))
            add_dashes(out_.picture, piece, look_.u(1.8), look_.u(6), look_.u(1.5), c_.ink2);
    }

    void second_line() {
        if (!s_.second) return;
        std::vector<EyeCamera::Point> points;
        for (const Vec2& p : Trail(*s_.second).line(most_shown_s))
            points.push_back(on_ground(s_.putt, p));
        for (const auto& piece : seen_pieces(eye_, points))
            add(Line{piece, look_.u(1), faded(c_.trail, 0.8)});
    }

    /// The wiped band: each width laid on the ground, so it narrows with distance. A ball that
    /// cannot stop leaves the view in a band that fades toward its edge.
    void ribbon() {
        bands(trail_.line(std::min(view_.time_s, trail_.runs_off_from_s())), 0);
        bands(trail_.tail(view_.time_s, 12 * s_.putt.distance_m()), look_.u(fading_u));
    }

    void bands(const std::vector<Vec2>& line, double fading_px) {
        if (c_.trail_rim.a > 0) {
            band(line, 1.35, c_.trail_rim, fading_px);
        } else {
            band(line, 2, faded(c_.trail_soft, 0.28), fading_px);
            band(line, 1.5, faded(c_.trail_soft, 0.55), fading_px);
        }
        band(line, 1, c_.trail, fading_px);
    }

    void band(const std::vector<Vec2>& line, double times, Colour colour, double fading_px) {
        std::vector<Vec2> left, right;
        std::vector<double> shares;
        for (std::size_t i = 0; i < line.size(); i += i + 4 < line.size() ? 3 : 1) {
            const Vec2 along = line[std::min(i + 1, line.size() - 1)] - line[i == 0 ? 0 : i - 1];
            if (along.norm() == 0) continue;
            const Vec2 across =
                Vec2(along.y(), -along.x()).normalized() * trail_half_width_m * times;
            const auto a = px(line[i] - across), b = px(line[i] + across);
            if (!a || !b) continue;
            left.push_back(*a), right.push_back(*b);
            shares.push_back(fading_px > 0 ? edge_share(pane_, (*a + *b) / 2, fading_px) : 1);
        }
        add_ribbon(out_.picture, left, right, shares, colour);
    }

    void break_bars() {
        for (const PlacedBreakMark& b : breaks_) {
            if (b.mark.time_s > view_.time_s) continue;
            const PathPoint at = trail_.at(b.mark.time_s);
            const Vec2 across =
                Vec2(-along_bearing(at.bearing_rad).y(), along_bearing(at.bearing_rad).x()) * 0.03;
            const auto l = px(at.at - across), r = px(at.at + across);
            if (l && r) add(Line{{*l, *r}, look_.u(2.4), c_.half_second});
        }
        double time = 0.5;
        for (const Vec2& at : trail_.half_seconds()) {
            const auto dot = px(at);
            if (dot && time <= view_.time_s) add(Disc{*dot, look_.u(1.8), c_.half_second});
            time += 0.5;
        }
    }

    std::vector<Vec2> ring_on_ground(const Vec2& centre, double radius_m) const {
        std::vector<Vec2> ring;
        for (int i = 0; i < 36; ++i)
            if (const auto p = px(centre + radius_m * along_bearing(i * M_PI / 18)))
                ring.push_back(*p);
        return ring;
    }

    void hole() {
        const Vec2 at = s_.putt.hole;
        const double least = look_.u(10) / std::max(1.0, scale_at(at));
        const double r = std::max(hole_radius_m, least);
        const auto rim = ring_on_ground(at, r * 1.22 * pulse()), dark = ring_on_ground(at, r);
        if (dark.size() < 36 || rim.size() < 36) return;
        appear(Appearing::aim, [&] { cups(); });
        add(Polygon{rim, c_.hole_ring});
        add(Polygon{dark, c_.hole});
        flag(at);
    }

    void cups() {
        const Read* read = s_.shown();
        if (!read || !read->aim_offset_m || !view_.marks_shown || place_ == EyePlace::low_side)
            return;
        const double aim = *read->aim_offset_m, cup = 2 * hole_radius_m;
        if (std::abs(aim) > 12 * cup || scale_at(s_.putt.hole) * cup < look_.u(12)) return;
        for (double at = cup; at < std::abs(aim) - 0.45 * cup; at += cup) {
            const Vec2 centre = place_of_aim(s_.putt, std::copysign(at, aim));
            add(Line{ring_on_ground(centre, hole_radius_m * 0.95), look_.u(1.2),
                     faded(c_.copper, 0.55), true});
        }
    }

    void flag(const Vec2& at) {
        const auto foot = px(at), top = flag_top(s_.putt, eye_, pane_, look_);
        if (!foot || !top) return;
        const double width = std::clamp(0.012 * scale_at(at), look_.u(1.6), look_.u(3));
        add(Line{{*foot, *top}, width, c_.ink});
        const double w = 0.19 * scale_at(at), h = 0.13 * scale_at(at);
        const Vec2 corner = *top + Vec2(width / 2, 0);
        std::vector<Vec2> upper, lower;
        Mesh cloth;
        for (int i = 0; i <= 12; ++i) {
            const double t = i / 12.0, wave = 0.09 * h * std::sin(7 * t) * t;
            upper.push_back(corner + Vec2(t * w, wave + 0.06 * h * t));
            lower.push_back(corner + Vec2(t * w, h + wave));
        }
        for (std::size_t i = 1; i < upper.size(); ++i)
            for (const Vec2& p :
                 {upper[i - 1], upper[i], lower[i], upper[i - 1], lower[i], lower[i - 1]})
                cloth.vertices.push_back({p, c_.copper});
        add(std::move(cloth));
        add(Line{upper, 1.2, c_.copper});
        add(Line{lower, 1.2, c_.copper});
    }

    void ball() {
        draw_one_ball({s_.putt.ball}, !s_.putt.ball_on_green());
        if (const auto moving = rolling()) draw_one_ball(*moving, false);
    }

    void draw_one_ball(const RollingBall& ball, bool dashed) {
        const auto foot = px(ball.at);
        if (!foot) return;
        const double r = ball_px(ball.at) * ball.share;
        std::vector<Vec2> shadow;
        for (const Vec2& p : circle_points({0, 0}, 1))
            shadow.push_back(*foot + Vec2(0.25 * r + 1.25 * r * p.x(), 0.1 * r + 0.32 * r * p.y()));
        if (ball.dark == 0) add(Polygon{shadow, {20, 32, 28, 90}});
        draw_ball(out_.picture, *foot - Vec2(0, r * 0.85), r, look_, dashed, ball.dark);
    }

    void labels(const std::vector<Vec2>& whole) {
        std::vector<Rect> taken = obstacles(whole);
        if (const auto top = flag_top(s_.putt, eye_, pane_, look_); top && out_.marks.hole)
            add_obstacles(taken, {*top, *out_.marks.hole}, look_.u(5));
        fall_line(taken);
        place_names(taken, false);
        draw_names();
    }

    /// Lying on the ground, so it shortens when it runs away from the eye.
    void fall_line(std::vector<Rect>& obstacles) {
        if (!view_.fall_told || s_.putt.slope_at_hole() < least_told_slope) return;
        const Vec2 up = along_bearing(bearing_of(*uphill_at_hole(s_.putt)) - eye_.bearing_rad());
        const Vec2 half = look_.u(55) * Vec2(up.x(), -0.5 * up.y());
        const Vec2 centre(pane_.right() - look_.u(250), pane_.bottom() - look_.u(40));
        out_.bar = centre + half;
        out_.drop = centre - half;
        draw_fall_line(out_.picture, out_.bar, out_.drop, look_);
        const double y = std::round(centre.y() - std::abs(half.y()) - look_.u(17));
        const double w = look_.width(Face::sans, look_.type(18), "fall line");
        const double x = std::round(centre.x() - look_.u(60));
        map_text({"fall line", Face::sans, look_.type(18), {x, y}, c_.ink});
        const Text figure{view_.slope.empty() ? format_slope(s_.putt.slope_at_hole()) : view_.slope,
                          Face::book,
                          look_.type(26),
                          {std::round(x + w + look_.u(26)), y},
                          c_.ink};
        if (look_.numbers && view_.slope_told)
            map_text(figure), out_.slope_figure = rect_of(figure, look_.width);
        const Vec2 corner = centre - half.cwiseAbs() - look_.u(7) * Vec2(1, 1);
        out_.fall_line = {corner.x(), corner.y(), 2 * (centre.x() - corner.x()),
                          2 * (centre.y() - corner.y())};
        obstacles.push_back(
            {x, y - look_.type(26), w + look_.type(90), pane_.bottom() - y + look_.type(20)});
    }

    const EyeCamera& eye_;
    EyePlace place_;
};

}  // namespace

std::optional<Vec2> flag_top(const Putt& putt, const EyeCamera& eye, const Rect& pane,
                             const Look& look) {
    constexpr double pin_m = 0.95, least_share = 0.3;
    const auto foot = eye.to_px(on_ground(putt, putt.hole)),
               top = eye.to_px(on_ground(putt, putt.hole, pin_m));
    if (!foot || !top) return std::nullopt;
    const double room = foot->y() - pane.y - look.u(10), whole = foot->y() - top->y();
    if (room >= whole) return top;
    return *foot + std::max(room / whole, least_share) * (*top - *foot);
}

PlanPicture eye_picture(const Solved& solved, const Trail& trail, const EyeCamera& eye,
                        EyePlace place, const Rect& pane, const MapView& view, const Look& look,
                        std::vector<Label>& wishes) {
    return EyePainter(solved, trail, eye, place, pane, view, look, wishes).paint();
}

}  // namespace dewtrail
