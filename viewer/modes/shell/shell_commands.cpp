#include <fmt/format.h>

#include <algorithm>

#include "viewer/modes/shell/shell.hpp"

/// The shell's own table of commands, and how a key finds its command.
namespace dewtrail {
namespace {

constexpr double scrub_s = 0.05, far_scrub_s = 0.5;

bool is_arrow(int code) {
    return code >= key::up && code <= key::right;
}

/// A key that writes a character, Space apart: no value begins with one.
bool prints(KeyPress pressed) {
    return !pressed.ctrl && pressed.code > ' ' && pressed.code < 127;
}

}  // namespace

Commands Shell::own_commands() {
    Commands c;
    c.add("mode", "Ctrl 1  2  3  4  5  6", "another mode", [this](const Cue& cue) {
         change_mode(static_cast<ModeName>(cue.which));
     }).at = What::mode;
    c.add("undo", "Ctrl Z  Y", "undo, redo", [this](const Cue& cue) {
         undo(cue.which == 0 && !cue.shift);
     }).at = What::undo;
    c.add("copy", "Ctrl C", "copy it as text", [this] {
         wish({Wish::Kind::copy_text, mode_->as_text()});
     }).at = What::copy;
    c.add("pages", "Ctrl P", "print a page", [this] { open_pages(); }).at = What::print;
    c.add("pupils", "Ctrl U", "whose putts, and a new pupil", [this] {
         wish({Wish::Kind::pupils});
     }).at = What::pupil;
    c.add("swell", "I", "a swell in the time of your stroke", [this] { toggle_swell(); }).at =
        What::swell;
    c.add("dusk", "D", "dew, dusk", [this] {
         const bool dew = appearance_.theme == Theme::dusk;
         appearance_.theme = dew ? Theme::dew : Theme::dusk;
         act(dew ? "dew" : "dusk");
     }).at = What::dusk;
    c.add("units", "U", "feet, metres", [this] {
         appearance_.units.metric = !appearance_.units.metric;
         lay_out_again();
     }).at = What::units;
    c.add("text", "Ctrl +  −  0", "text size", [this](const Cue& cue) {
         constexpr double by[] = {0.25, -0.25};
         set_text(cue.which == 2 ? 1 : appearance_.text + by[cue.which]);
     }).at = What::text_size;
    c.add("full-screen", "F11", "full screen", [this] { wish({Wish::Kind::full_screen}); }).at =
        What::full_screen;
    c.add("focus", "Tab", "next stop", [this](const Cue& cue) { step_focus(cue.shift); });
    c.add("help", "F1  ?", "", [this] { open_help(); }).at = What::help;
    c.add("show-file", "", "", [this](const Cue& cue) {
         const std::filesystem::path file = said_.file;
         wish({Wish::Kind::show_file, cue.which == 0 ? file : file.parent_path()});
     }).at = What::made;
    c.add("escape", "Esc", "", [this] {
         said_ = {};
         focus_.reset();
     }).at = What::close;
    return c;
}

void Shell::add_roll_commands(Commands& commands) {
    commands
        .add("roll", "Space", "roll, pause",
             [this] {
                 playback.toggle();
                 act(playback.running ? "roll" : "pause");
             })
        .at = What::play;
    add_scrub_commands(commands);
}

void Shell::add_scrub_commands(Commands& commands) {
    const auto seek = [this](double time_s) {
        playback.running = false;
        playback.seek(time_s);
        mode_->scrubbed();
    };
    commands.add("scrub", "J  L", "back, on", [this, seek](const Cue& cue) {
        const double step = cue.shift ? far_scrub_s : scrub_s;
        seek(playback.time_s + (cue.which == 0 ? -step : step));
    });
    commands.add("scrub", "Home  End", "to its start, its end",
                 [this, seek](const Cue& cue) { seek(cue.which == 0 ? 0 : playback.end_s); });
    commands.add("slow", "M", "slow motion", [this] { playback.slower(); }).at = What::slow;
}

void Shell::set_text(double text) {
    appearance_.text = std::clamp(text, 1.0, 1.5);
    lay_out_again();
}

/// The rhythm of a stroke, to be heard; off until it is asked for.
void Shell::toggle_swell() {
    appearance_.swell = !appearance_.swell;
    Wish swell{Wish::Kind::swell};
    swell.on = appearance_.swell;
    wish(std::move(swell));
    say(appearance_.swell
            ? "The tone swells as the putter swings, and is silent at the ball. I stops it."
            : "");
    act(appearance_.swell ? "swell" : "swell-off");
}

/// What names nothing itself is named by its table.
void Shell::run(const ModeCommand& command, const Cue& cue) {
    const std::size_t named = actions_.size();
    const std::string name = command.name;
    command.does(cue);
    if (actions_.size() == named) act(name);
}

bool Shell::run_at(const Target& target, bool twice) {
    for (const Commands& table : {mode_->commands(), own_commands()})
        if (const ModeCommand* command = command_at(table, target.what)) {
            run(*command, {target.index, false, twice});
            return true;
        }
    return false;
}

void Shell::press(KeyPress pressed) {
    if (pressed.code == '/' && pressed.shift) pressed.code = '?';
    key_taken_ = !entry_;
    if (drag_) {
        if (pressed.code == key::escape) cancel_drag();
        return;
    }
    if (entry_) return type_key(pressed);
    if (sheet_open() && !pressed.ctrl) return press_in_sheet(pressed);
    if (pressed.code == key::back) pressed.code = key::erase;
    const auto value = focused_value();
    if (value && prints(pressed)) return void(key_taken_ = false);
    if (value && value->step && !pressed.ctrl && is_arrow(pressed.code)) {
        const bool more = pressed.code == key::up || pressed.code == key::right;
        return value->step(more ? 1 : -1, pressed.shift);
    }
    if (focused(What::time_line) && !pressed.ctrl && is_arrow(pressed.code)) {
        const bool back = pressed.code == key::down || pressed.code == key::left;
        return press({back ? 'j' : 'l', false, pressed.shift});
    }
    if (pressed.code == key::enter && focus_) return press_enter();
    for (const Commands& table : {mode_->commands(), own_commands()}) {
        const auto [command, cue] = command_of_key(table, pressed);
        if (command) return run(*command, cue);
    }
}

/// On what was focused on purpose: a value is typed, anything else clicked.
void Shell::press_enter() {
    if (focused_value()) return begin_typing(*focus_);
    if (focus_->mark != MarkId::none) return;
    if (const auto target = find_target(targets_, focus_->what, focus_->index)) {
        if (!run_at(*target, true) && target->what != What::time_line) click(*target, true);
        return;
    }
    focus_.reset();
    press({key::enter});
}

/// Marks on the green come after the words at the top.
void Shell::step_focus(bool back) {
    Targets stops = targets_;
    std::erase_if(stops, [](const Target& target) { return !is_stop(target.what); });
    std::stable_sort(stops.begin(), stops.end(), [](const Target& a, const Target& b) {
        return rank_of(a.what) < rank_of(b.what);
    });
    std::vector<FocusStop> order;
    for (const Target& target : stops) order.push_back(FocusStop::on(target.what, target.index));
    const auto below = std::find_if(order.begin(), order.end(),
                                    [](const FocusStop& stop) { return stop.what > What::help; });
    std::vector<FocusStop> marks;
    for (const MarkId mark : mode_->marks_to_focus()) marks.push_back(FocusStop::on(mark));
    order.insert(below, marks.begin(), marks.end());
    focus_ = dewtrail::step_focus(order, focus_, back);
}

std::optional<Value> Shell::value_at(const FocusStop& stop) const {
    if (sheet_.line && sheet_.line->stop == stop) return sheet_.line;
    for (Value& value : mode_->fields())
        if (value.stop == stop) return std::move(value);
    return std::nullopt;
}

/// Only one that is on the screen.
std::optional<Value> Shell::focused_value() const {
    if (!focus_ || focus_->mark != MarkId::none ||
        !find_target(beneath_, focus_->what, focus_->index))
        return std::nullopt;
    return value_at(*focus_);
}

}  // namespace dewtrail
