#include "viewer/picture/map/ground.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "greens/contours.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr int dew_count = 3400;
constexpr double dot_corner = 1.24;  // of a triangle with the area of a square of that radius
constexpr double relief = 12, most_shade = 0.09, shade_gain = 0.2;
constexpr double light_elevation = 20 * std::numbers::pi / 180;
constexpr double column_from_right_u = 187;
constexpr int shade_cells = 112, most_lines = 200;

/// What the pane shows, in metres.
Box shown_box(const PlanCamera& camera, const Rect& pane) {
    return box_round({camera.to_green({pane.x, pane.y}), camera.to_green({pane.right(), pane.y}),
                      camera.to_green({pane.right(), pane.bottom()}),
                      camera.to_green({pane.x, pane.bottom()})});
}

bool is_plane(const PlanGround& g) {
    return dynamic_cast<const Plane*>(&g.surface) != nullptr;
}

double height_at(const Surface& measure, const Vec2& at) {
    return measure.at(at.x(), at.y()).h;
}

/// Colour of the ground at a pixel: grass and shade inside, rough beyond the edge.
Colour ground_colour(const PlanGround& g, const PlanCamera& camera, const Vec2& px,
                     const Rect& pane, const Palette& c) {
    const Vec2 at = camera.to_green(px);
    Colour grass = grass_at((px.x() - pane.x) / pane.w, (px.y() - pane.y) / pane.h, c);
    if (!is_plane(g)) grass = lightened(grass, hill_shade(g.surface.at(at.x(), at.y()).gradient()));
    if (!g.outline) return grass;
    const double out_px = -g.outline->inside_by(at) * camera.px_per_m;
    return blend(grass, c.rough, std::clamp(0.5 + out_px / 12, 0.0, 1.0));
}

void add_shaded_grass(Picture& picture, const PlanGround& g, const PlanCamera& camera,
                      const Rect& pane, const Palette& c) {
    const int nx = shade_cells, ny = std::max(1, static_cast<int>(nx * pane.h / pane.w));
    const auto corner = [&](int i, int j) {
        return Vec2(pane.x + pane.w * i / nx, pane.y + pane.h * j / ny);
    };
    std::vector<Colour> colours;
    for (int j = 0; j <= ny; ++j)
        for (int i = 0; i <= nx; ++i)
            colours.push_back(ground_colour(g, camera, corner(i, j), pane, c));
    Mesh mesh;
    const auto add = [&](int i, int j) {
        mesh.vertices.push_back(
            {corner(i, j), colours[static_cast<std::size_t>(j * (nx + 1) + i)]});
    };
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            add(i, j), add(i + 1, j), add(i + 1, j + 1);
            add(i, j), add(i + 1, j + 1), add(i, j + 1);
        }
    picture.push_back(std::move(mesh));
}

double typical_slope(const PlanGround& g, const Box& box) {
    if (is_plane(g)) return g.slope;
    std::vector<double> slopes;
    for (int i = 0; i < 100; ++i) {
        const Vec2 at =
            box.least + box.size().cwiseProduct(Vec2((i % 10 + 0.5) / 10, (i / 10 + 0.5) / 10));
        if (g.outline && g.outline->inside_by(at) < 0) continue;
        slopes.push_back(g.surface.at(at.x(), at.y()).gradient().norm());
    }
    if (slopes.empty()) return g.slope;
    std::nth_element(slopes.begin(), slopes.begin() + slopes.size() / 2, slopes.end());
    return slopes[slopes.size() / 2];
}

struct Heights {
    double lowest = 1e300, highest = -1e300;
};

/// On a lattice, and at a place between that may be the lowest.
Heights heights_in(const Surface& measure, const Box& box, const Vec2& hole) {
    Heights h;
    h.lowest = height_at(measure, hole);
    constexpr int n = 24;
    for (int i = 0; i <= n * n + 2 * n; ++i) {
        const Vec2 share(static_cast<double>(i % (n + 1)) / n,
                         static_cast<double>(i / (n + 1)) / n);
        const double z = height_at(measure, box.least + box.size().cwiseProduct(share));
        h.lowest = std::min(h.lowest, z);
        h.highest = std::max(h.highest, z);
    }
    return h;
}

/// Where a contour's height may stand: its line, in pixels, and where that crosses the column.
struct HeightPlace {
    Vec2 at;
    std::string words;
    double half_width = 0;
};

std::optional<Vec2> crossing(const std::vector<Vec2>& line, double x) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double a = line[i - 1].x(), b = line[i].x();
        if ((a - x) * (b - x) > 0 || a == b) continue;
        return line[i - 1] + (line[i] - line[i - 1]) * ((x - a) / (b - a));
    }
    return std::nullopt;
}

class ContourPainter {
  public:
    ContourPainter(Picture& picture, const PlanCamera& camera, const Rect& pane,
                   const std::vector<Rect>& taken, const std::vector<Rect>& words, const Look& look,
                   bool anywhere)
        : picture_(picture),
          camera_(camera),
          pane_(pane),
          taken_(taken),
          words_(words),
          look_(look),
          anywhere_(anywhere) {
        taken_.insert(taken_.end(), words.begin(), words.end());
    }

    void bold_line(const ContourLine& contour, const std::string& figure) {
        const std::vector<Vec2> line = pixels(contour);
        const auto place = label_place(line, figure);
        draw(line, 1.3, look_.colours.contour, place);
        if (place) write(*place);
    }

    void thin_line(const ContourLine& contour) {
        draw(pixels(contour), 0.9, faded(look_.colours.contour, 0.42), std::nullopt);
    }

  private:
    std::vector<Vec2> pixels(const ContourLine& contour) const {
        std::vector<Vec2> line;
        for (const Vec2& p : contour.points) {
            const Vec2 px = camera_.to_px(p);
            const bool end = &p == &contour.points.back();
            if (line.empty() || end || (px - line.back()).norm() > 3) line.push_back(px);
        }
        return line;
    }

    std::optional<HeightPlace> label_place(const std::vector<Vec2>& line,
                                           const std::string& words) {
        const double half = look_.width(Face::sans, size(), words) / 2 + look_.u(9);
        for (const Vec2& at : label_places(line, half)) {
            const Rect box{at.x() - half, at.y() - size() * 0.7, 2 * half, size() * 1.4};
            if (!pane_.grown(-2).holds(box) || meets_taken(box)) continue;
            taken_.push_back(box);
            return HeightPlace{at, words, half};
        }
        return std::nullopt;
    }

    std::vector<Vec2> label_places(const std::vector<Vec2>& line, double half_width) const {
        std::vector<Vec2> places;
        for (const double from_right : {column_from_right_u, 330.0, 520.0, 700.0, 90.0})
            if (const auto at = crossing(line, pane_.right() - look_.u(from_right)))
                places.push_back(*at);
        if (!anywhere_) return places;
        const std::vector<Vec2> level = most_level(line, 5 * half_width);
        places.insert(places.end(), level.begin(), level.end());
        return places;
    }

    /// Middles of a long line's steps, the most level first.
    static std::vector<Vec2> most_level(const std::vector<Vec2>& line, double least_length) {
        std::vector<std::pair<double, Vec2>> steps;
        double length = 0;
        for (std::size_t i = 1; i < line.size(); ++i) {
            const Vec2 step = line[i] - line[i - 1];
            length += step.norm();
            steps.emplace_back(std::abs(step.y()) / std::max(step.norm(), 1e-9),
                               line[i - 1] + step / 2);
        }
        std::vector<Vec2> places;
        if (length < least_length) return places;
        std::stable_sort(steps.begin(), steps.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        for (const auto& [tilt, place] : steps) places.push_back(place);
        return places;
    }

    bool meets_taken(const Rect& box) const {
        return std::any_of(taken_.begin(), taken_.end(),
                           [&](const Rect& t) { return t.meets(box); });
    }

    void draw(const std::vector<Vec2>& line, double width_u, Colour colour,
              const std::optional<HeightPlace>& gap) {
        for (const std::vector<Vec2>& piece : outside(line, words_))
            if (gap)
                add_line_with_gap(picture_, piece, gap->at, gap->half_width, look_.u(width_u),
                                  colour);
            else
                picture_.push_back(Line{piece, look_.u(width_u), colour});
    }

    void write(const HeightPlace& place) {
        const Vec2 baseline = place.at + Vec2(0, 0.35 * size());
        picture_.push_back(Text{place.words, Face::sans, size(), baseline,
                                look_.colours.height_label, Align::centre});
    }

    double size() const { return look_.type(16); }

    Picture& picture_;
    const PlanCamera& camera_;
    const Rect& pane_;
    std::vector<Rect> taken_;
    const std::vector<Rect>& words_;
    const Look& look_;
    bool anywhere_;
};

/// Contours in steps that suit the slope; none on ground as good as level.
std::optional<GroundLines> contours_of(const PlanGround& g, const Box& box, double px_per_m,
                                       const Look& look) {
    const double slope = typical_slope(g, box);
    if (slope < 1e-4) return std::nullopt;
    const double apart =
        contour_spacing(slope, look.u(g.lines_apart_u) / px_per_m, look.units.metric).index_m;
    GroundLines lines{
        g.surface, height_at(g.surface, g.hole), apart,
        [units = look.units](double height_m) { return format_height(height_m, units); }};
    if (is_plane(g)) lines.cells = 2;
    return lines;
}

void add_lines(Picture& picture, const PlanGround& g, const PlanCamera& camera, const Rect& pane,
               const std::vector<Rect>& taken, const std::vector<Rect>& words, const Look& look) {
    const Box box = shown_box(camera, pane);
    const auto told = lines_of(g, camera, pane, look);
    if (!told) return;
    const Heights h = heights_in(told->measure, box, g.hole);
    const double step = told->apart / 2;
    if ((h.highest - h.lowest) / step > most_lines) return;
    auto lines = contour_lines(told->measure, box,
                               contour_heights(told->base, step, h.lowest, h.highest), told->cells);
    if (g.outline) lines = inside(lines, *g.outline);
    ContourPainter painter(picture, camera, pane, taken, words, look, g.figures_anywhere);
    for (const ContourLine& line : lines) {
        const double steps = (line.height_m - told->base) / told->apart, whole = std::round(steps);
        if (std::abs(steps - whole) < 1e-6 && whole != 0)
            painter.bold_line(line, told->figure(whole * told->apart));
        else if (line.height_m >= told->thin_from)
            painter.thin_line(line);
    }
}

void add_edge(Picture& picture, const Outline& outline, const PlanCamera& camera,
              const Look& look) {
    std::vector<Vec2> line;
    for (const Vec2& corner : outline.corners()) line.push_back(camera.to_px(corner));
    picture.push_back(Line{line, look.u(2), look.colours.contour, true});
}

}  // namespace

const std::vector<DewDot>& dew_dots() {
    static const std::vector<DewDot> dots = [] {
        std::mt19937_64 engine(20260501);
        const auto next = [&] { return static_cast<double>(engine() >> 11) * 0x1p-53; };
        std::vector<DewDot> made;
        for (int i = 0; i < dew_count; ++i) {
            const double x = next(), y = next();
            made.push_back({x, y, 0.5 + 0.65 * next(), 0.35 + 0.65 * next()});
        }
        return made;
    }();
    return dots;
}

double hill_shade(const Vec2& gradient) {
    const double across = std::cos(light_elevation) / std::numbers::sqrt2,
                 up = std::sin(light_elevation);
    const Vec2 tilt = -relief * gradient;
    const double lit = ((tilt.x() + tilt.y()) * across + up) / std::sqrt(tilt.squaredNorm() + 1);
    return std::clamp(shade_gain * (lit - up), -most_shade, most_shade);
}

Colour grass_at(double x, double y, const Palette& c) {
    return blend(c.grass_dark, c.grass_light, std::clamp(0.5 + 0.5 * (x - y), 0.0, 1.0));
}

std::optional<GroundLines> lines_of(const PlanGround& g, const PlanCamera& camera, const Rect& pane,
                                    const Look& look) {
    return g.lines ? g.lines : contours_of(g, shown_box(camera, pane), camera.px_per_m, look);
}

Picture plan_ground(const Solved& s, const PlanCamera& camera, const Rect& pane,
                    const std::vector<Rect>& taken, const Look& look,
                    const std::vector<Rect>& words, bool contours) {
    PlanGround ground{*s.putt.surface, s.putt.outline.get(), s.putt.hole, s.putt.slope_at_hole()};
    ground.has_lines = contours;
    return plan_ground(ground, camera, pane, taken, look, words);
}

Picture plan_ground(const PlanGround& g, const PlanCamera& camera, const Rect& pane,
                    const std::vector<Rect>& taken, const Look& look,
                    const std::vector<Rect>& words) {
    Picture picture;
    const Palette& c = look.colours;
    if (is_plane(g) && !g.outline)
        add_gradient(picture, pane, grass_at(0, 0, c), grass_at(1, 0, c), grass_at(1, 1, c),
                     grass_at(0, 1, c));
    else
        add_shaded_grass(picture, g, camera, pane, c);
    append(picture, g.veil);
    if (g.has_lines) add_lines(picture, g, camera, pane, taken, words, look);
    if (g.outline) add_edge(picture, *g.outline, camera, look);
    return picture;
}

std::vector<Rect> boxes_of_words(const Picture& picture, const Look& look) {
    std::vector<Rect> boxes;
    for (const Shape& shape : picture)
        if (const auto* text = std::get_if<Text>(&shape); text && text->turned_rad == 0) {
            const Rect box = rect_of(*text, look.width);
            boxes.push_back({box.x - look.u(5), box.y, box.w + look.u(10), box.h});
        }
    return boxes;
}

void add_dew(Picture& picture, const Rect& pane, const std::vector<Vec2>& wiped, double half_width,
             const std::vector<Rect>& dry, const Look& look) {
    // A coarse grid of wiped cells finds the few dots that need a closer look.
    Mesh mesh;
    mesh.vertices.reserve(3 * dew_dots().size());
    Rect near{1e9, 1e9, 0, 0};
    Vec2 lo(1e9, 1e9), hi(-1e9, -1e9);
    for (const Vec2& p : wiped) lo = lo.cwiseMin(p), hi = hi.cwiseMax(p);
    near = Rect{lo.x(), lo.y(), hi.x() - lo.x(), hi.y() - lo.y()}.grown(half_width);
    for (const DewDot& dot : dew_dots()) {
        const Vec2 at(pane.x + dot.x * pane.w, pane.y + dot.y * pane.h);
        const bool gone =
            near.contains(at) && std::any_of(wiped.begin(), wiped.end(), [&](const Vec2& p) {
                return (p - at).squaredNorm() < half_width * half_width;
            });
        if (gone ||
            std::any_of(dry.begin(), dry.end(), [&](const Rect& r) { return r.contains(at); }))
            continue;
        // A pixel or two each: one triangle is as round as that can be.
        const double r = dot_corner * look.u(dot.radius_u);
        const Colour colour = faded(look.colours.dew_dot, dot.share);
        for (const Vec2& corner : {Vec2(0, -r), Vec2(0.87 * r, 0.5 * r), Vec2(-0.87 * r, 0.5 * r)})
            mesh.vertices.push_back({at + corner, colour});
    }
    picture.push_back(std::move(mesh));
}

}  // namespace dewtrail
