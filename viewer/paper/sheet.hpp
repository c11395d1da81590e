#pragma once

#include <string>
#include <vector>

#include "viewer/picture/layout.hpp"
#include "viewer/picture/picture.hpp"

/// Printed pages. A unit of a page is 1/96 in, so a page is true to scale wherever it is printed
/// at its own size.
namespace dewtrail {

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
    Paper paper = Paper::a4;
    std::vector<Picture> pages;
};

/// How things look on paper: the colours of the dew on white, everything at `scale` of its size on
/// the screen, texts measured as they are set.
Look paper_look(const Units& units, double scale = 0.8);

/// The whole file's bytes; nothing is written. std::runtime_error if cairo fails.
std::string sheet_pdf(const Sheet& sheet);
std::string sheet_svg(const Sheet& sheet, std::size_t page);
/// 192 pixels to the inch.
std::string sheet_png(const Sheet& sheet, std::size_t page);

}  // namespace dewtrail
