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

/// The words at the top, and those of a message.
bool at_the_top(const FocusStop& stop) {
    return stop.mark == MarkId::none && stop.what <= What::close;
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
    if (prints(pressed) && struck_value(static_cast<char>(pressed.code)))
        return void(key_taken_ = false);
    const auto value = focused_value();
    if (value && pressed.code == key::back) {
        begin_typing(*focus_);
        return entry_->edit.erase(true);
    }
    if (value && value->step && !pressed.ctrl && is_arrow(pressed.code)) {
        const bool more = pressed.code == key::up || pressed.code == key::right;
        return value->step(more ? 1 : -1, pressed.shift);
    }
    if (focused(What::time_line) && !pressed.ctrl && is_arrow(pressed.code)) {
        const bool back = pressed.code == key::down || pressed.code == key::left;
        return press({back ? 'j' : 'l', false, pressed.shift});
    }
    if (pressed.code == key::enter && focus_) return press_enter();
    run_key(pressed);
}

/// Whoever gives a command has left the words at the top, where Tab may have led: the next Enter is
/// none of theirs.
void Shell::run_key(KeyPress pressed) {
    for (const Commands& table : {mode_->commands(), own_commands()}) {
        const auto [command, cue] = command_of_key(table, pressed);
        if (!command) continue;
        if (focus_ && at_the_top(*focus_) && pressed.code != key::tab) focus_.reset();
        return run(*command, cue);
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

/// The values first, then marks on the green, then all else; the words at the top come last.
void Shell::step_focus(bool back) {
    Targets stops = targets_;
    std::erase_if(stops, [](const Target& target) { return !is_stop(target.what); });
    std::stable_sort(stops.begin(), stops.end(), [](const Target& a, const Target& b) {
        return rank_of(a.what) < rank_of(b.what);
    });
    std::vector<FocusStop> order;
    for (const Target& target : stops) order.push_back(FocusStop::on(target.what, target.index));
    std::rotate(order.begin(), std::find_if_not(order.begin(), order.end(), at_the_top),
                order.end());
    const auto beyond = std::find_if(order.begin(), order.end(), [](const FocusStop& stop) {
        return stop.what > What::face || at_the_top(stop);
    });
    std::vector<FocusStop> marks;
    for (const MarkId mark : mode_->marks_to_focus()) marks.push_back(FocusStop::on(mark));
    order.insert(beyond, marks.begin(), marks.end());
    focus_ = dewtrail::step_focus(order, focus_, back);
}

std::optional<Value> Shell::value_at(const FocusStop& stop) const {
    if (sheet_.line && sheet_.line->stop == stop) return sheet_.line;
    for (Value& value : mode_->fields())
        if (value.stop == stop) return std::move(value);
    return std::nullopt;
}

/// Only one that is on the screen.
std::optional<Value> Shell::shown_value(const FocusStop& stop) const {
    if (stop.mark != MarkId::none || !find_target(beneath_, stop.what, stop.index))
        return std::nullopt;
    return value_at(stop);
}

std::optional<Value> Shell::focused_value() const {
    return focus_ ? shown_value(*focus_) : std::nullopt;
}

/// Where a character goes: to the value that has the focus. A digit is never a command: without
/// such a value it begins the mode's first.
std::optional<FocusStop> Shell::struck_value(char character) const {
    if (focused_value()) return focus_;
    if (character < '0' || character > '9') return std::nullopt;
    const auto first = mode_->first_value();
    return first && shown_value(*first) ? first : std::nullopt;
}

}  // namespace dewtrail
