#include <algorithm>
#include <cmath>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/putt/putt_words.hpp"

namespace dewtrail {

namespace {

constexpr double scrub_s = 0.05, far_scrub_s = 0.5;

}  // namespace

const HelpLines& ReadMode::help() const {
    static const HelpLines lines = {
        {"roll, pause", "Space"},
        {"back, on", "J  L"},
        {"slow motion", "M"},
        {"ball round the hole", "[  ]"},
        {"distance", ",  ."},
        {"turn the fall line", "Ctrl ←  →"},
        {"slope, stimp, finish", "S  T  F, then ↑ ↓"},
        {"type a value", "Enter, or double-click"},
        {"mirror the putt", "X"},
        {"plan, eye, room", "P  E  R"},
        {"best choice into the read", "B"},
        {"your spread", "Y"},
        {"coach detail", "K"},
        {"commit: hide every number", "C"},
        {"note away", "N"},
        {"open a green", "Ctrl O"},
        {"copy the read", "Ctrl C"},
        {"undo, redo", "Ctrl Z  Y"},
        {"zoom, fit", "Ctrl ↑ ↓  0"},
    };
    return lines;
}

void ReadMode::press(KeyPress pressed) {
    if (press_while_typing(pressed) || press_in_sheet(pressed)) return;
    if (pressed.code == key::escape) {
        if (drag_) return cancel_drag();
        if (spread_open_) return toggle_spread();
        message_.clear();
        if (commit_) commit_ = false, act("numbers");
        focus_.reset();
        return;
    }
    if (pressed.code == key::tab) {
        auto order = focus_order(targets_, setup_.green != nullptr,
                                 !setup_.green && uphill_at_hole(solved_.putt));
        if (room_) std::erase_if(order, [](const FocusStop& s) { return s.mark != MarkId::none; });
        focus_ = step_focus(order, focus_, pressed.shift);
        return act("focus");
    }
    if (press_common(pressed)) return;
    if (pressed.ctrl) {
        press_ctrl(pressed);
        return;
    }
    if (press_roll(pressed) || press_arrow(pressed)) return;
    press_letter(pressed);
}

bool ReadMode::press_ctrl(KeyPress pressed) {
    switch (pressed.code) {
        case 'z':
            step_history(!pressed.shift);
            return true;
        case 'y':
            step_history(false);
            return true;
        case 'c':
            wish({Wish::Kind::copy_text, read_as_text(setup_, solved_, units())});
            act("copy");
            return true;
        case 'o':
            listed_ = start_.greens();
            open_list("Open a green", listed_, What::green_name, "No green was found.");
            act("greens");
            return true;
        case key::up:
            zoom(1.2, pane().centre());
            return true;
        case key::down:
            zoom(1 / 1.2, pane().centre());
            return true;
        case key::left:
            turn_fall_line(-1);
            return true;
        case key::right:
            turn_fall_line(1);
            return true;
        default:
            return false;
    }
}

bool ReadMode::press_roll(KeyPress pressed) {
    if (pressed.code != key::space) return press_playback(playback_, pressed);
    playback_.toggle();
    act(playback_.running ? "roll" : "pause");
    hint_done(2);
    return true;
}

bool ReadMode::press_letter(KeyPress pressed) {
    const auto focus_field = [this](Field field) {
        focus_ = FocusStop::on(What::field, static_cast<int>(field)), act("focus");
    };
    switch (pressed.code) {
        case '[':
            step_field(Field::ball_at, -1, pressed.shift, "clock");
            return true;
        case ']':
            step_field(Field::ball_at, 1, pressed.shift, "clock");
            return true;
        case ',':
            step_field(Field::distance, -1, pressed.shift, "distance");
            return true;
        case '.':
            step_field(Field::distance, 1, pressed.shift, "distance");
            return true;
        case 's':
            focus_field(setup_.face == SlopeFace::along_across ? Field::up : Field::slope);
            return true;
        case 't':
            focus_field(Field::stimp);
            return true;
        case 'f':
            focus_field(Field::finish);
            return true;
        case 'p':
            set_view(false);
            return true;
        case 'e':
            next_eye();
            return true;
        case 'r':
            if (!commit_) show_room();
            return true;
        case 'b':
            take_best(BestKind::fewest_putts);
            return true;
        case 'y':
            if (!commit_ && !room_) toggle_spread();
            return true;
        case 'x':
            change([](Setup& s) { mirror(s); }, "mirror");
            return true;
        case 'k':
            note_state_.detail = !note_state_.detail, act("detail");
            return true;
        case 'c':
            commit_ = !commit_;
            if (commit_) {
                eye_place_ = EyePlace::crouched;
                set_view(true);
                playback_.seek(0);
            }
            act(commit_ ? "commit" : "numbers");
            return true;
        case 'n':
            show_note(!note_shown_);
            return true;
        case '0':
            zoomed_ = false, fit_camera(true), act("fit");
            return true;
        case key::enter:
            activate_focus();
            return true;
        default:
            return false;
    }
}

/// Arrows change what has the focus.
bool ReadMode::press_arrow(KeyPress pressed) {
    if (!focus_ || pressed.code < key::up || pressed.code > key::right) return false;
    const bool more = pressed.code == key::up || pressed.code == key::right;
    const double way = more ? 1 : -1;
    const bool sideways = pressed.code == key::left || pressed.code == key::right;
    if (focus_->mark == MarkId::ball)
        step_field(sideways ? Field::ball_at : Field::distance, sideways ? way : -way,
                   pressed.shift, "ball");
    else if (focus_->mark == MarkId::hole)
        move_hole((pressed.shift ? metres_per_foot : metres_per_inch) * way *
                  (sideways ? Vec2(1, 0) : Vec2(0, 1)));
    else if (focus_->mark == MarkId::drop)
        sideways ? turn_fall_line(way) : step_field(Field::slope, way, pressed.shift, "slope");
    else if (focus_->what == What::field)
        step_field(static_cast<Field>(focus_->index), way, pressed.shift, "step");
    else if (focus_->what == What::time_line)
        playback_.running = false,
        playback_.seek(playback_.time_s + way * (pressed.shift ? far_scrub_s : scrub_s)),
        act("scrub");
    else if (focus_->what == What::choice)
        choose_finish(focus_->index + static_cast<int>(way));
    else
        return false;
    return true;
}

void ReadMode::step_field(Field field, double steps, bool fine, const std::string& name) {
    Setup stepped = setup_;
    if (dewtrail::step_field(stepped, field, steps, fine, units()))
        change([&](Setup& s) { s = stepped; }, name);
}

void ReadMode::turn_fall_line(double degrees) {
    if (setup_.green) return;
    change([&](Setup& s) { set_clock(s, on_the_dial(s.clock_h - degrees / 30)); }, "turn");
}

void ReadMode::move_hole(const Vec2& by) {
    change([&](Setup& s) { place_hole(s, s.hole + by); }, "hole");
}

void ReadMode::activate_focus() {
    if (!focus_ || focus_->mark != MarkId::none) return;
    if (focus_->what == What::field) return begin_typing(static_cast<Field>(focus_->index));
    if (const auto target = find_target(targets_, focus_->what, focus_->index);
        target && target->what != What::time_line)
        click(*target, false);
}

}  // namespace dewtrail
