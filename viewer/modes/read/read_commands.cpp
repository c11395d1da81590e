#include <cmath>

#include "viewer/modes/read/read_mode.hpp"

namespace dewtrail {

Commands ReadMode::commands() {
    Commands c;
    ModeCommand& close = c.add("close-spread", "Esc", "", [this] { toggle_spread(); });
    close.at = What::spread;
    close.may = [this] { return spread_open_; };
    ModeCommand& numbers = c.add("numbers", "Esc", "", [this] { toggle_commit(); });
    numbers.at = What::commit;
    numbers.may = [this] { return commit_; };
    c.add("nudge", "←  →  ↑  ↓", "move what has the focus", [this](const Cue& cue) {
         nudge(cue);
     }).may = [this] {
        const auto& focus = shell_.focus();
        return focus && (focus->mark != MarkId::none || focus->what == What::choice);
    };
    c.add("roll", "Space", "roll, pause", [this] {
         shell_.playback.toggle();
         shell_.act(shell_.playback.running ? "roll" : "pause");
         hint_done(2);
     }).at = What::play;
    shell_.add_scrub_commands(c);
    editor_.add_commands(c);
    c.add("turn", "Ctrl ←  →", "turn the fall line",
          [this](const Cue& cue) { turn_fall_line(cue.which == 0 ? -1 : 1); });
    c.add("mirror", "X", "mirror the putt",
          [this] { change([](Setup& s) { mirror(s); }, "mirror"); });
    c.add("view", "P  E  R", "plan, eye, room", [this](const Cue& cue) {
         choose_view(cue.which);
     }).at = What::view;
    c.add("best", "B", "best choice into the read", [this] { take_best(BestKind::fewest_putts); });
    c.add("best", "", "", [this](const Cue& cue) {
         take_best(static_cast<BestKind>(cue.which));
     }).at = What::best;
    ModeCommand& spread = c.add("spread", "Y", "your spread", [this] { toggle_spread(); });
    spread.at = What::spread;
    spread.may = [this] { return !commit_ && !room_; };
    c.add("preset", "", "", [this](const Cue& cue) { choose_preset(cue.which); }).at = What::preset;
    c.add("detail", "K", "coach detail", [this] { note_state_.detail = !note_state_.detail; }).at =
        What::detail;
    c.add("commit", "C", "commit: hide every number", [this] { toggle_commit(); }).at =
        What::commit;
    c.add("note", "N", "note away", [this] { show_note(!note_shown_); });
    c.add("greens", "Ctrl O", "open a green", [this] {
         const auto open = [this](const std::string& name) { open_green(name); };
         shell_.open_greens(start_.greens(), open);
     }).at = What::open;
    c.add("zoom", "Ctrl ↑  ↓", "zoom",
          [this](const Cue& cue) { zoom(cue.which == 0 ? 1.2 : 1 / 1.2, pane().centre()); });
    c.add("fit", "Z", "all in sight", [this] {
        view_.zoomed = false;
        fit_camera(true);
    });
    c.add("finish", "", "", [this](const Cue& cue) { choose_finish(cue.which); }).at = What::choice;
    c.add("use-offer", "", "", [this] { use_offer(); }).at = What::offer;
    c.add("pin", "", "", [this](const Cue& cue) {
         const auto glyph = static_cast<Glyph>(cue.which);
         const bool pinned = note_state_.pinned == glyph;
         note_state_.pinned = pinned ? std::nullopt : std::optional(glyph);
     }).at = What::row;
    return c;
}

std::vector<Value> ReadMode::fields() {
    std::vector<Value> values;
    editor_.add_values(values);
    return values;
}

std::vector<MarkId> ReadMode::marks_to_focus() const {
    if (room_) return {};
    std::vector<MarkId> marks = {MarkId::ball};
    if (setup_.green) marks.push_back(MarkId::hole);
    if (has_fall_line()) marks.push_back(MarkId::drop);
    return marks;
}

/// Arrows change the mark that has the focus, or choose among the finishes.
void ReadMode::nudge(const Cue& cue) {
    const bool more = cue.which == 1 || cue.which == 2, sideways = cue.which < 2;
    const double way = more ? 1 : -1;
    const FocusStop focus = *shell_.focus();
    if (focus.what == What::choice && focus.mark == MarkId::none)
        choose_finish(focus.index + static_cast<int>(way));
    if (focus.mark == MarkId::ball)
        editor_.step(sideways ? Field::ball_at : Field::distance, sideways ? way : -way, cue.shift,
                     "ball");
    if (focus.mark == MarkId::hole) {
        const Vec2 by = (cue.shift ? metres_per_foot : metres_per_inch) * way *
                        (sideways ? Vec2(1, 0) : Vec2(0, 1));
        change([&](Setup& s) { place_hole(s, s.hole + by); }, "hole");
    }
    if (focus.mark == MarkId::drop)
        sideways ? turn_fall_line(way) : editor_.step(Field::slope, way, cue.shift, "slope");
}

void ReadMode::turn_fall_line(double degrees) {
    if (setup_.green) return;
    change([&](Setup& s) { set_clock(s, on_the_dial(s.clock_h - degrees / 30)); }, "turn");
}

bool ReadMode::wheel(double clicks, const Vec2& px, Held held) {
    if (shell_.layout().note.contains(px)) {
        const double most = std::ceil(std::max(0.0, laid_.height - shell_.layout().note.h));
        const double step = std::round(shell_.layout().u(48) * clicks);
        note_state_.scrolled_px = std::clamp(note_state_.scrolled_px - step, 0.0, most);
        return true;
    }
    if (target_at(shell_.targets(), px) || !pane().contains(px)) return false;
    const MarkId mark = mark_at(px);
    if (held.ctrl)
        zoom(std::pow(1.15, clicks), px);
    else if (mark == MarkId::ball)
        editor_.step(Field::ball_at, clicks, held.shift, "wheel");
    else if (plan_.slope_figure.contains(px))
        editor_.step(Field::slope, clicks, held.shift, "wheel");
    else if (mark == MarkId::drop || mark == MarkId::bar || plan_.fall_line.contains(px))
        turn_fall_line(clicks);
    return true;
}

Places ReadMode::places() const {
    Places places = {{"drop", plan_.drop}, {"bar", plan_.bar}};
    const Marks& m = plan_.marks;
    for (const auto& [name, at] : {std::pair("ball", m.ball), {"hole", m.hole}, {"aim", m.aim}})
        if (at) places.emplace_back(name, *at);
    for (const Target& target : shell_.targets())
        if (target.what == What::best)
            places.emplace_back(words_for(static_cast<BestKind>(target.index)),
                                target.hit.centre());
    return places;
}

}  // namespace dewtrail
