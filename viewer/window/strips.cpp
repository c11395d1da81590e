#include "viewer/window/strips.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace dewtrail {
namespace {

constexpr double feather_px = 1.0;     // from full to nothing, half of it inside the edge
constexpr double sharpest = 3.0;       // a mitre this many half-widths long at most
constexpr double doubles_back = -0.8;  // cosine of the turn

sf::Vertex vertex(const Vec2& at, const Colour& c, double alpha = 1) {
    return {{static_cast<float>(at.x()), static_cast<float>(at.y())},
            {c.r, c.g, c.b, static_cast<sf::Uint8>(c.a * alpha + 0.5)}};
}

void quad(Triangles& out, const sf::Vertex& a, const sf::Vertex& b, const sf::Vertex& c,
          const sf::Vertex& d) {
    for (const sf::Vertex& v : {a, b, c, a, c, d}) out.push_back(v);
}

Vec2 left_of(const Vec2& way) {
    return {way.y(), -way.x()};
}

/// Points without the ones that repeat.
std::vector<Vec2> distinct(const std::vector<Vec2>& points, bool closed) {
    std::vector<Vec2> kept;
    for (const Vec2& p : points)
        if (kept.empty() || (p - kept.back()).squaredNorm() > 1e-8) kept.push_back(p);
    if (closed && kept.size() > 1 && (kept.front() - kept.back()).squaredNorm() < 1e-8)
        kept.pop_back();
    return kept;
}

/// The mitre at each point: across the line, long enough to keep the width even. Where an open line
/// doubles back, as a ball does at the wall of the hole, a mitre would stick out like a thorn, so
/// there is none.
std::vector<Vec2> mitres(const std::vector<Vec2>& p, bool closed) {
    const std::size_t n = p.size();
    std::vector<Vec2> out(n);
    for (std::size_t i = 0; i < n; ++i) {
        const bool first = i == 0 && !closed, last = i + 1 == n && !closed;
        const Vec2 in = first ? Vec2(p[1] - p[0]) : Vec2(p[i] - p[(i + n - 1) % n]);
        const Vec2 on = last ? in : Vec2(p[(i + 1) % n] - p[i]);
        const Vec2 a = left_of(in.normalized()), b = left_of(on.normalized());
        const Vec2 sum = a + b;
        const double length = sum.squaredNorm();
        const bool back = length < 1e-6 || (!closed && a.dot(b) < doubles_back);
        out[i] = back ? a : Vec2(sum * std::min(2 / length, sharpest / std::sqrt(length)));
    }
    return out;
}

}  // namespace

void add_triangles(Triangles& out, const Line& line) {
    const auto points = distinct(line.points, line.closed);
    if (points.size() < 2 || line.colour.a == 0) return;
    const auto across = mitres(points, line.closed);
    // Thinner than a pixel is drawn a pixel wide and paler.
    const double width = std::max(line.width, 1.0), paler = std::min(1.0, line.width / width);
    const double core = std::max(0.0, width / 2 - feather_px / 2),
                 outer = width / 2 + feather_px / 2;
    const Colour c = faded(line.colour, paler);
    const std::size_t segments = points.size() - (line.closed ? 0 : 1);
    const double ends = line.closed ? 0 : feather_px / 2;
    for (std::size_t i = 0; i < segments; ++i) {
        const std::size_t j = (i + 1) % points.size();
        Vec2 p = points[i], q = points[j];
        const Vec2 way = (q - p).normalized();
        if (i == 0) p -= ends * way;
        if (i + 1 == segments) q += ends * way;
        const Vec2 &a = across[i], &b = across[j];
        if (core > 0)
            quad(out, vertex(p + core * a, c), vertex(q + core * b, c), vertex(q - core * b, c),
                 vertex(p - core * a, c));
        quad(out, vertex(p + outer * a, c, 0), vertex(q + outer * b, c, 0), vertex(q + core * b, c),
             vertex(p + core * a, c));
        quad(out, vertex(p - core * a, c), vertex(q - core * b, c), vertex(q - outer * b, c, 0),
             vertex(p - outer * a, c, 0));
    }
}

void add_triangles(Triangles& out, const Polygon& polygon) {
    auto p = distinct(polygon.points, true);
    if (p.size() < 3 || polygon.colour.a == 0) return;
    double area = 0;
    Vec2 centre = Vec2::Zero();
    for (std::size_t i = 0; i < p.size(); ++i) {
        const Vec2& q = p[(i + 1) % p.size()];
        area += p[i].x() * q.y() - p[i].y() * q.x();
        centre += p[i] / static_cast<double>(p.size());
    }
    if (area < 0) std::reverse(p.begin(), p.end());
    const auto out_way = mitres(p, true);
    const Colour c = polygon.colour;
    for (std::size_t i = 0; i < p.size(); ++i) {
        const std::size_t j = (i + 1) % p.size();
        const Vec2 a = p[i] - feather_px / 2 * out_way[i], b = p[j] - feather_px / 2 * out_way[j];
        const Vec2 ao = p[i] + feather_px / 2 * out_way[i], bo = p[j] + feather_px / 2 * out_way[j];
        for (const sf::Vertex& v : {vertex(centre, c), vertex(a, c), vertex(b, c)})
            out.push_back(v);
        quad(out, vertex(a, c), vertex(b, c), vertex(bo, c, 0), vertex(ao, c, 0));
    }
}

void add_triangles(Triangles& out, const Disc& disc) {
    add_triangles(out, Polygon{circle_points(disc.centre, disc.radius), disc.colour});
}

void add_triangles(Triangles& out, const Mesh& mesh) {
    for (const Mesh::Vertex& v : mesh.vertices) out.push_back(vertex(v.at, v.colour));
}

}  // namespace dewtrail
