#pragma once

#include <string>
#include <variant>
#include <vector>

#include "viewer/paper/page.hpp"

/// What stands on a printed page, and whether it can be read.
namespace dewtrail::printed {

template <class Kind>
std::vector<Kind> all_of(const Picture& picture) {
    std::vector<Kind> found;
    for (const Shape& shape : picture)
        if (const auto* kind = std::get_if<Kind>(&shape)) found.push_back(*kind);
    return found;
}

inline bool says(const Picture& page, const std::string& words) {
    for (const Text& text : all_of<Text>(page))
        if (text.words.find(words) != std::string::npos) return true;
    return false;
}

/// Where its letters stand: from the baseline to the height of a capital, about 0.7 of its size.
inline Rect letters_of(const Text& text, const TextWidth& width) {
    const double w = width(text.face, text.size, text.words);
    const double left = text.align == Align::left ? 0 : text.align == Align::centre ? w / 2 : w;
    return {text.at.x() - left, text.at.y() - 0.7 * text.size, w, 0.7 * text.size};
}

/// The first two texts that lie on each other or beyond the margins, or nothing.
inline std::string overprinted(const Picture& page, Paper paper) {
    const Look look = paper_look(Units{});
    const Vec2 size = size_of(paper);
    const Rect inside = Rect{0, 0, size.x(), size.y()}.grown(-page_margin + 2);
    const auto texts = all_of<Text>(page);
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Rect box = letters_of(texts[i], look.width);
        if (!inside.holds(box)) return texts[i].words + " | margin";
        for (std::size_t k = 0; k < i; ++k)
            if (box.meets(letters_of(texts[k], look.width)))
                return texts[i].words + " | " + texts[k].words;
    }
    return "";
}

}  // namespace dewtrail::printed
