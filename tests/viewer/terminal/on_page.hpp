#pragma once

#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "tests/viewer/picture/shapes.hpp"
#include "viewer/paper/sheet.hpp"
#include "viewer/picture/picture.hpp"

/// What tests look for on a printed page.
namespace dewtrail {

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

/// Whether a straight line runs through a box.
inline bool runs_through(const Rect& box, const Vec2& from, const Vec2& to) {
    for (int i = 0; i <= 200; ++i)
        if (box.contains(from + i / 200.0 * (to - from))) return true;
    return false;
}

/// The first word that a line for which `is` holds runs through, or nothing.
template <class Is>
std::string cut_word(const Picture& page, const Is& is) {
    const Look look = paper_look(Units{});
    for (const Line& line : all_of<Line>(page)) {
        if (!is(line)) continue;
        std::vector<Vec2> points(line.points.begin(), line.points.end());
        if (line.closed) points.push_back(points.front());
        for (const Text& text : all_of<Text>(page))
            for (std::size_t i = 1; i < points.size(); ++i)
                if (runs_through(letters_of(text, look.width), points[i - 1], points[i]))
                    return text.words;
    }
    return "";
}

/// All words of a page, line after line.
inline std::string all_words(const Picture& page) {
    std::string all;
    for (const Text& text : all_of<Text>(page)) all += text.words + " ";
    return all;
}

/// 'drawn 1 : 160, sideways ×2'.
inline int scale_of(const Picture& page) {
    for (const Text& text : all_of<Text>(page))
        if (text.words.starts_with("drawn 1 : ")) return std::stoi(text.words.substr(10));
    return 0;
}

}  // namespace dewtrail
