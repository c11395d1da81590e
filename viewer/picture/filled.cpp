#include "viewer/picture/filled.hpp"

#include <algorithm>
#include <numeric>

namespace dewtrail {
namespace {

double cross(const Vec2& a, const Vec2& b, const Vec2& c) {
    return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x());
}

double doubled_area(const std::vector<Vec2>& p) {
    double sum = 0;
    for (std::size_t i = 0; i < p.size(); ++i) {
        const Vec2& q = p[(i + 1) % p.size()];
        sum += p[i].x() * q.y() - p[i].y() * q.x();
    }
    return sum;
}

/// Counter-clockwise a, b, c: the corner b sticks out and holds no other corner.
bool is_ear(const std::vector<Vec2>& p, const std::vector<std::size_t>& left, std::size_t i) {
    const std::size_t n = left.size();
    const std::size_t before = left[(i + n - 1) % n], here = left[i], after = left[(i + 1) % n];
    const Vec2 &a = p[before], &b = p[here], &c = p[after];
    if (cross(a, b, c) <= 0) return false;
    for (const std::size_t k : left) {
        if (k == before || k == here || k == after) continue;
        const Vec2& q = p[k];
        if (cross(a, b, q) >= 0 && cross(b, c, q) >= 0 && cross(c, a, q) >= 0) return false;
    }
    return true;
}

}  // namespace

std::vector<std::array<std::size_t, 3>> filled(const std::vector<Vec2>& polygon) {
    std::vector<std::size_t> left(polygon.size());
    std::iota(left.begin(), left.end(), std::size_t{0});
    if (doubled_area(polygon) < 0) std::reverse(left.begin(), left.end());
    std::vector<std::array<std::size_t, 3>> triangles;
    std::size_t i = 0, tried = 0;
    while (left.size() > 2 && tried < left.size()) {
        const std::size_t n = left.size();
        i %= n;
        if (is_ear(polygon, left, i)) {
            triangles.push_back({left[(i + n - 1) % n], left[i], left[(i + 1) % n]});
            left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
            tried = 0;
        } else {
            ++i;
            ++tried;
        }
    }
    return triangles;
}

bool holds(const std::vector<Vec2>& polygon, const Vec2& p) {
    bool inside = false;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vec2 &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
        if ((a.y() > p.y()) == (b.y() > p.y())) continue;
        const double x = a.x() + (p.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x());
        if (p.x() < x) inside = !inside;
    }
    return inside;
}

Polygon filled_box(const Rect& b, const Colour& colour) {
    return {{{b.x, b.y}, {b.right(), b.y}, {b.right(), b.bottom()}, {b.x, b.bottom()}}, colour};
}

}  // namespace dewtrail
