#include "viewer/web/raster.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace dewtrail {
namespace {

/// Premultiplied channels, 0 to 255, and how they change a pixel to the right.
struct Ink {
    float c[4];
};

Ink ink_of(const Colour& colour) {
    const float a = colour.a / 255.0F;
    return {{colour.r * a, colour.g * a, colour.b * a, static_cast<float>(colour.a)}};
}

class Painter {
  public:
    explicit Painter(Raster& raster)
        : raster_(raster),
          sums_(blank(static_cast<std::size_t>(raster.w * raster.h))),
          rows_(static_cast<std::size_t>(raster.h), {raster.w, 0}) {}

    /// A pixel belongs to the triangle that holds its middle, so that neighbours share none.
    void triangle(const Drawing::Corner* corner, double scale) {
        const Vec2 origin(raster_.x, raster_.y);
        Vec2 p[3];
        Ink ink[3];
        for (int i = 0; i < 3; ++i) {
            p[i] = scale * Vec2(corner[i].x, corner[i].y) - origin;
            ink[i] = ink_of(corner[i].colour);
        }
        const Vec2 u = p[1] - p[0], v = p[2] - p[0];
        const double area = u.x() * v.y() - u.y() * v.x();
        if (std::abs(area) < 1e-9) return;
        const double low = std::min({p[0].y(), p[1].y(), p[2].y()});
        const double high = std::max({p[0].y(), p[1].y(), p[2].y()});
        const int first = std::max(0, static_cast<int>(std::ceil(low - 0.5)));
        const int last = std::min(raster_.h - 1, static_cast<int>(std::ceil(high - 0.5)) - 1);
        for (int row = first; row <= last; ++row) span(p, ink, u, v, area, row);
    }

    /// Most of what the triangles span is empty: only what was painted is looked at, and left
    /// blank for the next.
    void finish() {
        raster_.pixels.assign(static_cast<std::size_t>(raster_.w * raster_.h) * 4, 0);
        for (int y = 0; y < raster_.h; ++y) {
            const auto [from, to] = rows_[static_cast<std::size_t>(y)];
            for (int x = from; x < to; ++x) {
                const auto at = static_cast<std::size_t>(y * raster_.w + x);
                put(sums_[at], &raster_.pixels[4 * at]);
                sums_[at] = {};
            }
        }
    }

  private:
    static void put(const Ink& sum, std::uint8_t* out) {
        const float a = sum.c[3];
        if (a <= 0) return;
        const float back = 255.0F / a;
        for (int i = 0; i < 3; ++i)
            out[i] = static_cast<std::uint8_t>(std::min(255.0F, sum.c[i] * back + 0.5F));
        out[3] = static_cast<std::uint8_t>(std::min(255.0F, a + 0.5F));
    }

    /// One for all rasters, blank between them.
    static std::vector<Ink>& blank(std::size_t size) {
        static std::vector<Ink> sums;
        if (sums.size() < size) sums.resize(size);
        return sums;
    }

    void span(const Vec2* p, const Ink* ink, const Vec2& u, const Vec2& v, double area, int row) {
        const double y = row + 0.5;
        double from = 1e9, to = -1e9;
        for (int i = 0; i < 3; ++i) {
            const Vec2 &a = p[i], &b = p[(i + 1) % 3];
            if ((a.y() <= y) == (b.y() <= y)) continue;
            const double x = a.x() + (y - a.y()) / (b.y() - a.y()) * (b.x() - a.x());
            from = std::min(from, x);
            to = std::max(to, x);
        }
        const int first = std::max(0, static_cast<int>(std::ceil(from - 0.5)));
        const int last = std::min(raster_.w - 1, static_cast<int>(std::ceil(to - 0.5)) - 1);
        if (first > last) return;
        auto& [left, right] = rows_[static_cast<std::size_t>(row)];
        left = std::min(left, first);
        right = std::max(right, last + 1);
        const double dx = first + 0.5 - p[0].x(), dy = y - p[0].y();
        const double s = (dx * v.y() - dy * v.x()) / area, t = (dy * u.x() - dx * u.y()) / area;
        Ink now, step;
        for (int i = 0; i < 4; ++i) {
            const double by_s = ink[1].c[i] - ink[0].c[i], by_t = ink[2].c[i] - ink[0].c[i];
            now.c[i] = static_cast<float>(ink[0].c[i] + s * by_s + t * by_t);
            step.c[i] = static_cast<float>((v.y() * by_s - u.y() * by_t) / area);
        }
        Ink* at = &sums_[static_cast<std::size_t>(row * raster_.w + first)];
        for (int x = first; x <= last; ++x, ++at) {
            const float rest = 1 - std::clamp(now.c[3], 0.0F, 255.0F) / 255.0F;
            for (int i = 0; i < 4; ++i) {
                at->c[i] = std::max(0.0F, now.c[i]) + rest * at->c[i];
                now.c[i] += step.c[i];
            }
        }
    }

    Raster& raster_;
    std::vector<Ink>& sums_;
    std::vector<std::pair<int, int>> rows_;  ///< what is painted of each lies from here to there
};

}  // namespace

Raster rasterised(const Drawing::Corner* corners, std::size_t count, const Rect& clip,
                  double scale) {
    Vec2 least(clip.right(), clip.bottom()), most(clip.x, clip.y);
    for (std::size_t i = 0; i < count; ++i) {
        const Vec2 at(corners[i].x, corners[i].y);
        least = least.cwiseMin(at);
        most = most.cwiseMax(at);
    }
    least = scale * least.cwiseMax(Vec2(clip.x, clip.y));
    most = scale * most.cwiseMin(Vec2(clip.right(), clip.bottom()));
    Raster raster;
    raster.x = static_cast<int>(std::floor(least.x()));
    raster.y = static_cast<int>(std::floor(least.y()));
    raster.w = static_cast<int>(std::ceil(most.x())) - raster.x;
    raster.h = static_cast<int>(std::ceil(most.y())) - raster.y;
    if (!(raster.w > 0 && raster.h > 0)) return {};
    Painter painter(raster);
    for (std::size_t i = 0; i + 2 < count; i += 3) painter.triangle(&corners[i], scale);
    painter.finish();
    return raster;
}

}  // namespace dewtrail
