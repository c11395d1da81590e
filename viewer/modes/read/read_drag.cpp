#include <algorithm>
#include <cmath>
#include <numbers>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/text/clock_and_angle.hpp"

/// Marks on the green and the edge of the note, taken hold of.
namespace dewtrail {
namespace {

constexpr double mark_hit_u = 22;
constexpr double five_minutes_h = 1.0 / 12;
constexpr double slope_per_unit = 0.02 / 98;  // the bar end: 98 u are worth 2 %

}  // namespace

std::optional<Vec2> ReadMode::green_at(const Vec2& px) const {
    if (!view_.eye) return view_.plan.to_green(px);
    const Vec2& hole = setup_.green ? setup_.hole : Vec2(Vec2::Zero());
    return view_.eye_camera.to_green(px, solved_.putt.surface->at(hole.x(), hole.y()).h);
}

std::optional<Vec2> ReadMode::px_of(const Vec2& green) const {
    if (!view_.eye) return view_.plan.to_px(green);
    return view_.eye_camera.to_px(on_ground(solved_.putt, green));
}

MarkId ReadMode::mark_at(const Vec2& px) const {
    if (!pane().contains(px) || room_) return MarkId::none;
    const double reach = shell_.reach(shell_.layout().u(mark_hit_u));
    MarkId best = MarkId::none;
    double nearest = reach;
    const auto look = [&](MarkId id, const std::optional<Vec2>& at, double share) {
        if (!at || (*at - px).norm() * share >= nearest) return;
        nearest = (*at - px).norm() * share;
        best = id;
    };
    // What can be dragged wins over what can only be looked at.
    for (const MarkId id : {MarkId::aim, MarkId::apex, MarkId::start_spot, MarkId::stand_in})
        look(id, place_of(plan_.marks, id), 1.6);
    look(MarkId::hole, plan_.marks.hole, 1);
    look(MarkId::rolling, plan_.marks.rolling, 1);
    look(MarkId::ball, plan_.marks.ball, 1);
    if (has_fall_line()) {
        look(MarkId::drop, plan_.drop, 1);
        look(MarkId::bar, plan_.bar, 1);
    }
    return best;
}

std::optional<Drag> ReadMode::grab(const Grip& grip) {
    if (grip.target) {
        if (grip.target->what != What::note_edge) return std::nullopt;
        Drag drag;
        if (is_small(shell_.layout()))
            drag.taken = [this] { show_note(!note_shown_); };
        else
            drag.move = [this](const Vec2& px, Held) { drag_note_edge(px); };
        return drag;
    }
    const MarkId mark = mark_at(grip.px);
    if (grip.button == Button::right) {
        if (mark != MarkId::ball) return std::nullopt;
        Drag mirrored;
        mirrored.taken = [this] { change([](Setup& s) { mirror(s); }, "mirror"); };
        return mirrored;
    }
    if (grip.button == Button::middle)
        return !view_.eye && !room_ && pane().contains(grip.px) ? std::optional(pan(grip.px))
                                                                : std::nullopt;
    const bool draggable = mark == MarkId::ball || mark == MarkId::rolling ||
                           mark == MarkId::drop || mark == MarkId::bar ||
                           (mark == MarkId::hole && setup_.green);
    if (mark == MarkId::hole && !draggable) {
        Drag stays;
        stays.taken = [this] {
            shell_.say("Here the ball moves round the hole. On a green the hole moves: Ctrl O.");
            shell_.act("message");
        };
        return stays;
    }
    return draggable ? std::optional(hold(mark, grip.px)) : std::nullopt;
}

Drag ReadMode::pan(const Vec2& from) {
    Drag drag;
    const PlanCamera start = view_.plan;
    drag.move = [this, start, from](const Vec2& px, Held) {
        view_.plan = start;
        view_.plan.centre_m -= view_.plan.to_green(px) - view_.plan.to_green(from);
        view_.zoomed = true;
    };
    drag.taken_back = [this, start] { view_.plan = start; };
    return drag;
}

/// The fall line turns by as much as the drop moves round its middle; the bar lifts the slope.
Drag ReadMode::hold(MarkId mark, const Vec2& from) {
    Drag drag;
    drag.mark = mark;
    if (mark != MarkId::rolling)
        drag.focus = FocusStop::on(mark == MarkId::bar ? MarkId::drop : mark);
    drag.taken = [this] {
        if (view_.t < 1) view_.plan = view_.to;
        view_.t = ease_.t = 1;
    };
    drag.let_go = [this, mark] {
        if (mark == MarkId::ball) hint_done(0);
        if (mark == MarkId::drop || mark == MarkId::bar) hint_done(1);
    };
    if (mark == MarkId::ball)
        drag.move = [this](const Vec2& px, Held held) { drag_ball(px, held); };
    if (mark == MarkId::hole)
        drag.move = [this](const Vec2& px, Held) {
            if (const auto at = green_at(px))
                change([&](Setup& s) { place_hole(s, *at); }, "drag-hole");
        };
    if (mark == MarkId::rolling)
        drag.move = [this](const Vec2& px, Held) {
            shell_.playback.running = false;
            shell_.playback.seek(time_near(px));
            shell_.act("scrub");
        };
    if (mark == MarkId::drop)
        drag.move = [this, from, middle = Vec2((plan_.bar + plan_.drop) / 2),
                     clock = bearing_hours(setup_)](const Vec2& px, Held) {
            const auto turn = [&](const Vec2& p) {
                return std::atan2(p.y() - middle.y(), p.x() - middle.x());
            };
            const double by = std::remainder(turn(px) - turn(from), 2 * std::numbers::pi);
            const double to = snapped(clock - by * hours_per_rad, five_minutes_h);
            change([&](Setup& s) { set_clock(s, on_the_dial(to)); }, "drag-drop");
        };
    if (mark == MarkId::bar)
        drag.move = [this, from, slope = solved_.putt.slope_at_hole()](const Vec2& px, Held held) {
            const double by = (from.y() - px.y()) / shell_.layout().scale * slope_per_unit;
            const double to = snapped(slope + by, held.shift ? 0.001 : 0.0025);
            change([&](Setup& s) { set_slope(s, to); }, "drag-bar");
        };
    return drag;
}

void ReadMode::drag_ball(const Vec2& px, Held held) {
    const auto at = green_at(px);
    if (!at) return;
    if (setup_.green && !held.ctrl) {
        change([&](Setup& s) { place_ball(s, *at); }, "drag-ball");
        return;
    }
    const Vec2 hole = setup_.green ? setup_.hole : Vec2(Vec2::Zero());
    const Vec2 from = *at - hole;
    if (from.norm() < 0.02) return;
    if (held.ctrl) {
        const double step = shell_.units().metric ? 0.01 : metres_per_inch;
        return change([&](Setup& s) { set_distance(s, snapped(from.norm(), step)); },
                      "drag-distance");
    }
    const double hours = clock_of_direction(from);
    const double clock = held.shift ? hours : snapped(hours, five_minutes_h);
    change([&](Setup& s) { set_clock(s, on_the_dial(clock)); }, "drag-ball");
}

/// Past the middle of where it lies, or would lie, the note goes or comes.
void ReadMode::drag_note_edge(const Vec2& px) {
    const Layout with = dewtrail::lay_out(shell_.appearance(), true, rows_shown());
    const Vec2 middle = with.note.centre();
    show_note(with.note_below ? px.y() < middle.y() : px.x() < middle.x());
}

/// The moment at which the ball is seen nearest to a pixel.
double ReadMode::time_near(const Vec2& px) const {
    constexpr double step_s = 1.0 / 120;
    double best = shell_.playback.time_s, nearest = HUGE_VAL;
    for (double t = 0; t <= shell_.playback.end_s; t += step_s) {
        const auto at = px_of(trail_.at(t).at);
        if (!at || (*at - px).norm() >= nearest) continue;
        nearest = (*at - px).norm();
        best = t;
    }
    return best;
}

}  // namespace dewtrail
