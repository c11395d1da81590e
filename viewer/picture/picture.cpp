#include "viewer/picture/picture.hpp"

#include <algorithm>
#include <boost/container/small_vector.hpp>
#include <cctype>
#include <cmath>
#include <iterator>
#include <numbers>
#include <tuple>
#include <utility>

#include "viewer/picture/wrapping.hpp"

namespace dewtrail {
namespace {

constexpr double ascent_em = 0.80;  // of the letters, not of the line
constexpr double descent_em = 0.24;

/// Ends of a piece of the polyline between two arc lengths.
class ArcWalk {
  public:
    explicit ArcWalk(const std::vector<Vec2>& points) : points_(points) {
        arcs_.reserve(points.size());
        arcs_.push_back(0);
        for (std::size_t i = 1; i < points.size(); ++i)
            arcs_.push_back(arcs_.back() + (points[i] - points[i - 1]).norm());
    }

    double length() const { return arcs_.back(); }

    /// Valid until the next.
    const auto& piece(double from, double to) {
        piece_.assign(1, at(from));
        for (std::size_t i = 0; i < points_.size(); ++i)
            if (arcs_[i] > from && arcs_[i] < to) piece_.push_back(points_[i]);
        piece_.push_back(at(to));
        return piece_;
    }

  private:
    Vec2 at(double arc) const {
        const auto next = std::upper_bound(arcs_.begin(), arcs_.end(), arc);
        if (next == arcs_.end()) return points_.back();
        const auto i = static_cast<std::size_t>(next - arcs_.begin());
        const double t = (arc - arcs_[i - 1]) / (arcs_[i] - arcs_[i - 1]);
        return points_[i - 1] + t * (points_[i] - points_[i - 1]);
    }

    const std::vector<Vec2>& points_;
    boost::container::small_vector<double, 4> arcs_;
    boost::container::small_vector<Vec2, 4> piece_;
};

/// Whether the space stands between a figure and its unit: '23 ft', '2½ %'.
bool parts_figure(std::string_view words, std::size_t space) {
    const auto last = space > 0 ? static_cast<unsigned char>(words[space - 1]) : ' ';
    if (!std::isdigit(last) && last < 0x80) return false;  // fractions are no ASCII
    const std::string_view rest = words.substr(space + 1);
    const auto end = std::find_if(rest.begin(), rest.end(),
                                  [](unsigned char c) { return c != '%' && !std::isalpha(c); });
    const std::string_view unit = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
    constexpr std::string_view units[] = {"%", "ft", "in", "m", "cm"};
    return std::find(std::begin(units), std::end(units), unit) != std::end(units);
}

/// The last place where `words` may break so that the first part still fits; 0: nowhere.
template <class Fits>
std::size_t break_place(std::string_view words, char after, const Fits& fits) {
    std::size_t best = 0;
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
        const bool here = after == ' ' ? words[i] == ' ' : words[i] == after && words[i + 1] == ' ';
        if (!here || (after == ' ' && parts_figure(words, i))) continue;
        const std::size_t end = after == ' ' ? i : i + 1;
        if (!fits(words.substr(0, end))) break;
        best = end;
    }
    return best;
}

/// Where a segment enters and leaves a circle, as shares of its length; outside 0..1: not there.
std::pair<double, double> circle_cuts(const Vec2& a, const Vec2& b, const Vec2& centre,
                                      double radius) {
    const Vec2 d = b - a, f = a - centre;
    const double qa = d.squaredNorm(), qb = f.dot(d), qc = f.squaredNorm() - radius * radius;
    const double disc = qb * qb - qa * qc;
    if (disc <= 0 || qa == 0) return {-1, -1};
    return {(-qb - std::sqrt(disc)) / qa, (-qb + std::sqrt(disc)) / qa};
}

/// The parts of a segment, as shares of it, that boxes cover; those that begin first come first.
std::vector<std::pair<double, double>> covered(const Vec2& from, const Vec2& way,
                                               const std::vector<Rect>& boxes) {
    std::vector<std::pair<double, double>> parts;
    for (const Rect& box : boxes) {
        double in = 0, out = 1;
        for (const auto& [start, step, lo, hi] :
             {std::tuple(from.x(), way.x(), box.x, box.right()),
              std::tuple(from.y(), way.y(), box.y, box.bottom())}) {
            if (step == 0) {
                if (start <= lo || start >= hi) out = -1;
                continue;
            }
            const double a = (lo - start) / step, b = (hi - start) / step;
            in = std::max(in, std::min(a, b));
            out = std::min(out, std::max(a, b));
        }
        if (in < out) parts.emplace_back(in, out);
    }
    std::sort(parts.begin(), parts.end());
    return parts;
}

}  // namespace

Rect rect_of(const Text& text, const TextWidth& width) {
    const double w = width(text.face, text.size, text.words);
    const double shift = text.align == Align::left ? 0 : text.align == Align::centre ? w / 2 : w;
    return {text.at.x() - shift, text.at.y() - ascent_em * text.size, w,
            (ascent_em + descent_em) * text.size};
}

namespace {

/// Few, mostly one.
using Lines = boost::container::small_vector<std::string_view, 6>;

void wrap(Lines& lines, std::string_view words, Face face, double size, double most,
          const TextWidth& width) {
    const auto fits = [&](std::string_view part) { return width(face, size, part) <= most; };
    lines.clear();
    while (!words.empty() && !fits(words)) {
        std::size_t end = break_place(words, ',', fits);
        // A break so early that the rest overflows again does not help.
        if (end == 0 || !fits(words.substr(std::min(words.size(), end + 1)))) {
            const std::size_t space = break_place(words, ' ', fits);
            if (space > 0) end = space;
        }
        if (end == 0) break;
        lines.emplace_back(words.substr(0, end));
        words.remove_prefix(std::min(words.size(), words.find_first_not_of(' ', end)));
    }
    if (!words.empty() || lines.empty()) lines.emplace_back(words);
}

void take(std::vector<std::string>& into, const Lines& lines) {
    into.resize(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) into[i].assign(lines[i]);
}

}  // namespace

void wrap_into(std::vector<std::string>& into, std::string_view words, Face face, double size,
               double most, const TextWidth& width) {
    Lines lines;
    wrap(lines, words, face, size, most, width);
    take(into, lines);
}

void wrap_evenly_into(std::vector<std::string>& into, std::string_view words, Face face,
                      double size, double most, const TextWidth& width) {
    Lines lines, tried;
    wrap(lines, words, face, size, most, width);
    const std::size_t count = lines.size();
    const bool at_comma = lines.front().ends_with(',');
    for (double narrower = most; count > 1 && !at_comma && narrower > 0.3 * most;
         narrower -= 0.04 * most) {
        wrap(tried, words, face, size, narrower, width);
        if (tried.size() != count) break;
        lines.swap(tried);
    }
    take(into, lines);
}

std::vector<std::string> wrapped(std::string_view words, Face face, double size, double most,
                                 const TextWidth& width) {
    std::vector<std::string> lines;
    wrap_into(lines, words, face, size, most, width);
    return lines;
}

std::vector<std::string> wrapped_evenly(std::string_view words, Face face, double size, double most,
                                        const TextWidth& width) {
    std::vector<std::string> lines;
    wrap_evenly_into(lines, words, face, size, most, width);
    return lines;
}

void append(Picture& picture, Picture more) {
    picture.insert(picture.end(), std::make_move_iterator(more.begin()),
                   std::make_move_iterator(more.end()));
}

std::vector<Vec2> circle_points(const Vec2& centre, double radius) {
    std::vector<Vec2> points;
    set_circle(points, centre, radius);
    return points;
}

void set_circle(std::vector<Vec2>& points, const Vec2& centre, double radius) {
    const int n = std::clamp(static_cast<int>(8 + 3 * std::sqrt(radius)), 12, 120);
    points.clear();
    points.reserve(static_cast<std::size_t>(n) + 1);  // often closed by the first
    for (int i = 0; i < n; ++i) {
        const double turn = 2 * std::numbers::pi * i / n;
        points.emplace_back(centre + radius * Vec2(std::cos(turn), std::sin(turn)));
    }
}

void add_rect(Picture& picture, const Rect& b, Colour colour) {
    add_gradient(picture, b, colour, colour, colour, colour);
}

void add_disc(Picture& picture, const Vec2& centre, double radius, Colour colour) {
    picture.push_back(Disc{centre, radius, colour});
}

void add_ring(Picture& picture, const Vec2& centre, double radius, double width, Colour colour) {
    picture.push_back(Line{circle_points(centre, radius), width, colour, true});
}

void add_dashes(Picture& picture, const std::vector<Vec2>& points, double dash, double gap,
                double width, Colour colour) {
    if (points.size() < 2) return;
    if (gap <= 0) {
        picture.push_back(Line{points, width, colour});
        return;
    }
    ArcWalk walk(points);
    for (double from = 0; from < walk.length(); from += dash + gap) {
        const auto& piece = walk.piece(from, std::min(from + dash, walk.length()));
        picture.push_back(Line{{piece.begin(), piece.end()}, width, colour});
    }
}

void add_line_with_gap(Picture& picture, const std::vector<Vec2>& line, const Vec2& gap,
                       double radius, double width, Colour colour) {
    std::vector<Vec2> piece;
    const auto flush = [&] {
        if (piece.size() > 1) picture.push_back(Line{piece, width, colour});
        piece.clear();
    };
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (i > 0) {
            const auto [in, out] = circle_cuts(line[i - 1], line[i], gap, radius);
            const Vec2 d = line[i] - line[i - 1];
            if (in >= 0 && in <= 1) piece.push_back(line[i - 1] + in * d), flush();
            if (out >= 0 && out <= 1) flush(), piece.push_back(line[i - 1] + out * d);
        }
        if ((line[i] - gap).norm() > radius) piece.push_back(line[i]);
    }
    flush();
}

std::vector<std::vector<Vec2>> outside(const std::vector<Vec2>& line,
                                       const std::vector<Rect>& boxes) {
    std::vector<std::vector<Vec2>> pieces;
    std::vector<Vec2> piece;
    const auto flush = [&] {
        if (piece.size() > 1) pieces.push_back(piece);
        piece.clear();
    };
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Vec2 from = line[i - 1], way = line[i] - from;
        double free_from = 0;
        for (const auto& [in, out] : covered(from, way, boxes)) {
            if (in > free_from) {
                if (piece.empty()) piece.push_back(from + free_from * way);
                piece.push_back(from + in * way);
            }
            flush();
            free_from = std::max(free_from, out);
        }
        if (free_from >= 1) continue;
        if (piece.empty()) piece.push_back(from + free_from * way);
        piece.push_back(line[i]);
    }
    flush();
    return pieces;
}

void fade_shapes(Picture& picture, std::size_t from, double share) {
    for (std::size_t i = from; i < picture.size(); ++i)
        std::visit(
            [share](auto& shape) {
                using Kind = std::decay_t<decltype(shape)>;
                if constexpr (std::is_same_v<Kind, Mesh>) {
                    for (auto& v : shape.vertices) v.colour = faded(v.colour, share);
                } else if constexpr (!std::is_same_v<Kind, Clip>) {
                    shape.colour = faded(shape.colour, share);
                }
                if constexpr (std::is_same_v<Kind, Text>)
                    shape.outline_colour = faded(shape.outline_colour, share);
            },
            picture[i]);
}

void add_gradient(Picture& picture, const Rect& b, Colour top_left, Colour top_right,
                  Colour bottom_right, Colour bottom_left) {
    const Vec2 tl(b.x, b.y), tr(b.right(), b.y), br(b.right(), b.bottom()), bl(b.x, b.bottom());
    picture.push_back(Mesh{{{tl, top_left},
                            {tr, top_right},
                            {br, bottom_right},
                            {tl, top_left},
                            {br, bottom_right},
                            {bl, bottom_left}}});
}

namespace {

/// Soft edges, in pieces where the opacity changes.
void add_edge(Picture& picture, const std::vector<Vec2>& edge, const std::vector<double>& shares,
              Colour colour) {
    for (std::size_t from = 0; from + 1 < edge.size();) {
        std::size_t to = from + 1;
        while (to + 1 < edge.size() && shares[to + 1] == shares[from]) ++to;
        const auto begin = edge.begin() + static_cast<std::ptrdiff_t>(from);
        picture.push_back(Line{{begin, begin + static_cast<std::ptrdiff_t>(to - from + 1)},
                               1.2,
                               faded(colour, (shares[from] + shares[to]) / 2)});
        from = to;
    }
}

}  // namespace

void add_ribbon(Picture& picture, const std::vector<Vec2>& left, const std::vector<Vec2>& right,
                const std::vector<double>& shares, Colour colour) {
    Mesh mesh;
    for (std::size_t i = 1; i < left.size(); ++i) {
        const Colour from = faded(colour, shares[i - 1]), to = faded(colour, shares[i]);
        for (const Mesh::Vertex& corner :
             {Mesh::Vertex{left[i - 1], from}, Mesh::Vertex{right[i - 1], from},
              Mesh::Vertex{right[i], to}, Mesh::Vertex{left[i - 1], from},
              Mesh::Vertex{right[i], to}, Mesh::Vertex{left[i], to}})
            mesh.vertices.push_back(corner);
    }
    if (mesh.vertices.empty()) return;
    picture.push_back(std::move(mesh));
    if (colour.a < 255) return;
    add_edge(picture, left, shares, colour);
    add_edge(picture, right, shares, colour);
}

double edge_share(const Rect& pane, const Vec2& px, double reach_px) {
    const double inside =
        std::min({px.x() - pane.x, pane.right() - px.x(), px.y() - pane.y, pane.bottom() - px.y()});
    return std::clamp(inside / reach_px, 0.0, 1.0);
}

void add_rounded_rect(Picture& picture, const Rect& b, double radius, Colour colour) {
    const double r = std::min({radius, b.w / 2, b.h / 2});
    constexpr int steps = 5;
    std::vector<Vec2> points;
    points.reserve(4 * (steps + 1));
    for (int corner = 0; corner < 4; ++corner) {
        const Vec2 centre(corner == 0 || corner == 3 ? b.right() - r : b.x + r,
                          corner < 2 ? b.bottom() - r : b.y + r);
        for (int i = 0; i <= steps; ++i) {
            const double turn = (corner + static_cast<double>(i) / steps) * std::numbers::pi / 2;
            points.emplace_back(centre + r * Vec2(std::cos(turn), std::sin(turn)));
        }
    }
    picture.push_back(Polygon{std::move(points), colour});
}

}  // namespace dewtrail
