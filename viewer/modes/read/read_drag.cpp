#include <algorithm>
#include <cmath>
#include <numbers>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/text/clock_and_angle.hpp"

namespace dewtrail {
namespace {

constexpr double five_minutes_h = 1.0 / 12;
constexpr double slope_per_unit = 0.02 / 98;  // the bar end: 98 u are worth 2 %

}  // namespace

void ReadMode::begin_drag(MarkId mark, const Vec2& px) {
    Drag drag;
    drag.mark = mark;
    drag.before = setup_;
    drag.from = px;
    drag.camera = camera_ = camera_t_ < 1 ? camera_to_ : camera_;
    drag.start_slope = solved_.putt.slope_at_hole();
    drag.start_clock = bearing_hours(setup_);
    drag.start_time_s = playback_.time_s;
    camera_t_ = ease_t_ = 1;
    drag_ = std::move(drag);
}

/// Rulers by their full length, the time line by its own.
void ReadMode::drag_field(const Vec2& px, Held held) {
    const Target target = *drag_->target;
    if (target.what == What::note_edge) return drag_note_edge(px);
    if (target.what == What::time_line) {
        playback_.running = false;
        playback_.seek(time_at(layout_, playback_, px.x()));
        drag_->moved = true;
        return;
    }
    const auto field = static_cast<Field>(target.index);
    const FieldState before = field_state(drag_->before, field, appearance_.units);
    if (!before.enabled) return;
    const double width = target.hit.w - layout_.u(12);
    const double value =
        before.value + (px.x() - drag_->from.x()) / width * (before.most - before.least);
    const double step = held.shift ? before.fine_step : before.step;
    const double held_in = std::clamp(snapped(value, step), std::min(before.least, before.value),
                                      std::max(before.most, before.value));
    change(
        [&](Setup& s) {
            s = drag_->before;
            set_field(s, field, held_in);
        },
        std::string("drag-") + field_name(field));
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
        const double step = appearance_.units.metric ? 0.01 : metres_per_inch;
        return change([&](Setup& s) { set_distance(s, snapped(from.norm(), step)); },
                      "drag-distance");
    }
    const double hours = clock_of_direction(from);
    const double clock = held.shift ? hours : snapped(hours, five_minutes_h);
    change([&](Setup& s) { set_clock(s, on_the_dial(clock)); }, "drag-ball");
}

void ReadMode::drag_mark(const Vec2& px, Held held) {
    switch (drag_->mark) {
        case MarkId::ball:
            drag_ball(px, held);
            return;
        case MarkId::hole:
            if (const auto at = green_at(px))
                change([&](Setup& s) { place_hole(s, *at); }, "drag-hole");
            return;
        case MarkId::drop:
            return drag_drop(px);
        case MarkId::bar:
            return drag_bar(px, held);
        case MarkId::rolling:
            playback_.running = false;
            playback_.seek(time_near(px));
            return act("scrub");
        default:
            return;
    }
}

/// The fall line turns by as much as the drop moves round its middle.
void ReadMode::drag_drop(const Vec2& px) {
    const Vec2 middle = (plan_.bar + plan_.drop) / 2;
    const auto turn = [&](const Vec2& p) {
        return std::atan2(p.y() - middle.y(), p.x() - middle.x());
    };
    const double by =
        std::remainder(turn(px) - turn(drag_->from), 2 * std::numbers::pi) * hours_per_rad;
    const double clock = on_the_dial(snapped(drag_->start_clock - by, five_minutes_h));
    change(
        [&](Setup& s) {
            s = drag_->before;
            set_clock(s, clock);
        },
        "drag-drop");
}

void ReadMode::drag_bar(const Vec2& px, Held held) {
    const double by = (drag_->from.y() - px.y()) / layout_.scale * slope_per_unit;
    const double slope = snapped(drag_->start_slope + by, held.shift ? 0.001 : 0.0025);
    change(
        [&](Setup& s) {
            s = drag_->before;
            set_slope(s, slope);
        },
        "drag-bar");
}

/// Past the middle of where it lies, or would lie, the note goes or comes.
void ReadMode::drag_note_edge(const Vec2& px) {
    const Layout with = lay_out(appearance_.width, appearance_.height, text(), true, rows_shown());
    const Vec2 middle = with.note.centre();
    show_note(with.note_below ? px.y() < middle.y() : px.x() < middle.x());
}

/// The moment at which the ball is seen nearest to a pixel.
double ReadMode::time_near(const Vec2& px) const {
    constexpr double step_s = 1.0 / 120;
    double best = playback_.time_s, nearest = HUGE_VAL;
    for (double t = 0; t <= playback_.end_s; t += step_s) {
        const auto at = px_of(trail_.at(t).at);
        if (!at || (*at - px).norm() >= nearest) continue;
        nearest = (*at - px).norm();
        best = t;
    }
    return best;
}

void ReadMode::end_drag() {
    Drag drag = std::move(*drag_);
    drag_.reset();
    if (drag.mark == MarkId::ball && drag.moved) hint_done(0);
    if ((drag.mark == MarkId::drop || drag.mark == MarkId::bar) && drag.moved) hint_done(1);
    const bool edits = (drag.mark != MarkId::none && drag.mark != MarkId::rolling) ||
                       (drag.target && drag.target->what == What::field);
    if (!edits || !drag.moved) return;
    history_.remember(std::move(drag.before));
    ask_settled();
    fit_camera(true);
    act("drop");
}

/// Esc puts back what the drag has changed.
void ReadMode::cancel_drag() {
    setup_ = drag_->before;
    camera_ = drag_->camera;
    const double time_s = drag_->start_time_s;
    drag_.reset();
    solve_live();
    playback_.seek(time_s);
    ask_settled();
    act("cancel");
}

}  // namespace dewtrail
