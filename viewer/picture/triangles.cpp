#include "viewer/picture/triangles.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace dewtrail {
namespace {

constexpr double sharpest = 3.0;       // a mitre this many half-widths long at most
constexpr double doubles_back = -0.8;  // cosine of the turn

void quad(Triangles& out, const Mesh::Vertex& a, const Mesh::Vertex& b, const Mesh::Vertex& c,
          const Mesh::Vertex& d) {
    for (const Mesh::Vertex& v : {a, b, c, a, c, d}) out.push_back(v);
}

Vec2 left_of(const Vec2& way) {
    return {way.y(), -way.x()};
}

/// Points without the ones that repeat.
void keep_distinct(std::vector<Vec2>& points, bool closed) {
    const auto repeats = [](const Vec2& a, const Vec2& b) {
        return !((b - a).squaredNorm() > 1e-8);
    };
    points.erase(std::unique(points.begin(), points.end(), repeats), points.end());
    if (closed && points.size() > 1 && (points.front() - points.back()).squaredNorm() < 1e-8)
        points.pop_back();
}

/// The mitre at each point: across the line, long enough to keep the width even. Where an open line
/// doubles back, as a ball does at the wall of the hole, a mitre would stick out like a thorn, so
/// there is none.
void set_mitres(std::vector<Vec2>& out, const std::vector<Vec2>& p, bool closed) {
    const std::size_t n = p.size();
    out.resize(n);
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
}

/// Where the shape at hand is worked out: a frame has hundreds, and none needs memory of its own.
struct Scratch {
    std::vector<Vec2> points, across;
};
thread_local Scratch scratch;

/// The convex polygon in scratch.points.
void add_polygon(Triangles& out, const Colour& colour, double pixel) {
    auto& [p, out_way] = scratch;
    keep_distinct(p, true);
    if (p.size() < 3 || colour.a == 0) return;
    double area = 0;
    Vec2 centre = Vec2::Zero();
    for (std::size_t i = 0; i < p.size(); ++i) {
        const Vec2& q = p[(i + 1) % p.size()];
        area += p[i].x() * q.y() - p[i].y() * q.x();
        centre += p[i] / static_cast<double>(p.size());
    }
    if (area < 0) std::reverse(p.begin(), p.end());
    set_mitres(out_way, p, true);
    const double soft = pixel / 2;
    const Colour c = colour, none = faded(c, 0);
    for (std::size_t i = 0; i < p.size(); ++i) {
        const std::size_t j = (i + 1) % p.size();
        const Vec2 a = p[i] - soft * out_way[i], b = p[j] - soft * out_way[j];
        const Vec2 ao = p[i] + soft * out_way[i], bo = p[j] + soft * out_way[j];
        for (const Mesh::Vertex& v : {Mesh::Vertex{centre, c}, {a, c}, {b, c}}) out.push_back(v);
        quad(out, {a, c}, {b, c}, {bo, none}, {ao, none});
    }
}

}  // namespace

void add_triangles(Triangles& out, const Line& line, double pixel) {
    auto& [points, across] = scratch;
    points.assign(line.points.begin(), line.points.end());
    keep_distinct(points, line.closed);
    if (points.size() < 2 || line.colour.a == 0) return;
    set_mitres(across, points, line.closed);
    const double width = std::max(line.width, pixel), paler = std::min(1.0, line.width / width);
    const double soft = pixel / 2;  // from full to nothing, on either side of the edge
    const double core = std::max(0.0, width / 2 - soft), outer = width / 2 + soft;
    const Colour c = faded(line.colour, paler), none = faded(c, 0);
    const std::size_t segments = points.size() - (line.closed ? 0 : 1);
    const double ends = line.closed ? 0 : soft;
    for (std::size_t i = 0; i < segments; ++i) {
        const std::size_t j = (i + 1) % points.size();
        Vec2 p = points[i], q = points[j];
        const Vec2 way = (q - p).normalized();
        if (i == 0) p -= ends * way;
        if (i + 1 == segments) q += ends * way;
        const Vec2 &a = across[i], &b = across[j];
        if (core > 0)
            quad(out, {p + core * a, c}, {q + core * b, c}, {q - core * b, c}, {p - core * a, c});
        quad(out, {p + outer * a, none}, {q + outer * b, none}, {q + core * b, c},
             {p + core * a, c});
        quad(out, {p - core * a, c}, {q - core * b, c}, {q - outer * b, none},
             {p - outer * a, none});
    }
}

void add_triangles(Triangles& out, const Polygon& polygon, double pixel) {
    scratch.points.assign(polygon.points.begin(), polygon.points.end());
    add_polygon(out, polygon.colour, pixel);
}

void add_triangles(Triangles& out, const Disc& disc, double pixel) {
    // As round as the device can show it.
    set_circle(scratch.points, disc.centre / pixel, disc.radius / pixel);
    for (Vec2& point : scratch.points) point *= pixel;
    add_polygon(out, disc.colour, pixel);
}

void add_triangles(Triangles& out, const Mesh& mesh, double /*pixel*/) {
    out.insert(out.end(), mesh.vertices.begin(), mesh.vertices.end());
}

}  // namespace dewtrail
