#pragma once

#include <utility>
#include <vector>

#include "viewer/picture/layout.hpp"
#include "viewer/picture/picture.hpp"

/// Printed pages as pictures: how large, in which colours. A unit is 1/96 in, so a page is true to
/// scale wherever it is printed at its own size.
namespace dewtrail {

/// On paper meshes are left out: they are grass, and ink.
enum class Meshes { drawn, left_out };

inline constexpr double units_per_inch = 96;
inline constexpr double units_per_m = units_per_inch / 0.0254;
inline constexpr double units_per_mm = units_per_m / 1000;
inline constexpr double page_margin = 15 * units_per_mm;

enum class Paper {
    a4,
    letter,
    /// The largest paper with an image of a putting green that may be used during a round: 4¼ by 7
    /// in (Rules of Golf, Interpretation 4.3a/1, from 1 January 2019).
    pocket
};
Vec2 size_of(Paper paper);

/// The largest scale of such an image: 3/8 in to 5 yd, 1 : 480 (the same Interpretation).
inline constexpr int round_scale = 480;

/// Pages of one size.
struct Sheet {
    /// To be printed: without grass.
    Sheet(Paper paper, std::vector<Picture> of) : size(size_of(paper)), pages(std::move(of)) {}
    /// To be looked at on a screen.
    Sheet(const Vec2& units, Picture picture)
        : size(units), pages{std::move(picture)}, meshes(Meshes::drawn) {}

    Vec2 size;  ///< units
    std::vector<Picture> pages;
    Meshes meshes = Meshes::left_out;
};

/// How things look on paper: the colours of the dew on white, everything at `scale` of its size on
/// the screen, texts measured as they are set.
Look paper_look(const Units& units, double scale = 0.8);
/// How they look in a picture that is `layout` large.
Look screen_look(const Units& units, Theme theme, const Layout& layout);

/// The text, set smaller where it would be wider than that.
Text fitted(Text text, double width, const Look& look);

/// Measures with the fonts that pages are set in, unhinted. Whoever makes the pages has it: cairo
/// (picture_painter.cpp), or a browser (viewer/web).
TextWidth paper_width();

}  // namespace dewtrail
