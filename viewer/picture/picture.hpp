#pragma once

#include <algorithm>
#include <array>
#include <functional>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "physics/surface/surface.hpp"
#include "viewer/picture/palette.hpp"

/// What is drawn, in window pixels (x right, y down), independent of how. A picture is a list in
/// drawing order; the window and pages paint it, tests look at it.
namespace dewtrail {

/// An axis-aligned rectangle, pixels.
struct Rect {
    double x = 0, y = 0, w = 0, h = 0;

    double right() const { return x + w; }
    double bottom() const { return y + h; }
    Vec2 centre() const { return {x + w / 2, y + h / 2}; }
    bool contains(const Vec2& p) const {
        return p.x() >= x && p.x() < right() && p.y() >= y && p.y() < bottom();
    }
    bool meets(const Rect& o) const {
        return x < o.right() && o.x < right() && y < o.bottom() && o.y < bottom();
    }
    bool holds(const Rect& o) const {
        return o.x >= x && o.y >= y && o.right() <= right() && o.bottom() <= bottom();
    }
    Rect grown(double by) const { return {x - by, y - by, w + 2 * by, h + 2 * by}; }
    bool operator==(const Rect&) const = default;
};

/// A list of which most are short: so many lie in the list itself, and only a longer one asks for
/// memory. A frame has hundreds of shapes.
template <class T, std::size_t few>
class ShortList {
  public:
    ShortList() = default;
    ShortList(std::initializer_list<T> list) : ShortList(list.begin(), list.end()) {}
    ShortList(const std::vector<T>& list) : ShortList(list.begin(), list.end()) {}
    ShortList(std::vector<T>&& list) {
        if (list.size() > few)
            many_ = std::move(list);
        else
            for (const T& item : list) push_back(item);
    }
    template <class It>
    ShortList(It from, It to) {
        if (static_cast<std::size_t>(to - from) > few)
            many_.assign(from, to);
        else
            for (; from != to; ++from) push_back(*from);
    }

    void reserve(std::size_t size) {
        if (size > few) many_.reserve(size);
    }
    void push_back(const T& item) {
        if (many_.empty() && count_ < few) {
            few_[count_++] = item;
            return;
        }
        if (many_.empty()) many_.assign(few_.begin(), few_.end());
        many_.push_back(item);
    }

    std::size_t size() const { return many_.empty() ? count_ : many_.size(); }
    bool empty() const { return size() == 0; }
    T* begin() { return many_.empty() ? few_.data() : many_.data(); }
    T* end() { return begin() + size(); }
    const T* begin() const { return many_.empty() ? few_.data() : many_.data(); }
    const T* end() const { return begin() + size(); }
    const T& operator[](std::size_t i) const { return begin()[i]; }
    const T& front() const { return *begin(); }
    const T& back() const { return end()[-1]; }

  private:
    std::array<T, few> few_{};
    std::size_t count_ = 0;  ///< of these
    std::vector<T> many_;    ///< all, where they are more
};

/// Of a dash, a mark, a rule.
using Points = ShortList<Vec2, 4>;

/// A line of even width.
struct Line {
    Points points;
    double width = 1;
    Colour colour;
    bool closed = false;
};

/// A convex polygon with a soft edge.
struct Polygon {
    Points points;
    Colour colour;
};

struct Disc {
    Vec2 centre;
    double radius = 1;
    Colour colour;
};

/// A triangle list with a colour at each corner: gradients, hill-shade, dew.
struct Mesh {
    struct Vertex {
        Vec2 at;
        Colour colour;
    };
    ShortList<Vertex, 6> vertices;  ///< of a rectangle
};

enum class Face { book, book_italic, book_bold, sans, sans_bold };
enum class Align { left, centre, right };

struct Text {
    std::string words;  ///< UTF-8, one line
    Face face = Face::sans;
    double size = 16;  ///< em, pixels
    Vec2 at;           ///< on the baseline
    Colour colour;
    Align align = Align::left;
    double turned_rad = 0;  ///< clockwise on the screen, about `at`
    double outline = 0;     ///< pixels, in outline_colour
    Colour outline_colour{};
};

/// Everything from here to the next Clip is drawn inside the box only; an empty box: everywhere.
struct Clip {
    Rect box;
};

using Shape = std::variant<Line, Polygon, Disc, Mesh, Text, Clip>;
using Picture = std::vector<Shape>;

/// How wide a text is: face, size in pixels, words. The window measures with its own fonts, pages
/// and tests as cairo sets them.
using TextWidth = std::function<double(Face, double, std::string_view)>;

/// Rect of a text as set: from ascender to descender.
Rect rect_of(const Text& text, const TextWidth& width);

/// Splits words into lines no wider than `most`: at a comma where that serves, else at a space, but
/// never between a figure and its per cent.
std::vector<std::string> wrapped(std::string_view words, Face face, double size, double most,
                                 const TextWidth& width);

/// The same; where no comma serves, the lines are as even in length as the words allow.
std::vector<std::string> wrapped_evenly(std::string_view words, Face face, double size, double most,
                                        const TextWidth& width);

void append(Picture& picture, Picture more);

/// Helpers that append one thing.
void add_rect(Picture& picture, const Rect& box, Colour colour);
void add_disc(Picture& picture, const Vec2& centre, double radius, Colour colour);
void add_ring(Picture& picture, const Vec2& centre, double radius, double width, Colour colour);
/// Dashes by arc length; `gap` 0: one solid line.
void add_dashes(Picture& picture, const std::vector<Vec2>& points, double dash, double gap,
                double width, Colour colour);
/// The line without what lies within `radius` of `gap`.
void add_line_with_gap(Picture& picture, const std::vector<Vec2>& points, const Vec2& gap,
                       double radius, double width, Colour colour);
/// What is left of a line where boxes lie on it, in order.
std::vector<std::vector<Vec2>> outside(const std::vector<Vec2>& line,
                                       const std::vector<Rect>& boxes);
/// Fades everything from `from` on.
void fade_shapes(Picture& picture, std::size_t from, double share);
void add_gradient(Picture& picture, const Rect& box, Colour top_left, Colour top_right,
                  Colour bottom_right, Colour bottom_left);
void add_rounded_rect(Picture& picture, const Rect& box, double radius, Colour colour);

/// A band between two edges, `shares` the opacity at each pair of points.
void add_ribbon(Picture& picture, const std::vector<Vec2>& left, const std::vector<Vec2>& right,
                const std::vector<double>& shares, Colour colour);

/// Opacity at a place of the pane for what fades toward its edge over so many pixels.
double edge_share(const Rect& pane, const Vec2& px, double reach_px);

/// Points round a circle, clockwise from the right.
std::vector<Vec2> circle_points(const Vec2& centre, double radius);
/// The same into what is there.
void set_circle(std::vector<Vec2>& points, const Vec2& centre, double radius);

}  // namespace dewtrail
