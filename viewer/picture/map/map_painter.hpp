#pragma once

#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/symbols.hpp"

namespace dewtrail {

/// The ball on its way, as it is drawn.
struct RollingBall {
    Vec2 at;           ///< green frame
    double share = 1;  ///< of its radius
    double dark = 0;   ///< 0 white, 1 as dark as the hole it drops into
};

/// What plan and eye have in common: the marks of a read, their names, and all that these keep
/// clear of. A view projects, and draws its lines in between.
class MapPainter {
  protected:
    MapPainter(const Solved& s, const Trail& trail, const Rect& pane, const MapView& view,
               const Look& look, Colour surface, std::vector<Label>& wishes);

    /// Marks find their places; from here on everything lies inside the pane.
    void begin(const Projection& project);
    /// Apex and turns keep clear of the marks beside them, which by now have their sizes: they are
    /// smaller, and an apex is not drawn where it has no room. A straight path has none.
    void make_room_for_turns();
    void add(Shape shape) { out_.picture.push_back(std::move(shape)); }
    void map_text(Text text) { draw_map_text(out_.picture, std::move(text), look_, surface_); }
    /// The bar across the start line: under the ball, which a long putt's plan brings close.
    void start_spot() {
        if (view_.marks_shown)
            appear(Appearing::line,
                   [&] { draw_start_spot(out_.picture, out_.marks, look_, surface_); });
    }
    void start_line() {
        if (view_.marks_shown)
            appear(Appearing::line, [&] { draw_start_line(out_.picture, s_, out_.marks, look_); });
    }
    /// What `draw` adds, as far as it has come into sight.
    template <class Draw>
    void appear(Appearing which, Draw draw) {
        const std::size_t from = out_.picture.size();
        draw();
        const double share = view_.appeared(which);
        if (share < 1) fade_shapes(out_.picture, from, share);
    }
    /// Aim spot, stand-in hole, apex; in the commit view the stand-in hole alone.
    void aim_marks(const Marks& marks, double hole_px);
    /// None before it starts, and once it lies in the hole.
    std::optional<RollingBall> rolling() const;
    /// The hole's pale ring while the ball drops: 1, or more.
    double pulse() const;
    /// Marks, trail, what a message covers, and the start line.
    std::vector<Rect> obstacles(const std::vector<Vec2>& whole_trail_px,
                                bool with_line = true) const;
    /// Names of the marks find their places where nothing else is.
    void place_names(const std::vector<Rect>& obstacles, bool one_line);
    /// Over the rings of attention, which would run through the words beside a mark.
    void draw_names() {
        draw_attention(out_.picture, out_.marks, view_, look_);
        appear(Appearing::aim, [&] { draw_labels(out_.picture, out_.labels, look_, surface_); });
    }
    /// The picture is done.
    PlanPicture end(const std::vector<Vec2>& whole_trail_px);

    const Solved& s_;
    const Trail& trail_;
    const Rect& pane_;
    const MapView& view_;
    const Look& look_;
    const Palette& c_;
    Colour surface_;
    std::vector<Label>& wishes_;
    std::vector<PlacedBreakMark> breaks_;
    PlanPicture out_;
};

}  // namespace dewtrail
