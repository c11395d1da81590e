#include "viewer/picture/widgets/whole_lines.hpp"

namespace dewtrail {

void keep_whole_lines(Picture& picture, const Rect& panel) {
    std::erase_if(picture, [&](const Shape& shape) {
        const auto* text = std::get_if<Text>(&shape);
        return text && (text->at.y() - 0.72 * text->size < panel.y ||
                        text->at.y() + 0.12 * text->size > panel.bottom());
    });
}

void keep_whole(Picture& picture, Targets& targets, const Rect& panel) {
    keep_whole_lines(picture, panel);
    std::erase_if(targets, [&](const Target& t) {
        const bool at_large =
            t.what == What::note || t.what == What::row || t.what == What::note_edge;
        return !at_large && (t.hit.bottom() > panel.bottom() || t.hit.y < panel.y);
    });
}

}  // namespace dewtrail
