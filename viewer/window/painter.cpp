#include "viewer/window/painter.hpp"

#include <SFML/Graphics/Transformable.hpp>
#include <SFML/System/Utf.hpp>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace dewtrail {
namespace {

/// Clips by a view of just that box: triangles end at the viewport. The scissor test would also cut
/// SFML's own copying of glyph pages.
void clip_to(sf::RenderTarget& target, const Rect& box) {
    const sf::Vector2f size(target.getSize());
    sf::FloatRect area(0, 0, size.x, size.y);
    if (box.w > 0 && box.h > 0)
        area = {static_cast<float>(box.x), static_cast<float>(box.y), static_cast<float>(box.w),
                static_cast<float>(box.h)};
    sf::View view(area);
    view.setViewport(
        {area.left / size.x, area.top / size.y, area.width / size.x, area.height / size.y});
    target.setView(view);
}

unsigned pixels_of(const Text& text) {
    return static_cast<unsigned>(std::max(1.0, std::round(text.size)));
}

/// Round what is drawn, and a pixel more: where two edges meet, either may paint the pixel.
Rect box_of(const std::vector<sf::Vertex>& vertices) {
    sf::Vector2f least = vertices.front().position, most = least;
    for (const sf::Vertex& v : vertices) {
        least = {std::min(least.x, v.position.x), std::min(least.y, v.position.y)};
        most = {std::max(most.x, v.position.x), std::max(most.y, v.position.y)};
    }
    const sf::Vector2f size = most - least;
    return Rect{least.x, least.y, size.x, size.y}.grown(1);
}

Rect round_both(const Rect& a, const Rect& b) {
    const double x = std::min(a.x, b.x), y = std::min(a.y, b.y);
    return {x, y, std::max(a.right(), b.right()) - x, std::max(a.bottom(), b.bottom()) - y};
}

/// Of the rectangles that panels are made of: nothing shows through, not even at their edges.
bool is_opaque_rectangle(const std::vector<sf::Vertex>& vertices) {
    return vertices.size() == 6 &&
           std::all_of(vertices.begin(), vertices.end(),
                       [](const sf::Vertex& v) { return v.color.a == 255; });
}

/// From the text's own frame, the baseline one size below its top as SFML has it, to the window.
sf::Transform place_of(const Text& text, const Fonts& fonts) {
    const double width =
        text.align == Align::left ? 0 : fonts.width(text.face, text.size, text.words);
    const double shift = text.align == Align::centre ? std::round(width / 2) : width;
    const bool upright = text.turned_rad == 0;
    sf::Transformable place;
    place.setOrigin(static_cast<float>(shift), static_cast<float>(pixels_of(text)));
    place.setPosition(static_cast<float>(upright ? std::round(text.at.x()) : text.at.x()),
                      static_cast<float>(upright ? std::round(text.at.y()) : text.at.y()));
    place.setRotation(static_cast<float>(text.turned_rad * 180 / std::numbers::pi));
    return place.getTransform();
}

/// A letter's rectangle of its page, a pixel more on every side.
void add_letter(std::vector<sf::Vertex>& out, const sf::Glyph& glyph, float x, float baseline,
                const sf::Color& colour) {
    const sf::FloatRect to(x + glyph.bounds.left - 1, baseline + glyph.bounds.top - 1,
                           glyph.bounds.width + 2, glyph.bounds.height + 2);
    const sf::FloatRect from(sf::IntRect(glyph.textureRect.left - 1, glyph.textureRect.top - 1,
                                         glyph.textureRect.width + 2,
                                         glyph.textureRect.height + 2));
    const auto corner = [&](float right, float down) {
        out.emplace_back(
            sf::Vector2f(to.left + right * to.width, to.top + down * to.height), colour,
            sf::Vector2f(from.left + right * from.width, from.top + down * from.height));
    };
    corner(0, 0), corner(1, 0), corner(0, 1);
    corner(0, 1), corner(1, 0), corner(1, 1);
}

}  // namespace

bool Painter::Batch::meets(const Rect& box) const {
    return all.meets(box) && std::any_of(boxes.begin(), boxes.end(),
                                         [&](const Rect& other) { return other.meets(box); });
}

void Painter::paint(sf::RenderTarget& target, const Picture& picture) {
    for (const Shape& shape : picture) {
        if (const auto* text = std::get_if<Text>(&shape)) {
            write(*text);
        } else if (const auto* clip = std::get_if<Clip>(&shape)) {
            flush(target);
            clip_to(target, clip->box);
        } else {
            std::visit(
                [this](const auto& s) {
                    using Kind = std::decay_t<decltype(s)>;
                    if constexpr (!std::is_same_v<Kind, Text> && !std::is_same_v<Kind, Clip>)
                        add_triangles(triangles_, s);
                },
                shape);
            add_shape(std::holds_alternative<Mesh>(shape));
        }
    }
    flush(target);
    clip_to(target, {});
}

void Painter::add_shape(bool mesh) {
    for (const Mesh::Vertex& v : triangles_)
        drawn_.emplace_back(
            sf::Vector2f(static_cast<float>(v.at.x()), static_cast<float>(v.at.y())),
            sfml(v.colour));
    triangles_.clear();
    add_drawn(nullptr, mesh && is_opaque_rectangle(drawn_));
}

void Painter::write(const Text& text) {
    if (text.words.empty()) return;
    const auto outline = static_cast<float>(text.outline);
    if (outline > 0) add_letters(text, outline, text.outline_colour);
    add_letters(text, 0, text.colour);
    const sf::Transform place = place_of(text, fonts_);
    for (sf::Vertex& v : drawn_) v.position = place.transformPoint(v.position);
    add_drawn(&fonts_.face(text.face).getTexture(pixels_of(text)), false);
}

/// Side by side from the left, as SFML sets them.
void Painter::add_letters(const Text& text, float outline, const Colour& colour) {
    const sf::Font& font = fonts_.face(text.face);
    const unsigned size = pixels_of(text);
    float x = 0;
    sf::Uint32 before = 0, letter = 0;
    for (auto at = text.words.begin(); at != text.words.end(); before = letter) {
        at = sf::Utf8::decode(at, text.words.end(), letter);
        x += font.getKerning(before, letter, size);
        if (letter != ' ')  // SFML's outlines lie that much to the left, and higher
            add_letter(drawn_, font.getGlyph(letter, size, false, outline), x - outline,
                       static_cast<float>(size) - outline, sfml(colour));
        x += font.getGlyph(letter, size, false).advance;
    }
}

void Painter::add_drawn(const sf::Texture* texture, bool opaque) {
    if (drawn_.empty()) return;
    const Rect box = box_of(drawn_);
    Batch& batch = batch_for(texture, opaque, box);
    batch.vertices.insert(batch.vertices.end(), drawn_.begin(), drawn_.end());
    batch.all = batch.boxes.empty() ? box : round_both(batch.all, box);
    batch.boxes.push_back(box);
    drawn_.clear();
}

Painter::Batch& Painter::batch_for(const sf::Texture* texture, bool opaque, const Rect& box) {
    for (std::size_t i = used_; i-- > 0;) {
        if (batches_[i].texture == texture && batches_[i].opaque == opaque) return batches_[i];
        if (batches_[i].meets(box)) break;
    }
    if (used_ == batches_.size()) batches_.emplace_back();
    Batch& batch = batches_[used_++];
    batch.texture = texture;
    batch.opaque = opaque;
    return batch;
}

void Painter::flush(sf::RenderTarget& target) {
    for (std::size_t i = 0; i < used_; ++i) {
        Batch& batch = batches_[i];
        sf::RenderStates states(batch.texture);
        if (batch.opaque) states.blendMode = sf::BlendNone;
        target.draw(batch.vertices.data(), batch.vertices.size(), sf::Triangles, states);
        batch.vertices.clear(), batch.boxes.clear();
    }
    used_ = 0;
}

}  // namespace dewtrail
