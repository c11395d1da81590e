#include "viewer/modes/shell/shell.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"

/// Pointer and wheel: clicks, and what is taken hold of.
namespace dewtrail {
namespace {

constexpr double drag_from_px = 3, above_finger_px = 48;

}  // namespace

bool Shell::hand_cursor() const {
    if (drag_) return true;
    if (hovered_)
        return hovered_->what != What::note && hovered_->what != What::sheet &&
               hovered_->what != What::row;
    return !sheet_open() && mode_->grab({pointer_}).has_value();
}

void Shell::pointer_moved(const Vec2& px, Held held) {
    if (px != pointer_) {
        pointer_ = px;
        leave_word();
    }
    if (!drag_) {
        hovered_ = held.finger ? touched_target(targets_, px) : target_at(targets_, px);
        return;
    }
    if (!drag_->moved && (px - drag_->from).norm() < drag_from_px) return;
    drag_->moved = true;
    drag_->drag.move(px - drag_->lifted, held);
}

void Shell::pointer_pressed(const Vec2& px, Button button, Held held, bool twice) {
    key_taken_ = false;  // a keyboard on a screen writes without a key
    if (const auto value = entry_ ? value_at(entry_->stop) : std::nullopt; value)
        if (const auto box = typing_place(*value); box && box->contains(px)) return;
    if (stale_ && width_) {  // what is clicked is what stands there now
        frame(width_);
        forget_ground();
    }
    by_finger_ = held.finger;
    pointer_moved(px, held);
    if (drag_) return;
    if (entry_ && sheet_.kind == Sheet::Kind::naming && hovered_ && hovered_->what == What::button)
        return void(finish_typing());
    entry_.reset();
    if (sheet_open()) return click_in_sheet();
    const bool panel = hovered_ && hovered_->what == What::note;
    if (const WordPlace* word = word_at(px); word && (!hovered_ || panel)) {
        told_word_ = *word;
        return act("word");
    }
    if (hovered_ && button == Button::left) {
        focus_.reset();
        return click(*hovered_, twice);
    }
    auto drag = hovered_ ? std::nullopt : mode_->grab({px, button, held, std::nullopt, twice});
    if (button == Button::left) focus_.reset();
    if (drag) take_hold(std::move(*drag), px, held);
}

void Shell::click(const Target& target, bool twice) {
    if (run_at(target, twice)) return;
    if (auto drag = mode_->grab({pointer_, Button::left, {}, target, twice}))
        return take_hold(std::move(*drag), pointer_, {});
    if (target.what == What::time_line) return take_hold(scrub_by_hand(), pointer_, {});
    const bool figure = target.what == What::figure;
    const FocusStop stop = FocusStop::on(figure ? What::field : target.what, target.index);
    const auto value = value_at(stop);
    if (!value) return;
    focus_ = stop;
    if (twice && stop.what != What::field) return begin_typing(stop);
    if (twice && figure) return begin_typing(stop);
    const auto field = find_target(targets_, stop.what, stop.index);
    if (value->slide && field) take_hold(slide(*value, *field), pointer_, {});
}

void Shell::take_hold(Drag drag, const Vec2& px, Held held) {
    if (drag.focus) focus_ = drag.focus;
    if (drag.taken) drag.taken();
    if (!drag.move) return;
    const bool at_once = drag.at_once;
    drag_ = InHand{std::move(drag), px, mode_->document(), playback.time_s};
    if (held.finger && drag_->drag.mark != MarkId::none) drag_->lifted = {0, above_finger_px};
    if (!at_once) return;
    drag_->moved = true;
    drag_->drag.move(px, held);
}

Drag Shell::slide(const Value& value, const Target& target) const {
    Drag drag;
    const double width = ruler_width(target, layout_);
    drag.move = [slide = value.slide, from = pointer_.x(), width](const Vec2& px, Held held) {
        slide((px.x() - from) / width, held.shift);
    };
    drag.focus = value.stop;
    return drag;
}

Drag Shell::scrub_by_hand() {
    Drag drag;
    drag.move = [this](const Vec2& px, Held) {
        playback.running = false;
        playback.seek(time_at(layout_, playback, px.x()));
        mode_->scrubbed();
        act("scrub");
    };
    drag.focus = FocusStop::on(What::time_line);
    drag.at_once = true;
    return drag;
}

void Shell::pointer_released(const Vec2& px) {
    pointer_ = px;
    if (!drag_) return;
    InHand held = std::move(*drag_);
    drag_.reset();
    if (!held.moved) return;
    if (held.changed) history_.remember(std::move(held.before));
    if (held.drag.let_go) held.drag.let_go();
    if (!held.changed) return;
    mode_->dropped();
    act("drop");
}

/// Esc puts back what the drag has changed.
void Shell::cancel_drag() {
    InHand held = std::move(*drag_);
    drag_.reset();
    if (held.changed) mode_->put_back(held.before);
    if (held.drag.taken_back) held.drag.taken_back();
    playback.seek(held.time_s);
    act("cancel");
}

void Shell::wheel(double clicks, const Vec2& px, Held held) {
    if (drag_ || sheet_open()) return;
    const auto target = target_at(targets_, px);
    if (target && target->what == What::time_line) {
        playback.seek(playback.time_s + 0.05 * clicks);
        mode_->scrubbed();
        return act("scrub");
    }
    if (target && (target->what == What::field || target->what == What::figure))
        if (const auto value = value_at(FocusStop::on(What::field, target->index)))
            if (value->step) return value->step(clicks, held.shift);
    mode_->wheel(clicks, px, held);
}

}  // namespace dewtrail
