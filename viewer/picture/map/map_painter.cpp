#include "viewer/picture/map/map_painter.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "viewer/picture/symbols.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double drop_share = 0.3;
constexpr double pulse_most = 0.25;
constexpr double near_together_u = 20;
constexpr double least_apex_u = 6;
// Of most pictures: enough that they need not be moved as they grow.
constexpr std::size_t usual_shapes = 512, usual_obstacles = 512;

}  // namespace

MapPainter::MapPainter(const Solved& s, const Trail& trail, const Rect& pane, const MapView& view,
                       const Look& look, Colour surface, std::vector<Label>& wishes)
    : s_(s),
      trail_(trail),
      pane_(pane),
      view_(view),
      look_(look),
      c_(look.colours),
      surface_(surface),
      wishes_(wishes) {}

void MapPainter::begin(const Projection& project) {
    out_.picture.reserve(usual_shapes);
    out_.taken.reserve(usual_obstacles);
    out_.marks = marks_of(s_, project, look_.u(near_together_u));
    if (view_.before)
        out_.marks = between(marks_of(*view_.before, project, look_.u(near_together_u)), out_.marks,
                             view_.eased);
    if (!view_.marks_shown) {
        // What is not shown is not pointed at, and no name keeps clear of it.
        Marks& m = out_.marks;
        m.apex.reset(), m.turn.reset(), m.aim.reset(), m.start_spot.reset();
        m.line_seen = false;
    }
    if (view_.taught && view_.marks_shown)
        breaks_ = placed_break_marks(s_, trail_, project, look_.units);
    if (const auto ball = rolling()) out_.marks.rolling = project(ball->at);
    add(Clip{pane_});
}

void MapPainter::make_room_for_turns() {
    Marks& m = out_.marks;
    const Read* read = s_.shown();
    if (read && read->apex && runs_straight(read->apex->offset_m, look_.units)) m.apex.reset();
    const auto fit = [&](std::optional<Vec2>& turn, double& size_u) {
        if (turn) size_u = std::min(usual_apex_u, room_beside_marks_u(m, *turn, look_));
        if (size_u >= least_apex_u) return;
        if (read && read->turns)
            size_u = least_apex_u;  // they are the read's two halves
        else
            turn.reset();
    };
    fit(m.apex, m.apex_u);
    fit(m.turn, m.turn_u);
}

void MapPainter::aim_marks(const Marks& marks, double hole_px) {
    if (!view_.marks_shown) {
        if (marks.stand_in)
            draw_dashed_ring(out_.picture, *marks.stand_in, hole_px, look_, surface_);
        return;
    }
    appear(Appearing::aim, [&] { draw_aim_marks(out_.picture, marks, hole_px, look_, surface_); });
    const auto turn = [&](const std::optional<Vec2>& at, const Vec2& away, double size_u) {
        if (at) draw_apex(out_.picture, *at, away, size_u, look_, surface_);
    };
    appear(Appearing::apex, [&] {
        turn(marks.apex, marks.apex_side, marks.apex_u);
        turn(marks.turn, marks.turn_side(), marks.turn_u);
    });
}

std::optional<RollingBall> MapPainter::rolling() const {
    if (trail_.empty() || view_.time_s <= 0) return std::nullopt;
    const Vec2 at = trail_.at(view_.time_s).at;
    if (!trail_.holed() || view_.time_s < trail_.end_s()) {
        const double sunk = trail_.sunk(view_.time_s);
        return RollingBall{at, 1 - drop_share * sunk, sunk};
    }
    if (trail_.sunk(trail_.end_s()) > 0) return std::nullopt;  // the roll itself has shown the drop
    if (view_.since_drop_s < 0 || view_.since_drop_s >= drop_s) return std::nullopt;
    const double fallen = view_.since_drop_s / drop_s;
    return RollingBall{at, 1 - drop_share * fallen, fallen};
}

double MapPainter::pulse() const {
    if (view_.since_drop_s < 0 || view_.since_drop_s >= pulse_s) return 1;
    return 1 + pulse_most * std::sin(std::numbers::pi * view_.since_drop_s / pulse_s);
}

std::vector<Rect> MapPainter::obstacles(const std::vector<Vec2>& whole_trail_px,
                                        bool with_line) const {
    std::vector<Rect> obstacles;
    obstacles.reserve(usual_obstacles);
    for (const Rect& box : mark_boxes(out_.marks, look_)) obstacles.push_back(box);
    add_obstacles(obstacles, whole_trail_px, look_.u(8));
    std::vector<Vec2> ends(2);
    const auto keep_off = [&](const Vec2& from, const Vec2& to, double half_width) {
        ends = {from, to};
        add_obstacles(obstacles, ends, half_width);
    };
    if (with_line && out_.marks.line_seen)
        keep_off(out_.marks.line_from, out_.marks.line_to, look_.u(4));
    for (const PlacedBreakMark& b : breaks_) keep_off(b.at, b.at, look_.u(8));
    if (view_.covered.h > 0) obstacles.push_back(view_.covered);
    obstacles.insert(obstacles.end(), view_.avoid.begin(), view_.avoid.end());
    return obstacles;
}

void MapPainter::place_names(const std::vector<Rect>& obstacles, bool one_line) {
    if (!view_.marks_shown) return;
    wishes_ = labels_for(s_, out_.marks, breaks_, one_line, view_, look_);
    out_.labels = place_labels(wishes_, obstacles, pane_, look_.width);
}

PlanPicture MapPainter::end(const std::vector<Vec2>& whole_trail_px) {
    for (const PlacedLabel& placed : out_.labels)
        out_.taken.push_back(placed.box.grown(look_.u(4)));
    const auto marks = mark_boxes(out_.marks, look_);
    out_.taken.insert(out_.taken.end(), marks.begin(), marks.end());
    add_obstacles(out_.taken, whole_trail_px, look_.u(8));
    add(Clip{});
    return std::move(out_);
}

}  // namespace dewtrail
