#include "viewer/modes/measure/measure_mode.hpp"

#include <fmt/format.h>

#include "viewer/files/dates.hpp"
#include "viewer/practice/measure/measure_words.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr int usual_balls = 20, drill_balls = 10;

}  // namespace

MeasureMode::MeasureMode(Shell& shell, MeasureStart start)
    : Mode(shell), start_(std::move(start)), memory_(start_.memory_folder) {
    entry_.floor = usual_floor(shell_.units());
    if (start_.player.stimp_ft) entry_.floor.stimp_ft = *start_.player.stimp_ft;
    know_again();
    begin_pace(usual_balls);
    begin_line(usual_balls, false);
}

void MeasureMode::begin_pace(int balls) {
    called_ = called_lengths_m(entry_.floor.from_m, entry_.floor.to_m, balls, start_.seed++);
    at_ = 0;
    entry_.stop.reset();
}

void MeasureMode::begin_line(int strokes, bool drill) {
    gate_.emplace(measures_.strokes, usual_gates(shell_.units().metric), drill);
    struck_ = 0;
    strokes_ = strokes;
}

/// Ten of what needs it most.
void MeasureMode::begin_drill() {
    shell_.say("");
    if (view_ == View::line) {
        begin_line(drill_balls, true);
        return shell_.act("drill");
    }
    const auto drill = found_.pace ? pace_drill(*found_.pace, shell_.units()) : std::nullopt;
    if (!drill) return shell_.complain("No bias shows yet: there is nothing to drill.");
    entry_.floor.from_m = drill->least_m;
    entry_.floor.to_m = drill->most_m;
    begin_pace(drill_balls);
    shell_.act("drill");
    type_stop();
}

/// After something was remembered or taken back.
void MeasureMode::know_again() {
    measures_ = memory_.measures();
    found_ = measured(measures_);
    floor_stimp_ft_ = floor_stimp_ft(stops_, start_.player);
    if (view_ == View::months) months_ = measured_by_month(measures_);  // years of them take long
    taken_.clear();
}

void MeasureMode::change(const Entry& entry, const std::string& name) {
    shell_.remember();
    entry_ = entry;
    shell_.act(name);
}

/// The lengths are called anew where they changed.
void MeasureMode::change_floor(const PaceFloor& floor) {
    check(floor);
    const bool lengths = floor.from_m != entry_.floor.from_m || floor.to_m != entry_.floor.to_m;
    change({floor, std::nullopt}, "floor");
    if (lengths) begin_pace(usual_balls);
}

void MeasureMode::put_back(const std::any& document) {
    const Undoable before = std::any_cast<const Undoable&>(document);
    const PaceFloor& floor = before.entry.floor;
    const bool lengths = floor.from_m != entry_.floor.from_m || floor.to_m != entry_.floor.to_m;
    entry_ = before.entry;
    if (lengths) begin_pace(usual_balls);
    try {
        while (taken_back_.size() > before.taken_back.size()) {
            remember_again(taken_back_.back());
            taken_back_.pop_back();
        }
        for (std::size_t i = taken_back_.size(); i < before.taken_back.size(); ++i)
            take_back_last(std::holds_alternative<KeptBall>(before.taken_back[i]));
    } catch (const std::runtime_error& error) {
        shell_.complain(error);
    }
}

/// First on the disk, then on to the next.
void MeasureMode::keep_ball() {
    if (!entry_.stop) return shell_.complain("Type where it stopped, or click there.");
    try {
        memory_.remember(PaceBall{
            .at = moment_now(), .called_m = called_m(), .stopped_m = entry_.stop->stopped_m});
    } catch (const std::runtime_error& error) {
        return shell_.complain(error);
    }
    stops_.push_back(*entry_.stop);
    after_keeping();
    shell_.say("");
    entry_.stop.reset();
    ++at_;
    shell_.act("kept");
}

/// What was taken back before stays so.
void MeasureMode::after_keeping() {
    shell_.forget_history();
    taken_back_.clear();
    know_again();
}

void MeasureMode::keep_stroke(Passed passed) {
    if (line_done()) return;
    try {
        memory_.remember(GateStroke{.at = moment_now(), .gate = gate_->gate(), .passed = passed});
    } catch (const std::runtime_error& error) {
        return shell_.complain(error);
    }
    after_keeping();
    shell_.say("");
    gate_->add(passed);
    ++struck_;
    shell_.act("struck");
}

/// The last of this round was mistyped.
void MeasureMode::take_back() {
    const bool pace = view_ == View::pace;
    if (view_ == View::months || (pace ? at_ == 0 : struck_ == 0))
        return shell_.complain("Nothing was entered in this round.");
    shell_.remember();
    try {
        take_back_last(pace);
    } catch (const std::runtime_error& error) {
        return shell_.complain(error);
    }
    if (pace) type_stop();
    shell_.act("taken-back");
    shell_.say(fmt::format("{} {} taken back: Ctrl Z brings it again.", pace ? "Ball" : "Stroke",
                           (pace ? static_cast<int>(at_) : struck_) + 1));
}

void MeasureMode::take_back_last(bool pace) {
    if (pace) {
        const KeptBall last{measures_.balls.back(), stops_.back()};
        memory_.take_back(last.ball);
        taken_back_.emplace_back(last);
        stops_.pop_back();
        know_again();
        --at_;
    } else {
        const GateStroke last = measures_.strokes.back();
        memory_.take_back(last);
        taken_back_.emplace_back(last);
        know_again();
        count_strokes(-1);
    }
}

void MeasureMode::remember_again(const Kept& kept) {
    if (const auto* ball = std::get_if<KeptBall>(&kept)) {
        memory_.remember(ball->ball);
        stops_.push_back(ball->stop);
        know_again();
        ++at_;
        if (view_ == View::pace) type_stop();
    } else {
        memory_.remember(std::get<GateStroke>(kept));
        know_again();
        count_strokes(1);
    }
}

/// The gate of a drill stays.
void MeasureMode::count_strokes(int by) {
    if (!gate_->is_drill())
        gate_.emplace(measures_.strokes, usual_gates(shell_.units().metric), false);
    struck_ += by;
}

/// What was measured becomes the player's spread; the window writes it into the player file.
void MeasureMode::take() {
    if (found_.nothing()) return shell_.complain("Six balls are the least to go by.");
    const Spread before = start_.player.spread, now = spread_by(found_, before);
    Wish wish{Wish::Kind::remember_spread};
    wish.spread = now;
    wish.text = measured_from(found_);
    shell_.wish(std::move(wish));
    start_.player.spread = now;
    taken_ =
        "Your spread is now " + spread_words(now, shell_.units()) + ". " +
        taken_words(before, now, start_.player.stimp_ft.value_or(usual_stimp_ft), shell_.units());
    shell_.act("taken");
}

void MeasureMode::choose_view(int index) {
    view_ = static_cast<View>(index);
    shell_.say("");
    note_.to_top();
    page_.to_top();
    shell_.set_focus(std::nullopt);
    constexpr const char* names[] = {"pace", "line", "months"};
    shell_.act(names[index]);
    if (view_ == View::pace) type_stop();
    if (view_ == View::months) months_ = measured_by_month(measures_);
}

/// The button: what was entered is kept, or another round begins.
void MeasureMode::go_on() {
    if (view_ == View::months) return choose_view(0);
    if (view_ == View::line) {
        if (line_done()) begin_line(usual_balls, false);
        return shell_.act("again");
    }
    if (pace_done()) {
        begin_pace(usual_balls);
        shell_.act("again");
    } else {
        keep_ball();
    }
    type_stop();
}

void MeasureMode::arrived(const std::optional<Setup>&) {
    if (view_ == View::pace && !shell_.typing()) type_stop();  // else it was half typed
}

void MeasureMode::begin(const std::string& drill) {
    choose_view(static_cast<int>(drill == "line" ? View::line : View::pace));
    begin_drill();
}

std::vector<std::string> MeasureMode::sentences() const {
    const Units& units = shell_.units();
    if (view_ == View::months && months_.size() == 1)
        return {
            "From the second month on it says what has changed, and whether by more than "
            "chance."};
    if (view_ == View::months) return change_words(months_);
    if (view_ == View::line && found_.line) return line_words(*found_.line, units);
    if (view_ == View::line)
        return {"After six strokes it says what your line is like, better after twenty."};
    std::vector<std::string> words{
        "After six balls it says what your pace is like, better after twenty."};
    if (found_.pace) words = pace_words(*found_.pace, units);
    if (floor_stimp_ft_) words.push_back(floor_words(*floor_stimp_ft_));
    return words;
}

std::string MeasureMode::drill() const {
    std::string words;
    if (view_ == View::pace && found_.pace) words = drill_words(*found_.pace, shell_.units());
    if (view_ == View::line && found_.line) words = drill_words(*found_.line, shell_.units());
    return words.empty() ? "" : "Drill: " + words;
}

Surround MeasureMode::surround() const {
    return {.views = {"Pace", "Line", "Months"}, .view = static_cast<int>(view_)};
}

std::string MeasureMode::as_text() const {
    std::string text;
    for (const std::string& sentence : sentences()) text += (text.empty() ? "" : " ") + sentence;
    return text;
}

bool MeasureMode::wheel(double clicks, const Vec2& px, Held) {
    ScrolledPanel& panel = shell_.layout().note.contains(px) ? note_ : page_;
    return panel.wheel(clicks, shell_.layout().scale);
}

State MeasureMode::state() const {
    State state = {{"balls", static_cast<double>(measures_.balls.size())},
                   {"strokes", static_cast<double>(measures_.strokes.size())},
                   {"called_m", pace_done() ? 0 : called_m()},
                   {"has_stop", entry_.stop.has_value()},
                   {"gate_width_m", gate_->gate().width_m},
                   {"gate_away_m", gate_->gate().away_m},
                   {"taken", taken_}};
    if (entry_.stop) state.emplace_back("stop_m", entry_.stop->stopped_m);
    return state;
}

}  // namespace dewtrail
