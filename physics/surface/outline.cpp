#include "physics/surface/outline.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace dewtrail {
namespace {

double cross(const Vec2& a, const Vec2& b) {
    return a.x() * b.y() - a.y() * b.x();
}

bool segments_cross(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
    const auto side = [](const Vec2& p, const Vec2& q, const Vec2& r) {
        return cross(q - p, r - p);
    };
    return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

double squared_distance_to_segment(const Vec2& p, const Vec2& a, const Vec2& b) {
    const Vec2 ab = b - a;
    const double t = std::clamp((p - a).dot(ab) / ab.squaredNorm(), 0.0, 1.0);
    return (a + t * ab - p).squaredNorm();
}

}  // namespace

Outline::Outline(std::vector<Vec2> corners) : corners_(std::move(corners)) {
    const std::size_t n = corners_.size();
    if (n < 3) throw std::invalid_argument("outline: needs at least three corners");
    for (std::size_t i = 0; i < n; ++i) {
        if (corners_[i] == corners_[(i + 1) % n])
            throw std::invalid_argument("outline: two neighbouring corners are the same point");
        for (std::size_t j = i + 2; j < n; ++j)
            if (segments_cross(corners_[i], corners_[i + 1], corners_[j], corners_[(j + 1) % n]))
                throw std::invalid_argument("outline: its edges cross");
    }
}

double Outline::inside_by(const Vec2& p) const {
    bool inside = false;
    double nearest2 = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0, j = corners_.size() - 1; i < corners_.size(); j = i++) {
        const Vec2& a = corners_[i];
        const Vec2& b = corners_[j];
        nearest2 = std::min(nearest2, squared_distance_to_segment(p, a, b));
        const bool straddles = (a.y() > p.y()) != (b.y() > p.y());
        if (straddles && p.x() < (b.x() - a.x()) * (p.y() - a.y()) / (b.y() - a.y()) + a.x())
            inside = !inside;
    }
    const double nearest = std::sqrt(nearest2);
    return inside ? nearest : -nearest;
}

}  // namespace dewtrail
