#include "viewer/web/svg_pen.hpp"

#include <fmt/format.h>

#include <numbers>
#include <string>
#include <utility>
#include <variant>

namespace dewtrail {
namespace {

std::string escaped(const std::string& words) {
    std::string text;
    for (const char c : words) {
        if (c == '&')
            text += "&amp;";
        else if (c == '<')
            text += "&lt;";
        else
            text += c;
    }
    return text;
}

std::string ink(const char* attribute, const Colour& c) {
    return fmt::format(" {}=\"rgba({},{},{},{:.3g})\"", attribute, c.r, c.g, c.b, c.a / 255.0);
}

std::string places(const Points& points) {
    std::string text;
    for (const Vec2& at : points) text += fmt::format("{:.2f},{:.2f} ", at.x(), at.y());
    return text;
}

const char* font_of(Face face) {
    switch (face) {
        case Face::book:
            return "font-family=\"Book\"";
        case Face::book_italic:
            return "font-family=\"Book\" font-style=\"italic\"";
        case Face::book_bold:
            return "font-family=\"Book\" font-weight=\"700\"";
        case Face::sans:
            return "font-family=\"Sans\"";
        case Face::sans_bold:
            return "font-family=\"Sans\" font-weight=\"700\"";
    }
    return "";
}

/// Writes shapes one after the other. A clip is an inner svg, which shows nothing outside its box.
class SvgPen {
  public:
    std::string take() {
        close_clip();
        return std::move(out_);
    }

    void operator()(const Line& line) {
        if (line.colour.a == 0 || line.points.size() < 2) return;
        out_ += fmt::format("<{} fill=\"none\"{} stroke-width=\"{:.2f}\" points=\"{}\"/>",
                            line.closed ? "polygon" : "polyline", ink("stroke", line.colour),
                            line.width, places(line.points));
    }
    void operator()(const Polygon& polygon) {
        if (polygon.colour.a == 0) return;
        out_ += fmt::format("<polygon{} points=\"{}\"/>", ink("fill", polygon.colour),
                            places(polygon.points));
    }
    void operator()(const Disc& disc) {
        if (disc.colour.a == 0) return;
        out_ +=
            fmt::format("<circle{} cx=\"{:.2f}\" cy=\"{:.2f}\" r=\"{:.2f}\"/>",
                        ink("fill", disc.colour), disc.centre.x(), disc.centre.y(), disc.radius);
    }
    void operator()(const Mesh&) {}
    void operator()(const Text& text) {
        if (text.words.empty() || text.colour.a == 0) return;
        constexpr const char* anchors[] = {"start", "middle", "end"};
        out_ += fmt::format(
            "<text {} font-size=\"{:.2f}\" text-anchor=\"{}\" x=\"{:.2f}\" y=\"{:.2f}\"{}",
            font_of(text.face), text.size, anchors[static_cast<int>(text.align)], text.at.x(),
            text.at.y(), ink("fill", text.colour));
        if (text.turned_rad != 0)
            out_ += fmt::format(" transform=\"rotate({:.3f} {:.2f} {:.2f})\"",
                                text.turned_rad * 180 / std::numbers::pi, text.at.x(), text.at.y());
        if (text.outline > 0)
            out_ += fmt::format("{} stroke-width=\"{:.2f}\" paint-order=\"stroke\"",
                                ink("stroke", text.outline_colour), 2 * text.outline);
        out_ += ">" + escaped(text.words) + "</text>";
    }
    void operator()(const Clip& clip) {
        close_clip();
        const Rect& box = clip.box;
        if (box.w <= 0) return;
        clipped_ = true;
        out_ += fmt::format(
            "<svg x=\"{0:.2f}\" y=\"{1:.2f}\" width=\"{2:.2f}\" height=\"{3:.2f}\" "
            "viewBox=\"{0:.2f} {1:.2f} {2:.2f} {3:.2f}\">",
            box.x, box.y, box.w, box.h);
    }

  private:
    void close_clip() {
        if (clipped_) out_ += "</svg>";
        clipped_ = false;
    }

    std::string out_;
    bool clipped_ = false;
};

}  // namespace

std::string svg_of(const Sheet& sheet, std::size_t page) {
    SvgPen pen;
    for (const Shape& shape : sheet.pages.at(page)) std::visit(pen, shape);
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.2f}\" "
        "height=\"{1:.2f}\" viewBox=\"0 0 {0:.2f} {1:.2f}\" "
        "stroke-linecap=\"round\" stroke-linejoin=\"round\">{2}</svg>",
        sheet.size.x(), sheet.size.y(), pen.take());
}

}  // namespace dewtrail
