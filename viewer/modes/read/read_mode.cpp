#include "viewer/modes/read/read_mode.hpp"

#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/picture/map/eye_picture.hpp"

namespace dewtrail {
namespace {

constexpr double settle_after_s = 0.12;
constexpr double ease_s = 0.18, marks_fade_s = 0.9;
constexpr double hint_s = 12;
constexpr int hints = 3;

/// The same stroke on the same putt: a roll that is being watched goes on.
bool same_roll(const Solved& a, const Solved& b) {
    const Read *x = a.shown(), *y = b.shown();
    return x && y && a.putt.ball == b.putt.ball && a.putt.hole == b.putt.hole &&
           a.putt.resistance == b.putt.resistance && x->stroke.angle_rad == y->stroke.angle_rad &&
           x->stroke.speed_m_s == y->stroke.speed_m_s && x->roll.last.at == y->roll.last.at;
}

}  // namespace

ReadMode::ReadMode(Shell& shell, ReadStart start)
    : Mode(shell),
      start_(std::move(start)),
      editor_(shell, {[this] { return setup_; },
                      [this](const PuttEditor::Edit& edit, const std::string& name) {
                          change(edit, name);
                      },
                      {},
                      28,
                      true}),
      setup_(start_.setup),
      note_shown_(start_.width >= portrait_below),
      room_(start_.room),
      remembered_(setup_.spread),
      odds_(start_.odds ? start_.odds : outlook_desk()) {
    view_.eye = start_.eye;
    note_state_.detail = start_.detail;
    take(solve(setup_, start_.usual_past_m, Effort::settled));
    shell_.act("start");
    if (start_.first_start && !shell_.less_motion()) {
        shell_.playback.toggle();
        marks_share_ = 0;
    } else if (start_.first_start) {
        hint_.which = 0, hint_.left_s = hint_s;
    }
}

void ReadMode::laid_out() {
    note_state_.scrolled_px = 0;
    fit_camera(false);
}

/// What another mode brings becomes the putt, and can be undone like any change. The spread is the
/// player's, whoever brings the putt.
void ReadMode::arrived(const std::optional<Setup>& putt) {
    if (!putt) return;
    change(
        [&](Setup& s) {
            const Spread spread = s.spread;
            s = *putt;
            s.spread = spread;
        },
        "brought");
    ease_.t = 1;
    ask_settled();
    fit_camera(false);
}

/// One change is one step of undo. Only inside a drag is it not: the drag remembers by itself.
void ReadMode::change(const std::function<void(Setup&)>& edit, const std::string& name) {
    const bool dragging = shell_.dragging();
    shell_.remember();
    if (!dragging) begin_easing();
    edit(setup_);
    if (name != "best") setup_.taken.reset();
    solve_live();
    solving_.in_s = dragging ? -1 : settle_after_s;
    if (!dragging) fit_camera(true);
    shell_.act(name);
}

void ReadMode::put_back(const std::any& setup) {
    begin_easing();
    setup_ = std::any_cast<const Setup&>(setup);
    solve_live();
    dropped();
}

void ReadMode::dropped() {
    ask_settled();
    fit_camera(true);
}

void ReadMode::take(Solved solved) {
    const bool same = same_roll(solved_, solved);
    solved_ = std::move(solved);
    ask_outlook();
    if (rows_shown() != (shell_.layout().rows_strip.h > 0)) shell_.lay_out_again();
    if (same) return;
    const Read* read = solved_.shown();
    trail_ = read ? Trail(*read) : Trail();
    shell_.playback.load(trail_.end_s());
    since_drop_s_ = -1;
}

/// As much as a drag needs; what the solver was asked before is of no use any more.
void ReadMode::solve_live() {
    take(solve(setup_, start_.usual_past_m, Effort::live));
    solving_.asked_s = -1;
}

void ReadMode::ask_settled() {
    solving_.in_s = -1;
    start_.solver->ask(setup_, start_.usual_past_m);
    solving_.asked_s = 0;
    take_answer();
}

void ReadMode::take_answer() {
    auto solved = start_.solver->answer();
    if (!solved) return;
    solving_.asked_s = -1;
    take(std::move(*solved));
    remember_spread();
    keep_putt();
    fit_camera(true);
    shell_.act("settled");
}

/// So that one finds it again another time.
void ReadMode::keep_putt() {
    Wish keep{Wish::Kind::keep_putt};
    keep.putt = setup_;
    shell_.wish(std::move(keep));
}

/// The other line that holes it, and back.
void ReadMode::swap_lines() {
    if (!solved_.read || !solved_.second) return;
    begin_easing();
    Solved swapped = solved_;
    std::swap(*swapped.read, *swapped.second);
    take(std::move(swapped));
    fit_camera(true);
    shell_.act("other-line");
}

/// From here trail and marks move to what comes next.
void ReadMode::begin_easing() {
    if (shell_.less_motion()) return;
    ease_.from = shown_trail();
    ease_.before = solved_;
    ease_.t = 0;
    ease_.shown = ease_.from;
}

void ReadMode::fit_camera(bool ease) {
    view_.eye_camera = eye_of(solved_, view_.place, pane());
    if (view_.zoomed && ease) return;
    view_.zoomed = false;
    const Layout& l = shell_.layout();
    const PlanCamera to =
        fit_plan(to_be_seen(solved_), pane(), l.scale, plan_turn(l, solved_.putt));
    if (ease && to == view_.to) return;
    view_.from = view_.plan;
    view_.to = to;
    view_.t = ease && !shell_.less_motion() ? 0 : 1;
    if (view_.t == 1) view_.plan = view_.to;
}

bool ReadMode::advance(double seconds) {
    bool moving = take_outlook() || odds_.busy() || solving_.in_s >= 0 || solving_.asked_s >= 0;
    if (solving_.in_s >= 0 && (solving_.in_s -= seconds) < 0) {
        ask_settled();
    } else if (solving_.asked_s >= 0) {
        solving_.asked_s += seconds;
        take_answer();
    }
    moving |= advance_easing(seconds);
    moving |= advance_roll(seconds);
    if (hint_.which >= 0) {
        if ((hint_.left_s -= seconds) < 0) hint_done(hint_.which);
        moving = true;
    }
    return moving;
}

/// Camera, trail and marks, theme.
bool ReadMode::advance_easing(double seconds) {
    bool moving = false;
    if (view_.t < 1) {
        view_.t = std::min(1.0, view_.t + seconds / ease_s);
        view_.plan = between(view_.from, view_.to, eased(view_.t));
        moving = true;
    }
    // The eye moves with the ball at once: nothing is left to ease.
    const bool stands =
        ease_.before.putt.ball == solved_.putt.ball && ease_.before.putt.hole == solved_.putt.hole;
    if (ease_.t < 1) {
        ease_.t = view_.eye && !stands ? 1 : std::min(1.0, ease_.t + seconds / ease_s);
        ease_.shown = Trail::between(ease_.from, trail_, eased(ease_.t));
        moving = true;
    }
    return moving;
}

/// The ball, its drop, and what appears when it has stopped the first time.
bool ReadMode::advance_roll(double seconds) {
    if (shell_.playback.running) {
        shell_.playback.advance(seconds);
        if (shell_.playback.running) return true;
        shell_.act("rolled");
        if (trail_.holed() && !shell_.less_motion()) since_drop_s_ = 0;
        return true;
    }
    bool moving = false;
    if (since_drop_s_ >= 0) {
        since_drop_s_ += seconds;
        if (since_drop_s_ > pulse_s || !shell_.playback.complete()) since_drop_s_ = -1;
        moving = true;
    }
    if (marks_share_ < 1) {
        marks_share_ = std::min(1.0, marks_share_ + seconds / marks_fade_s);
        if (marks_share_ == 1 && start_.first_start) hint_.which = 0, hint_.left_s = hint_s;
        moving = true;
    }
    return moving;
}

/// The hint goes; the next comes, and after the last none ever again.
void ReadMode::hint_done(int hint) {
    if (hint != hint_.which) return;
    ++hint_.which;
    hint_.left_s = hint_s;
    if (hint_.which < hints) return;
    hint_.which = -1;
    shell_.wish({Wish::Kind::hints_done});
}

void ReadMode::set_view(bool eye) {
    view_.eye = eye;
    room_ = false;
    ease_.t = 1;
    fit_camera(false);
    shell_.act(eye ? "eye" : "plan");
}

/// Plan, eye, room. The eye goes on to its next place where it is looked through already.
void ReadMode::choose_view(int index) {
    if (index == 2) return show_room();
    if (index == 1 && view_.eye && !room_)
        view_.place = static_cast<EyePlace>((static_cast<int>(view_.place) + 1) % eye_places);
    set_view(index == 1);
}

/// Every number is hidden, and the putt is rehearsed from behind the ball; then back to the view
/// that it came from.
void ReadMode::toggle_commit() {
    commit_ = !commit_;
    if (commit_) {
        view_.before_commit = {view_.eye, room_, view_.place};
        view_.place = EyePlace::crouched;
        set_view(true);
        shell_.playback.seek(0);
    } else {
        view_.place = view_.before_commit.place;
        set_view(view_.before_commit.eye);
        if (view_.before_commit.room) show_room();
    }
    shell_.act(commit_ ? "commit" : "numbers");
}

Pages ReadMode::pages() const {
    Pages pages;
    if (solved_.read) pages.emplace_back("This read", "read");
    if (setup_.green) pages.emplace_back("This green", "green");
    if (setup_.green) pages.emplace_back("This green for today, with this ball", "today");
    pages.emplace_back("Ladder for this stimp", "ladder");
    pages.emplace_back("Blank form for a survey", "survey");
    pages.emplace_back("Blank form for results", "results");
    return pages;
}

void ReadMode::open_green(const std::string& name) {
    try {
        const auto green = start_.load(name);
        change([&](Setup& s) { put_on_green(s, green); }, "open-green");
        ease_.t = 1;
        ask_settled();
        fit_camera(false);
    } catch (const InputError& error) {
        shell_.complain("That green could not be read: " + std::string(error.what()));
    }
}

void ReadMode::show_note(bool shown) {
    if (shown == note_shown_) return;
    note_shown_ = shown;
    shell_.lay_out_again();
    shell_.act("note");
}

void ReadMode::use_offer() {
    if (solved_.second) return swap_lines();
    if (const auto offer = solved_.offer)
        change([&](Setup& s) { set_finish(s, *offer); }, "use-offer");
}

void ReadMode::choose_finish(int index) {
    if (index < 0 || index >= static_cast<int>(solved_.choices.size())) return;
    const double past = solved_.choices[static_cast<std::size_t>(index)].past_m;
    change([&](Setup& s) { set_finish(s, Finish::past(past)); }, "finish");
}

void ReadMode::zoom(double factor, const Vec2& about) {
    if (view_.eye || room_) return;
    const Vec2 held = view_.plan.to_green(about);
    view_.plan.px_per_m = std::clamp(view_.plan.px_per_m * factor, 4.0, 4000.0);
    view_.plan.centre_m += held - view_.plan.to_green(about);
    view_.t = 1;
    view_.zoomed = true;
    shell_.act("zoom");
}

std::string ReadMode::view_words() const {
    if (room_) return "room";
    return view_.eye ? std::string("eye: ") + words_for(view_.place) : "plan";
}

}  // namespace dewtrail
