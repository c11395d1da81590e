#include "viewer/web/drawing.hpp"

#include <algorithm>
#include <cstring>

namespace dewtrail {
namespace {

std::uint32_t address(const void* at) {
    return static_cast<std::uint32_t>(reinterpret_cast<std::uintptr_t>(at));
}

}  // namespace

void Drawing::draw(const Picture& picture, const Rect& page, double scale) {
    words_.clear();
    corners_.clear();
    texts_.clear();
    finished_ = 0;
    page_ = page;
    scale_ = scale;
    for (const Shape& shape : picture) std::visit([this](const auto& s) { add(s); }, shape);
    finish_triangles();
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

template <class Kind>
void Drawing::add(const Kind& shape) {
    shape_.clear();
    add_triangles(shape_, shape, 1 / scale_);
    add_corners(shape_);
}

void Drawing::add_corners(std::span<const Mesh::Vertex> corners) {
    for (const Mesh::Vertex& v : corners)
        corners_.push_back({static_cast<float>(v.at.x()), static_cast<float>(v.at.y()), v.colour});
}

void Drawing::finish_triangles() {
    if (corners_.size() == finished_) return;
    words_.push_back(triangles);
    words_.push_back(static_cast<std::uint32_t>(corners_.size() - finished_));
    finished_ = corners_.size();
}

void Drawing::add(const Text& shape) {
    if (shape.words.empty() || shape.colour.a == 0) return;
    finish_triangles();
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
    finish_triangles();
    words_.push_back(clip);
    const Rect& box = shape.box.w > 0 && shape.box.h > 0 ? shape.box : page_;
    put(box.x), put(box.y), put(box.w), put(box.h);
}

}  // namespace dewtrail
