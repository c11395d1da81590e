#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "greens/contours.hpp"
#include "greens/units.hpp"
#include "viewer/paper/pen.hpp"

/// What all pictures of a green from above share: the page and where a place of the green lies on
/// it, grass, labels that keep out of each other's way, contours that carry figures, holes, title
/// and scale. Up the plan is upward.
namespace dewtrail {

/// A word, and where its baseline begins.
struct PageLabel {
    std::string text;
    Lettering lettering;
    Vec2 baseline_left{0, 0};
};

/// What is on the page already, so that nothing is written across it.
class PageRoom {
  public:
    explicit PageRoom(const Vec2& page) : page_(page) {}

    bool is_on_page(const Box& box) const;
    bool is_free(const Box& box) const;
    void take(const Box& box) { taken_.push_back(box); }

    /// Right, left, above or below a mark: the first that is free, else the last that is on the
    /// page. The place is taken.
    PageLabel label_by(Pen& pen, const Vec2& mark, double clear, const std::string& text,
                       const Lettering& lettering);

  private:
    Vec2 page_;
    std::vector<Box> taken_;
};

class PlanPage {
  public:
    static constexpr double hole_radius = 10;

    /// 1280 units wide. Surface and outline must outlive it.
    PlanPage(const Surface& surface, const Outline& outline, const Units& units);

    const Vec2& size() const { return size_; }
    double per_m() const { return per_m_; }
    Vec2 at(const Vec2& place) const;
    std::vector<Vec2> at(const std::vector<Vec2>& places) const;
    const Box& green_m() const { return green_m_; }
    PageRoom& room() { return room_; }

    /// Unit vector on the page; none where the green is as good as level.
    std::optional<Vec2> fall_at(const Vec2& place) const;

    void draw_grass(Pen& pen) const;
    void draw_edge(Pen& pen) const;

    /// Bold lines with their figures let into them where there is room (no figure for an empty
    /// one), thin ones between.
    void draw_contours(Pen& pen, const std::vector<ContourLine>& bold,
                       const std::vector<ContourLine>& thin,
                       const std::function<std::string(double height)>& figure);

    /// Keeps the hole and its fall line free of words.
    void take_hole(const Vec2& place);
    void draw_hole(Pen& pen, const Vec2& place) const;
    /// A hairline with a bar at its upper end and a drop at its lower.
    void draw_fall_line(Pen& pen, const Vec2& place) const;

    void write_title(Pen& pen, const std::string& name, const std::string& below) const;
    /// A scale, and the caution.
    void draw_foot(Pen& pen) const;

  private:
    void draw_dew(Pen& pen) const;
    std::optional<PageLabel> label_on(Pen& pen, const std::vector<Vec2>& points,
                                      const std::string& text);
    bool is_well_inside(const Vec2& point) const;
    void leave_gaps(Pen& pen, const std::vector<PageLabel>& labels) const;

    const Surface& surface_;
    const Outline& outline_;
    Units units_;
    Box green_m_;
    double per_m_ = 1;
    Vec2 size_, middle_;
    PageRoom room_;
};

}  // namespace dewtrail
