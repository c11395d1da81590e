#include "viewer/scene/read_mode.hpp"

#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/scene/eye_picture.hpp"

namespace dewtrail {
namespace {

constexpr double settle_after_s = 0.12;
constexpr double camera_ease_s = 0.18, theme_fade_s = 0.2, marks_fade_s = 0.9;
constexpr double hint_s = 12;
constexpr int hints = 3;

}  // namespace

ReadMode::ReadMode(ReadStart start) : start_(std::move(start)), setup_(start_.setup) {
    theme_ = start_.theme;
    dusk_ = theme_ == Theme::dusk ? 1 : 0;
    text_ = start_.text;
    eye_ = start_.eye;
    note_state_.detail = start_.detail;
    room_ = start_.room;
    remembered_ = setup_.spread;
    relayout();
    solve_now(Effort::settled);
    fit_camera(false);
    act("start");
    if (start_.first_start && !start_.less_motion) {
        playback_.toggle();
        marks_share_ = 0;
    } else if (start_.first_start) {
        hint_ = 0, hint_left_s_ = hint_s;
    }
}

void ReadMode::relayout() {
    layout_ = lay_out(start_.width, start_.height, text_, note_shown_);
}

void ReadMode::resize(double width, double height) {
    start_.width = width;
    start_.height = height;
    relayout();
    fit_camera(false);
    act("resize");
}

/// One change is one step of undo. Only inside a drag is it not: the drag remembers by itself.
void ReadMode::change(const std::function<void(Setup&)>& edit, const std::string& name) {
    if (!drag_) history_.remember(setup_);
    edit(setup_);
    if (name != "best") setup_.taken.reset();
    message_.clear();
    solve_now(Effort::live);
    grown_ = true;
    settle_in_s_ = drag_ ? -1 : settle_after_s;
    if (!drag_) fit_camera(true);
    act(name);
}

void ReadMode::solve_now(Effort effort) {
    solved_ = solve(setup_, start_.usual_past_m, effort);
    load_trail();
    ask_outlook();
    if (effort == Effort::settled) {
        remember_spread();
        grown_ = false;
        settle_in_s_ = -1;
        ++settled_count_;
    }
}

void ReadMode::load_trail() {
    const Read* read = solved_.shown();
    trail_ = read ? Trail(*read) : Trail();
    playback_.load(trail_.end_s());
}

void ReadMode::fit_camera(bool ease) {
    eye_camera_ = eye_of(solved_, eye_place_, pane());
    if (zoomed_ && ease) return;
    zoomed_ = false;
    camera_from_ = camera_;
    camera_to_ = fit_plan(to_be_seen(solved_), pane(), layout_.scale);
    camera_t_ = ease && !start_.less_motion ? 0 : 1;
    if (camera_t_ == 1) camera_ = camera_to_;
}

bool ReadMode::advance(double seconds) {
    bool moving = take_outlook() || desk_.busy();
    if (settle_in_s_ >= 0 && (settle_in_s_ -= seconds) < 0) {
        solve_now(Effort::settled);
        fit_camera(camera_t_ < 1);
        moving = true;
    }
    moving = moving || settle_in_s_ >= 0;
    if (camera_t_ < 1) {
        camera_t_ = std::min(1.0, camera_t_ + seconds / camera_ease_s);
        camera_ = between(camera_from_, camera_to_, eased(camera_t_));
        moving = true;
    }
    const double dusk = theme_ == Theme::dusk ? 1 : 0;
    if (dusk_ != dusk) {
        const double step = start_.less_motion ? 1 : seconds / theme_fade_s;
        dusk_ = dusk > dusk_ ? std::min(dusk, dusk_ + step) : std::max(dusk, dusk_ - step);
        moving = true;
    }
    if (playback_.running) {
        playback_.advance(seconds);
        if (!playback_.running) act("rolled");
        moving = true;
    } else if (marks_share_ < 1) {
        marks_share_ = std::min(1.0, marks_share_ + seconds / marks_fade_s);
        if (marks_share_ == 1 && start_.first_start) hint_ = 0, hint_left_s_ = hint_s;
        moving = true;
    }
    if (hint_ >= 0) {
        if ((hint_left_s_ -= seconds) < 0) hint_done(hint_);
        moving = true;
    }
    return moving;
}

/// The hint goes; the next comes, and after the last none ever again.
void ReadMode::hint_done(int hint) {
    if (hint != hint_) return;
    ++hint_;
    hint_left_s_ = hint_s;
    if (hint_ < hints) return;
    hint_ = -1;
    wishes_.push_back({Wish::Kind::hints_done});
}

void ReadMode::set_theme(Theme theme) {
    theme_ = theme;
    act(theme == Theme::dusk ? "dusk" : "dew");
}

void ReadMode::set_view(bool eye) {
    eye_ = eye;
    room_ = false;
    fit_camera(false);
    act(eye ? "eye" : "plan");
}

void ReadMode::next_eye() {
    if (eye_ && !room_)
        eye_place_ = static_cast<EyePlace>((static_cast<int>(eye_place_) + 1) % eye_places);
    set_view(true);
}

void ReadMode::set_text(double text) {
    text_ = std::clamp(text, 1.0, 1.5);
    note_state_.scrolled_px = 0;
    relayout();
    fit_camera(false);
    act("text");
}

void ReadMode::open_green(const std::string& name) {
    sheet_ = Sheet::none;
    try {
        const auto green = start_.load(name);
        change([&](Setup& s) { put_on_green(s, green); }, "open-green");
        zoomed_ = false;
        solve_now(Effort::settled);
        fit_camera(false);
    } catch (const InputError& error) {
        say("That green could not be read: " + std::string(error.what()));
        act("message");
    }
}

void ReadMode::step_history(bool undo) {
    if (drag_) return;
    const auto setup = undo ? history_.undo(setup_) : history_.redo(setup_);
    if (!setup) return;
    setup_ = *setup;
    message_.clear();
    solve_now(Effort::settled);
    fit_camera(true);
    act(undo ? "undo" : "redo");
}

void ReadMode::use_offer() {
    if (const auto offer = solved_.offer)
        change([&](Setup& s) { set_finish(s, *offer); }, "use-offer");
}

void ReadMode::choose_finish(int index) {
    if (index < 0 || index >= static_cast<int>(solved_.choices.size())) return;
    const double past = solved_.choices[static_cast<std::size_t>(index)].past_m;
    change([&](Setup& s) { set_finish(s, Finish::past(past)); }, "finish");
}

void ReadMode::zoom(double factor, const Vec2& about) {
    if (eye_ || room_) return;
    const Vec2 held = camera_.to_green(about);
    camera_.px_per_m = std::clamp(camera_.px_per_m * factor, 4.0, 4000.0);
    camera_.centre_m += held - camera_.to_green(about);
    camera_t_ = 1;
    zoomed_ = true;
    act("zoom");
}

std::string ReadMode::view_words() const {
    if (room_) return "room";
    return eye_ ? std::string("eye: ") + words_for(eye_place_) : "plan";
}

std::vector<Wish> ReadMode::take_wishes() {
    return std::exchange(wishes_, {});
}

std::vector<std::string> ReadMode::take_actions() {
    return std::exchange(actions_, {});
}

}  // namespace dewtrail
