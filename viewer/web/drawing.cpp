#include "viewer/web/drawing.hpp"

#include <algorithm>
#include <cstring>

namespace dewtrail {
namespace {

std::uint32_t address(const void* at) {
    return static_cast<std::uint32_t>(reinterpret_cast<std::uintptr_t>(at));
}

}  // namespace

void Drawing::draw(const Picture& picture, const Rect& page, double scale, bool coarse) {
    words_.clear();
    texts_.clear();
    rasters_.clear();
    page_ = clip_ = page;
    scale_ = coarse ? std::min(scale, 1.0) : scale;
    for (const Shape& shape : picture) {
        if (!std::holds_alternative<Mesh>(shape)) finish_mesh();
        std::visit([this](const auto& s) { add(s); }, shape);
    }
    finish_mesh();
}

void Drawing::put(double value) {
    const auto narrow = static_cast<float>(value);
    std::uint32_t bits = 0;
    std::memcpy(&bits, &narrow, sizeof bits);
    words_.push_back(bits);
}

void Drawing::put(const Colour& c) {
    words_.push_back(static_cast<std::uint32_t>(c.r << 24 | c.g << 16 | c.b << 8 | c.a));
}

void Drawing::put(const std::vector<Vec2>& points) {
    words_.push_back(static_cast<std::uint32_t>(points.size()));
    for (const Vec2& point : points) put(point.x()), put(point.y());
}

void Drawing::add(const Line& shape) {
    if (shape.colour.a == 0 || shape.points.size() < 2) return;
    words_.push_back(line);
    put(shape.colour);
    put(shape.width);
    words_.push_back(shape.closed ? 1 : 0);
    put(shape.points);
}

void Drawing::add(const Polygon& shape) {
    if (shape.colour.a == 0) return;
    words_.push_back(polygon);
    put(shape.colour);
    put(shape.points);
}

void Drawing::add(const Disc& shape) {
    if (shape.colour.a == 0) return;
    words_.push_back(disc);
    put(shape.colour);
    put(shape.centre.x()), put(shape.centre.y()), put(shape.radius);
}

void Drawing::add(const Text& shape) {
    if (shape.words.empty() || shape.colour.a == 0) return;
    words_.push_back(text);
    put(shape.colour);
    words_.push_back(static_cast<std::uint32_t>(shape.face));
    put(shape.size), put(shape.at.x()), put(shape.at.y());
    words_.push_back(static_cast<std::uint32_t>(shape.align));
    put(shape.turned_rad), put(shape.outline);
    put(shape.outline_colour);
    texts_.push_back(shape.words);
    words_.push_back(address(texts_.back().data()));
    words_.push_back(static_cast<std::uint32_t>(texts_.back().size()));
}

void Drawing::add(const Clip& shape) {
    words_.push_back(clip);
    clip_ = shape.box.w > 0 && shape.box.h > 0 ? shape.box : page_;
    put(clip_.x), put(clip_.y), put(clip_.w), put(clip_.h);
}

void Drawing::add(const Mesh& shape) {
    triangles_.insert(triangles_.end(), shape.vertices.begin(), shape.vertices.end());
}

void Drawing::finish_mesh() {
    const double right = std::min(clip_.right(), page_.right());
    const double bottom = std::min(clip_.bottom(), page_.bottom());
    const double x = std::max(clip_.x, page_.x), y = std::max(clip_.y, page_.y);
    Raster raster = rasterised(triangles_, {x, y, right - x, bottom - y}, scale_);
    triangles_.clear();
    if (raster.pixels.empty()) return;
    words_.push_back(image);
    for (const int number : {raster.x, raster.y, raster.w, raster.h})
        words_.push_back(static_cast<std::uint32_t>(number));
    words_.push_back(address(raster.pixels.data()));
    put(scale_);
    rasters_.push_back(std::move(raster));
}

}  // namespace dewtrail
