#include "viewer/modes/shell/shell.hpp"

#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace {

constexpr double theme_fade_s = 0.2;

}  // namespace

Shell::Shell(const Appearance& appearance, const Maker& make)
    : appearance_(appearance), dusk_(appearance.theme == Theme::dusk ? 1 : 0) {
    mode_ = make(*this);
    lay_out_again();
}

void Shell::arrive(const Appearance& appearance, const std::optional<Setup>& putt) {
    appearance_ = appearance;
    dusk_ = appearance.theme == Theme::dusk ? 1 : 0;
    hovered_.reset();
    key_taken_ = true;  // the key that led here
    forget_ground();
    lay_out_again();
    mode_->arrived(putt);
    act("arrive");
}

void Shell::resize(double width, double height) {
    appearance_.width = width;
    appearance_.height = height;
    lay_out_again();
    act("resize");
}

void Shell::lay_out_again() {
    if (!mode_) return;  // it is being made
    layout_ = mode_->lay_out();
    mode_->laid_out();
}

void Shell::act(const std::string& name) {
    actions_.push_back(name);
    stale_ = true;
}

void Shell::complain(const std::string& words) {
    say(words);
    act("message");
}

void Shell::complain(const std::exception& error) {
    complain(told(error));
}

void Shell::change_mode(ModeName mode, const std::string& begin) {
    if (mode == name()) return;
    Wish change{Wish::Kind::change_mode};
    change.mode = mode;
    change.text = begin;
    change.putt = mode_->putt_at_hand();
    wish(std::move(change));
}

void Shell::remember() {
    said_ = {};
    if (drag_)
        drag_->changed = true;
    else
        history_.remember(mode_->document());
}

void Shell::undo(bool back) {
    const std::any now = mode_->document();
    const auto other = back ? history_.undo(now) : history_.redo(now);
    if (!other) return;
    said_ = {};
    mode_->put_back(*other);
    act(back ? "undo" : "redo");
}

bool Shell::advance(double seconds) {
    const bool fading = advance_theme(seconds);
    const bool resting = rest_on_word(seconds);
    return mode_->advance(seconds) || fading || resting;
}

bool Shell::advance_theme(double seconds) {
    const double dusk = appearance_.theme == Theme::dusk ? 1 : 0;
    if (dusk_ == dusk) return false;
    const double step = appearance_.less_motion ? 1 : seconds / theme_fade_s;
    dusk_ = dusk > dusk_ ? std::min(dusk, dusk_ + step) : std::max(dusk, dusk_ - step);
    return true;
}

Attention Shell::attention() const {
    Attention a;
    a.hovered = hovered_;
    if (focus_ && focus_->mark == MarkId::none) a.focused = Target{focus_->what, focus_->index, {}};
    a.enter_types = focused_value().has_value();
    return a;
}

TopBarState Shell::top_bar(const Surround& surround) const {
    TopBarState top;
    top.mode = static_cast<int>(name());
    for (const ModeName mode : appearance_.modes) top.modes.push_back(mode_word(mode));
    top.views = surround.views;
    top.view = surround.view;
    top.name = surround.name;
    top.pupil = appearance_.pupil;
    top.help = sheet_.kind == Sheet::Kind::help || sheet_.kind == Sheet::Kind::words;
    return top;
}

Message Shell::message_now(const Surround& surround) const {
    if (message().empty()) return surround.notice;
    if (said_.file.empty()) return {message(), {{"Close"}}};
    return {message(), {{"Open", What::made, 0}, {"Folder", What::made, 1}, {"Close"}}};
}

/// Whether the focused value is on the screen, and can be typed, is known once all is painted:
/// where that has changed it is painted again.
Frame Shell::frame(const TextWidth& width) {
    width_ = width;
    stale_ = false;
    Frame frame;
    const Attention near = attention();
    const bool typed = typing();
    paint(frame, near);
    if (attention().enter_types == near.enter_types && typing() == typed) return frame;
    Frame again;
    paint(again, attention());
    if (again.ground.empty()) again.ground = std::move(frame.ground);
    return again;
}

void Shell::paint(Frame& frame, const Attention& near) {
    const Surround surround = mode_->surround();
    const Look look{palette_between(dusk_), layout_, units(), width_, surround.numbers};
    const Message message = message_now(surround);
    // Where the message comes to lie is asked first: labels keep clear of it.
    Picture only_asked;
    message_box_ = draw_message_bar({only_asked, targets_, near, look}, message);
    mode_->prepare(look, frame.ground);
    targets_.clear();
    const Canvas canvas{frame.picture, targets_, near, look};
    mode_->paint(canvas);
    draw_top_bar(canvas, top_bar(surround));
    draw_message_bar(canvas, message);
    find_words(frame.picture, look);
    paint_word(canvas);
    beneath_ = targets_;
    paint_sheet(canvas);
    paint_typing(canvas);
}

State Shell::state() const {
    State state = mode_->state();
    state.emplace_back("pupil", appearance_.pupil);
    state.emplace_back("undo", static_cast<double>(undo_depth()));
    state.emplace_back("redo", static_cast<double>(redo_depth()));
    return state;
}

/// What is on the green, and what can be clicked round it.
Places Shell::places() const {
    Places places = mode_->places();
    for (const Target& target : targets_)
        if (const std::string name = place_name(target); !name.empty())
            places.emplace_back(name, target.hit.centre());
    for (const Value& value : mode_->fields()) {
        const What typed = value.stop.what == What::field ? What::figure : value.stop.what;
        if (const auto target = find_target(targets_, typed, value.stop.index))
            places.emplace_back(value.name, target->hit.centre());
    }
    return places;
}

}  // namespace dewtrail
