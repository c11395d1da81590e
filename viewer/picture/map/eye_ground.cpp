#include "viewer/picture/map/eye_ground.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "greens/contours.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double nearest_m = 0.35, farthest_m = 60;
constexpr int columns = 96, rows = 20;
constexpr int tree_steps = 320;

/// The green is mown in squares along and across the view: their edges lean as the ground does.
constexpr double swath_m = 0.6, swath_light = 0.03;
constexpr int most_swaths = 60;  ///< to either side
/// Low ground lies darker, as dew and shade do.
constexpr double light_per_m = 0.45, most_light = 0.07;

/// A practice green where none was given: a round one, the putt well inside.
double round_green_m(const Solved& s) {
    return std::max(6.5, 0.62 * s.putt.distance_m() + 4.5);
}

/// How far inside the green a place lies, metres.
double inside_by(const Solved& s, const Vec2& at) {
    if (s.putt.outline) return s.putt.outline->inside_by(at);
    return round_green_m(s) - (at - (s.putt.ball + s.putt.hole) / 2).norm();
}

/// Along a ray from the eye's foot: where it comes onto the green and where it leaves.
struct Stretch {
    double from = 0, to = 0;
    bool any = false;
};
Stretch stretch_of(const Solved& s, const Vec2& foot, const Vec2& way) {
    constexpr double step = 0.25;
    Stretch found;
    double before = inside_by(s, foot + nearest_m * way);
    if (before > 0) found = {nearest_m, farthest_m, true};
    for (double r = nearest_m + step; r < farthest_m; r += step) {
        const double now = inside_by(s, foot + r * way);
        const double edge = r - step * (now / (now - before));
        if (before <= 0 && now > 0) found = {edge, farthest_m, true};
        if (before > 0 && now <= 0) {
            found.to = edge;
            return found;
        }
        before = now;
    }
    return found;
}

class EyeGroundPainter {
  public:
    EyeGroundPainter(const Solved& s, const EyeCamera& eye, const Rect& pane, const Look& look)
        : s_(s),
          eye_(eye),
          pane_(pane),
          look_(look),
          c_(look.colours),
          horizon_(eye.horizon_px()),
          hole_height_m_(on_ground(s.putt, s.putt.hole).z()),
          taken_{corner_of_fall_line(pane, look)} {}

    Picture paint(bool with_contours) {
        picture_.push_back(Clip{pane_});
        sky();
        ridge(c_.far_trees, 0.105, 11.0, 1.3);
        ridge(c_.near_trees, 0.06, 17.0, 4.1);
        rough();
        green();
        swaths();
        if (with_contours) contours();
        dew();
        picture_.push_back(Clip{});
        return std::move(picture_);
    }

  private:
    void sky() {
        const double down = std::max(pane_.y + 1, horizon_) - pane_.y;
        add_gradient(picture_, {pane_.x, pane_.y, pane_.w, down}, c_.sky_high, c_.sky_high,
                     c_.sky_low, c_.sky_low);
    }

    /// A soft line of trees standing on the horizon, fading into mist at its foot.
    void ridge(Colour colour, double height_share, double waves, double phase) {
        Mesh mesh;
        const Colour foot = faded(colour, 0.15);
        const auto top = [&](double x) {
            const double t = x * 2 * std::numbers::pi;
            const double bumps = 0.7 + 0.13 * std::sin(waves * t + phase) +
                                 0.08 * std::sin(2.3 * waves * t + 2 * phase) +
                                 0.05 * std::sin(4.1 * waves * t + phase * phase);
            return horizon_ - height_share * pane_.h * bumps;
        };
        for (int i = 0; i < tree_steps; ++i) {
            const double a = static_cast<double>(i) / tree_steps,
                         b = static_cast<double>(i + 1) / tree_steps;
            const Vec2 ta(pane_.x + a * pane_.w, top(a)), tb(pane_.x + b * pane_.w, top(b));
            const Vec2 fa(ta.x(), horizon_ + 2), fb(tb.x(), horizon_ + 2);
            for (const auto& v : {Mesh::Vertex{ta, colour},
                                  {tb, colour},
                                  {fb, foot},
                                  {ta, colour},
                                  {fb, foot},
                                  {fa, foot}})
                mesh.vertices.push_back(v);
        }
        picture_.push_back(std::move(mesh));
    }

    void rough() {
        // Thin below, so that the horizon is seen for the level line it is.
        const double mist = 0.022 * pane_.h, top = std::clamp(horizon_, pane_.y, pane_.bottom());
        add_gradient(picture_, {pane_.x, top - mist, pane_.w, mist}, faded(c_.sky_low, 0),
                     faded(c_.sky_low, 0), c_.sky_low, c_.sky_low);
        add_gradient(picture_, {pane_.x, top, pane_.w, mist}, c_.sky_low, c_.sky_low, c_.rough,
                     c_.rough);
        add_rect(picture_,
                 {pane_.x, top + mist, pane_.w, std::max(0.0, pane_.bottom() - top - mist)},
                 c_.rough);
    }

    Vec2 way(double column) const {
        const double off = (column / columns - 0.5) * 1.1 * pane_.w / eye_.focal_px();
        const Vec2 ahead = along_bearing(eye_.bearing_rad());
        return (ahead + off * Vec2(ahead.y(), -ahead.x())).normalized();
    }

    Mesh::Vertex vertex(const Vec2& at) const {
        const auto px = eye_.to_px(on_ground(s_.putt, at));
        const Vec2 p = px.value_or(Vec2(pane_.centre().x(), pane_.bottom()));
        return {p, grass(at, p)};
    }

    /// Nothing but the ground makes one side of it lighter than the other.
    Colour grass(const Vec2& at, const Vec2& px) const {
        const Colour plain =
            grass_at(0.6, std::clamp((px.y() - pane_.y) / pane_.h, 0.0, 1.0) - 0.1, c_);
        const SurfaceJet ground = s_.putt.surface->at(at.x(), at.y());
        const double high =
            std::clamp(light_per_m * (ground.h - hole_height_m_), -most_light, most_light);
        return lightened(plain, 0.6 * hill_shade(ground.gradient()) + high);
    }

    /// A corner of the mown squares, counted from the hole along and across the view.
    Vec2 swath_corner(int along, int across) const {
        const Vec2 ahead = along_bearing(eye_.bearing_rad());
        return s_.putt.hole + swath_m * (along * ahead + across * Vec2(ahead.y(), -ahead.x()));
    }

    void swaths() {
        Mesh mesh;
        for (int i = -most_swaths; i < most_swaths; ++i)
            for (int j = -most_swaths; j < most_swaths; ++j)
                if ((i + j) % 2 == 0) swath(i, j, mesh);
        picture_.push_back(std::move(mesh));
    }

    /// Fainter where it is small, so that far ones do not flicker into each other.
    void swath(int i, int j, Mesh& mesh) const {
        const Vec2 at[] = {swath_corner(i, j), swath_corner(i + 1, j), swath_corner(i + 1, j + 1),
                           swath_corner(i, j + 1)};
        Vec2 px[4];
        for (int k = 0; k < 4; ++k) {
            const EyeCamera::Point point = on_ground(s_.putt, at[k]);
            const auto seen = eye_.depth_m(point) > nearest_m ? eye_.to_px(point) : std::nullopt;
            if (!seen || inside_by(s_, at[k]) < 0) return;
            px[k] = *seen;
        }
        const double high = std::abs(px[1].y() - px[0].y());
        const double clear = std::clamp((high - look_.u(1)) / look_.u(5), 0.0, 1.0);
        if (clear == 0 || std::max(px[0].y(), px[3].y()) < pane_.y) return;
        Mesh::Vertex corners[4];
        for (int k = 0; k < 4; ++k)
            corners[k] = {px[k], faded(lightened(grass(at[k], px[k]), swath_light), clear)};
        for (const int k : {0, 1, 2, 0, 2, 3}) mesh.vertices.push_back(corners[k]);
    }

    void green() {
        const Vec2 foot(eye_.from().x(), eye_.from().y());
        std::vector<std::vector<Mesh::Vertex>> grid;
        std::vector<std::vector<Vec2>> edges(1);
        for (int i = 0; i <= columns; ++i) {
            const Vec2 ray = way(i);
            const Stretch stretch = stretch_of(s_, foot, ray);
            grid.emplace_back();
            if (!stretch.any) {
                if (!edges.back().empty()) edges.emplace_back();
                continue;
            }
            for (int j = 0; j <= rows; ++j)
                grid.back().push_back(vertex(
                    foot + ray * stretch.from *
                               std::pow(stretch.to / stretch.from, static_cast<double>(j) / rows)));
            edges.back().push_back(grid.back().back().at);
        }
        fill(grid);
        for (const auto& edge : edges)
            if (edge.size() > 1)
                picture_.push_back(Line{edge, look_.u(1.4), faded(c_.contour, 0.7)});
    }

    /// Far rows first, so that what is nearer covers what lies behind a rise.
    void fill(const std::vector<std::vector<Mesh::Vertex>>& grid) {
        Mesh mesh;
        for (std::size_t j = rows; j-- > 0;)
            for (std::size_t i = 0; i + 1 < grid.size(); ++i) {
                if (grid[i].empty() || grid[i + 1].empty()) continue;
                const auto &a = grid[i][j], &b = grid[i + 1][j], &c = grid[i + 1][j + 1],
                           &d = grid[i][j + 1];
                for (const auto& v : {a, b, c, a, c, d}) mesh.vertices.push_back(v);
            }
        picture_.push_back(std::move(mesh));
    }

    Box ground_box() const {
        if (s_.putt.outline) return box_round(s_.putt.outline->corners());
        const Vec2 mid = (s_.putt.ball + s_.putt.hole) / 2, r(round_green_m(s_), round_green_m(s_));
        return {mid - r, mid + r};
    }

    void contours() {
        const Box box = ground_box();
        const double slope = std::max(s_.putt.slope_at_hole(), 0.004);
        const double base = s_.putt.surface->at(s_.putt.hole.x(), s_.putt.hole.y()).h;
        const ContourSpacing spacing =
            contour_spacing(slope, std::max(0.55, 0.16 * s_.putt.distance_m()), look_.units.metric);
        double lo = 1e300, hi = -1e300;
        for (int i = 0; i < 26 * 26; ++i) {
            const Vec2 at = box.least + box.size().cwiseProduct(Vec2(i % 26 / 25.0, i / 26 / 25.0));
            const double z = s_.putt.surface->at(at.x(), at.y()).h;
            lo = std::min(lo, z), hi = std::max(hi, z);
        }
        if (hi - lo < 1e-6 || (hi - lo) / spacing.index_m > 200) return;
        auto lines = contour_lines(*s_.putt.surface, box,
                                   contour_heights(base, spacing.index_m, lo, hi), 96);
        if (s_.putt.outline) lines = inside(lines, *s_.putt.outline);
        for (const ContourLine& line : lines) contour(line, line.height_m - base);
    }

    void contour(const ContourLine& line, double above_hole_m) {
        std::vector<EyeCamera::Point> run;
        const auto flush = [&] {
            for (const auto& piece : seen_pieces(eye_, run)) draw(piece, above_hole_m);
            run.clear();
        };
        for (const Vec2& at : line.points) {
            if (inside_by(s_, at) >= -0.02)
                run.emplace_back(at.x(), at.y(), line.height_m);
            else
                flush();
        }
        flush();
    }

    void draw(const std::vector<Vec2>& line, double above_hole_m) {
        const Colour colour = faded(c_.contour, 0.8);
        const std::string words = format_height(above_hole_m, look_.units);
        const double size = look_.type(16);
        const double half = look_.width(Face::sans, size, words) / 2 + look_.u(8);
        if (look_.numbers && std::abs(above_hole_m) > 1e-9)
            for (const Vec2& at : line) {
                const Rect box{at.x() - half, at.y() - size, 2 * half, 2 * size};
                const bool low =
                    at.y() > pane_.y + 0.55 * pane_.h && at.y() < pane_.y + 0.86 * pane_.h;
                const bool off_middle = std::abs(at.x() - pane_.centre().x()) > 0.24 * pane_.w;
                const bool free = std::none_of(taken_.begin(), taken_.end(),
                                               [&](const Rect& t) { return t.meets(box); });
                if (!low || !off_middle || !free || !pane_.grown(-8).holds(box)) continue;
                taken_.push_back(box.grown(look_.u(30)));
                add_line_with_gap(picture_, line, at, half, look_.u(1.2), colour);
                picture_.push_back(Text{words, Face::sans, size, at + Vec2(0, 0.35 * size),
                                        c_.height_label, Align::centre});
                return;
            }
        picture_.push_back(Line{line, look_.u(1.2), colour});
    }

    void dew() {
        Mesh mesh;
        for (const DewDot& dot : dew_dots()) {
            const Vec2 at(pane_.x + dot.x * pane_.w, pane_.y + dot.y * pane_.h);
            const double near = (at.y() - horizon_) / (pane_.bottom() - horizon_);
            if (near < 0.5 || dot.share < 0.9) continue;
            const double r = look_.u(dot.radius_u) * near;
            const Colour colour = faded(c_.dew_dot, near - 0.3);
            for (const Vec2& corner :
                 {Vec2(0, -r), Vec2(r, 0), Vec2(0, r), Vec2(0, -r), Vec2(0, r), Vec2(-r, 0)})
                mesh.vertices.push_back({at + corner, colour});
        }
        picture_.push_back(std::move(mesh));
    }

    const Solved& s_;
    const EyeCamera& eye_;
    const Rect& pane_;
    const Look& look_;
    const Palette& c_;
    double horizon_, hole_height_m_;
    std::vector<Rect> taken_;
    Picture picture_;
};

}  // namespace

EyeCamera::Point on_ground(const Putt& putt, const Vec2& at, double above_m) {
    return {at.x(), at.y(), putt.surface->at(at.x(), at.y()).h + above_m};
}

EyeCamera eye_of(const Solved& s, EyePlace place, const Rect& pane) {
    const Vec2 middle = (s.putt.ball + s.putt.hole) / 2;
    const Vec2 ahead = s.putt.line().normalized();
    const double falls_left =
        s.putt.surface->at(middle.x(), middle.y()).gradient().dot(Vec2(ahead.y(), -ahead.x()));
    return eye_for(place, on_ground(s.putt, s.putt.ball), on_ground(s.putt, s.putt.hole),
                   falls_left < 0, pane);
}

Rect corner_of_fall_line(const Rect& pane, const Look& look) {
    const double left = pane.right() - look.u(330),
                 top = pane.bottom() - look.u(90) - look.type(26);
    return {left, top, look.u(140) + look.type(80), pane.bottom() - top};
}

Picture eye_ground(const Solved& solved, const EyeCamera& eye, const Rect& pane, const Look& look,
                   bool contours) {
    return EyeGroundPainter(solved, eye, pane, look).paint(contours);
}

}  // namespace dewtrail
