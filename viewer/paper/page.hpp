#pragma once

#include <string>
#include <vector>

#include "viewer/paper/paper.hpp"
#include "viewer/picture/camera.hpp"

namespace dewtrail {

/// The scales that pages are drawn to, 1 : N; putts too long for the first nine go on.
inline constexpr int scales[] = {12, 16, 20, 24, 30, 40, 48, 60, 80, 100, 120, 160, 200, 240, 320};

/// The largest scale, no larger than 1 : `least`, at which a drawing this large in metres fits a
/// place this large in units.
int fitting_scale(const Vec2& size_m, const Vec2& place, int least = 12);

/// The head of a page.
struct PageHead {
    std::string title, subtitle;
    int scale = 0;          ///< printed as 'drawn 1 : N'; 0: nothing is drawn
    bool name_line = true;  ///< Name and Date to fill in
    int sideways = 1;       ///< so many times wider across; printed beside the scale
};

/// One page being written: a head with a rule, a foot with the caution, and helpers that write
/// between them.
class Page {
  public:
    Page(Paper paper, const PageHead& head, const Units& units);

    /// What is left between head and foot, inside the margins.
    const Rect& body() const { return body_; }
    const Look& look() const { return look_; }
    Picture& picture() { return picture_; }
    Picture take() { return std::move(picture_); }

    void text(const Vec2& baseline, const std::string& words, Face face, double size,
              const Colour& colour, Align align = Align::left);
    /// Set smaller where it would be wider than `width`.
    void text_within(double width, const Vec2& baseline, const std::string& words, Face face,
                     double size, const Colour& colour);
    /// Wraps to the width; returns the baseline of the next line.
    double paragraph(const Vec2& baseline, const std::string& words, Face face, double size,
                     const Colour& colour, double width);
    void rule(double y, double width = 1.2);
    void hairline(double y, double x0, double x1);
    /// A row of boxes to tick, their right end at `right`.
    void boxes(double right, double baseline, int count);
    double width_of(const std::string& words, Face face, double size) const;

  private:
    void write_head(const PageHead& head);
    void write_small_head(const PageHead& head);
    void write_foot(bool small);

    Vec2 size_;
    Look look_;
    Rect body_;
    Picture picture_;
};

}  // namespace dewtrail
