#include "viewer/window/painter.hpp"

#include <SFML/Graphics/Text.hpp>
#include <cmath>
#include <numbers>

namespace dewtrail {
namespace {

sf::Color sfml(const Colour& c) {
    return {c.r, c.g, c.b, c.a};
}

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

}  // namespace

void Painter::paint(sf::RenderTarget& target, const Picture& picture) {
    for (const Shape& shape : picture) {
        if (const auto* text = std::get_if<Text>(&shape)) {
            flush(target);
            write(target, *text);
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
        }
    }
    flush(target);
    clip_to(target, {});
}

void Painter::flush(sf::RenderTarget& target) {
    drawn_.clear();
    for (const Mesh::Vertex& v : triangles_)
        drawn_.push_back(
            {{static_cast<float>(v.at.x()), static_cast<float>(v.at.y())}, sfml(v.colour)});
    if (!drawn_.empty()) target.draw(drawn_.data(), drawn_.size(), sf::Triangles);
    triangles_.clear();
}

void Painter::write(sf::RenderTarget& target, const Text& text) const {
    if (text.words.empty()) return;
    const auto size = static_cast<unsigned>(std::max(1.0, std::round(text.size)));
    sf::Text drawn(sf::String::fromUtf8(text.words.begin(), text.words.end()),
                   fonts_.face(text.face), size);
    drawn.setFillColor(sfml(text.colour));
    const double width =
        text.align == Align::left ? 0 : fonts_.width(text.face, text.size, text.words);
    const double shift = text.align == Align::centre ? std::round(width / 2) : width;
    // SFML sets the baseline one character size below the top of a text.
    drawn.setOrigin(static_cast<float>(shift), static_cast<float>(size));
    drawn.setPosition(
        static_cast<float>(text.turned_rad == 0 ? std::round(text.at.x()) : text.at.x()),
        static_cast<float>(text.turned_rad == 0 ? std::round(text.at.y()) : text.at.y()));
    drawn.setRotation(static_cast<float>(text.turned_rad * 180 / std::numbers::pi));
    if (text.outline > 0) {
        drawn.setOutlineColor(sfml(text.outline_colour));
        drawn.setOutlineThickness(static_cast<float>(text.outline));
    }
    target.draw(drawn);
}

}  // namespace dewtrail
