#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

constexpr double handle_u = 24, most_aim_share = 0.6, scroll_clicks = 2;

struct Steps {
    double usual_m, fine_m;
};
Steps aim_steps(const Units& units) {
    return units.metric ? Steps{0.02, 0.005} : Steps{metres_per_inch, metres_per_inch / 4};
}
Steps pace_steps(const Units& units) {
    return units.metric ? Steps{0.1, 0.02} : Steps{3 * metres_per_inch, metres_per_inch};
}

/// To the next whole step that way.
double stepped(double value, double steps, double step) {
    const double to = step * (std::round(value / step) + steps);
    return to == 0 ? 0 : to;  // never -0
}

}  // namespace

Commands PractiseMode::commands() {
    Commands c;
    const auto sure = [this](bool is_sure) {
        Said said = said_;
        said.sure = is_sure;
        change(said, "sure");
    };
    c.add("aim", "←  →", "aim, fine with Shift",
          [this](const Cue& cue) { step_aim(cue.which == 0 ? -1 : 1, cue.shift); });
    c.add("pace", "↑  ↓", "pace, fine with Shift",
          [this](const Cue& cue) { step_pace(cue.which == 0 ? 1 : -1, cue.shift); });
    c.add("type", "A  V", "type the aim, the pace",
          [this](const Cue& cue) { begin_typing(cue.which == 0 ? answer_aim : answer_pace); });
    c.add("sure", "S", "sure, not sure", [this, sure] { sure(!said_.sure.value_or(false)); });
    c.add("sure", "", "", [sure](const Cue& cue) { sure(cue.which == 0); }).at = What::sure;
    c.add("ground-help", "H  C", "help: the slope, contours", [this](const Cue& cue) {
         step_help(cue.which);
     }).at = What::help_level;
    for (ModeCommand& command : c)
        if (!command.may) command.may = [this] { return answering(); };
    c.add("go-on", "Enter", "roll it, next putt", [this] { go_on(); }).at = What::button;
    c.add("pause", "Space", "pause, go on", [this] {
         if (answering()) return shell_.complain("Enter rolls it, as the button does.");
         if (view_ != View::lesson && stage_ != Stage::over && stage_ != Stage::slope)
             shell_.playback.toggle();
     }).at = What::play;
    c.add("view", "E  P  G", "eye, plan, progress", [this](const Cue& cue) {
         choose_view(cue.which);
     }).at = What::view;
    c.add("sessions", "Ctrl O", "the drills", [this] { open_sessions(); }).at = What::session;
    c.add("lesson", "T", "a lesson", [this] { begin_part(lesson_seen); });
    const auto in_lesson = [this] { return view_ == View::lesson; };
    c.add("lesson", "N  O  K", "lesson: another, a kept one, keep it", [this](const Cue& cue) {
         begin_part(lesson_other + cue.which);
     }).may = in_lesson;
    c.add("lesson", "", "", [this](const Cue& cue) { begin_part(cue.which); }).at = What::lesson;
    c.add("scroll", "↑  ↓", "a page up, down", [this](const Cue& cue) {
         page_.wheel(cue.which == 0 ? scroll_clicks : -scroll_clicks, shell_.layout().scale);
     }).may = [this] { return has_page() && !answering(); };
    c.add("again", "", "", [this](const Cue& cue) { look_again(cue.which); }).at = What::putt;
    c.add("at-home", "", "", [this] { drill_at_home(); }).at = What::measured;
    shell_.add_scrub_commands(c);
    return c;
}

/// Each where it stands in the note; what a drill gives is none.
std::vector<Value> PractiseMode::fields() {
    const Units& units = shell_.units();
    const Layout& l = shell_.layout();
    if (view_ == View::lesson) return lesson_fields();
    std::vector<Value> values;
    const auto add = [&](const char* name, int index, std::string text, double indent, double up,
                         auto type) {
        Value value{name, FocusStop::on(What::answer, index), std::move(text), type, 25};
        value.where = [x = l.u(indent), above = l.u(up), h = l.type(34)](const Rect& hit) {
            return Rect{hit.x + x, hit.bottom() - h - above, hit.w - x, h};
        };
        values.push_back(std::move(value));
    };
    if (stage_ == Stage::slope)
        for (int i = 0; i < SlopeSpot::values; ++i)
            add("slope-words", answer_slope + i, spot_.next() ? spot_.words(i) : "", 0, 4,
                [this, i](const std::string& text) { typed_slope(i, text); });
    for (int i = 0; i < static_cast<int>(values.size()); ++i)
        values[static_cast<std::size_t>(i)].example = SlopeSpot::example(i);
    if (stage_ != Stage::asking) return values;
    const double indent = l.portrait ? 96 : 34;
    if (!gives_aim())
        add("aim-words", answer_aim, said_.aim.to_edit(units), indent, 8,
            [this](const std::string& text) {
                say_aim(parse_said_aim(text, shell_.units()), "typed-aim");
            });
    if (!gives_pace())
        add("pace-words", answer_pace, format_distance(said_.level_putt_m, units), indent, 8,
            [this](const std::string& text) {
                say_pace(parse_level_roll_m(text, shell_.units(), "pace"), "typed-pace");
            });
    return values;
}

/// What the page that is seen says of the tests at home.
std::optional<HomeDrill> PractiseMode::home() const {
    if (view_ == View::progress) return progress_ ? progress_->at_home : std::nullopt;
    return end_words(*session_, shell_.units()).home;
}

void PractiseMode::drill_at_home() {
    if (const auto drill = home()) shell_.change_mode(ModeName::measure, drill->test());
}

std::optional<FocusStop> PractiseMode::first_value() const {
    if (stage_ == Stage::slope && view_ != View::lesson)
        return FocusStop::on(What::answer, answer_slope + spot_.next().value_or(0));
    if (!answering()) return std::nullopt;
    return FocusStop::on(What::answer, gives_aim() ? answer_pace : answer_aim);
}

/// What is asked, as long as it stands where it began: Enter would make it the answer. Else, and
/// while something is typed, empty.
std::string PractiseMode::unsaid() const {
    if (shell_.typing()) return "";
    const Units& units = shell_.units();
    if (gives_aim())
        return said_.level_putt_m == begun_.level_putt_m
                   ? format_distance(said_.level_putt_m, units)
                   : "";
    return said_.aim.offset_m == begun_.aim.offset_m ? said_.aim.words(units) : "";
}

void PractiseMode::begin_typing(int answer) {
    shell_.begin_typing(FocusStop::on(What::answer, answer));
}

void PractiseMode::say_aim(const SaidAim& aim, const std::string& name) {
    Said said = said_;
    said.aim = aim;
    change(said, name);
}

void PractiseMode::say_pace(double level_putt_m, const std::string& name) {
    Said said = said_;
    said.level_putt_m = level_putt_m;
    change(said, name);
}

Rect PractiseMode::pace_ruler() const {
    const Layout& l = shell_.layout();
    const Rect& strip = l.roll_strip;
    const double from = strip.x + l.margin() + (l.portrait ? 0 : l.type(110));
    return {from, std::round(strip.y + 0.5 * strip.h), strip.right() - l.margin() - from, 0};
}

std::optional<Vec2> PractiseMode::green_at(const Vec2& px) const {
    if (view_ != View::eye) return camera_.to_green(px);
    return eye_.to_green(px, on_ground(truth_.putt, truth_.putt.hole).z());
}

std::optional<Vec2> PractiseMode::px_of(const Vec2& green) const {
    if (view_ != View::eye) return camera_.to_px(green);
    return eye_.to_px(on_ground(truth_.putt, green));
}

/// The ruler of the pace; or, anywhere near the rail, the diamond comes to the pointer.
std::optional<Drag> PractiseMode::grab(const Grip& grip) {
    if (!answering() || grip.button != Button::left) return std::nullopt;
    Drag drag;
    drag.at_once = true;
    if (grip.target && grip.target->what == What::ruler) {
        drag.move = [this](const Vec2& px, Held) {
            const Rect ruler = pace_ruler();
            const double share = std::clamp((px.x() - ruler.x) / ruler.w, 0.0, 1.0);
            const double step = pace_steps(shell_.units()).fine_m;
            say_pace(std::max(step, stepped(share * most_pace_m(), 0, step)), "drag-pace");
        };
        return drag;
    }
    if (grip.target || gives_aim() || view_ == View::progress ||
        !shell_.layout().green.contains(grip.px))
        return std::nullopt;
    const auto aim = aim_px(), at = green_at(grip.px);
    if (!aim || !at) return std::nullopt;
    const PlayerPoint p = in_player_frame(truth_.putt, *at);
    const bool near_rail =
        std::abs(p.along_m - truth_.putt.distance_m()) < 0.12 * truth_.putt.distance_m();
    if ((grip.px - *aim).norm() > shell_.reach(shell_.layout().u(handle_u)) && !near_rail)
        return std::nullopt;
    drag.move = [this](const Vec2& px, Held) {
        const auto to = green_at(px);
        if (!to) return;
        const double most = most_aim_share * truth_.putt.distance_m();
        const double offset = in_player_frame(truth_.putt, *to).offset_m;
        say_aim({std::clamp(stepped(offset, 0, aim_steps(shell_.units()).fine_m), -most, most)},
                "drag-aim");
    };
    return drag;
}

void PractiseMode::choose_view(int index) {
    page_.to_top();
    see(static_cast<View>(index));
    if (view_ == View::lesson && !lesson_.told) plan_on("");
    if (view_ == View::plan && stage_ == Stage::asking) used_.plan = true;
    if (!sees_page() && stage_ == Stage::over && !again_ && !played_.empty())
        look_again(static_cast<int>(played_.size()) - 1);
    shell_.forget_ground();
    constexpr const char* names[] = {"eye", "plan", "progress", "lesson"};
    shell_.act(names[index]);
}

bool PractiseMode::wheel(double clicks, const Vec2& px, Held held) {
    if (shell_.layout().note.contains(px) && note_.wheel(clicks, shell_.layout().scale))
        return true;
    if (has_page() && page_area(shell_.layout()).contains(px))
        return page_.wheel(clicks, shell_.layout().scale);
    if (!answering()) return false;
    if (shell_.layout().roll_strip.contains(px)) step_pace(clicks, held.shift);
    if (shell_.layout().green.contains(px)) step_aim(clicks, held.shift);
    return true;
}

void PractiseMode::step_aim(double steps, bool fine) {
    if (gives_aim()) return;
    const Steps s = aim_steps(shell_.units());
    const double most = most_aim_share * truth_.putt.distance_m();
    say_aim(
        {std::clamp(stepped(said_.aim.offset_m, steps, fine ? s.fine_m : s.usual_m), -most, most)},
        "aim");
}

void PractiseMode::step_pace(double steps, bool fine) {
    if (gives_pace()) return;
    const Steps s = pace_steps(shell_.units());
    say_pace(std::clamp(stepped(said_.level_putt_m, steps, fine ? s.fine_m : s.usual_m), s.fine_m,
                        most_pace_m()),
             "pace");
}

/// Shown, and hidden again; what was seen once has helped. The plan is a view.
void PractiseMode::step_help(int step) {
    if (step == help_steps - 1)
        return choose_view(static_cast<int>(view_ == View::plan ? View::eye : View::plan));
    bool& shown = step_of(shown_, step);
    shown = !shown;
    step_of(used_, step) = true;
}

/// What a screen reader, or a pupil's diary, wants to have.
std::string PractiseMode::as_text() const {
    if (const auto lesson = lesson_to_print()) return lesson_text(*lesson);
    if (session_->marked().empty() || !told())
        return aim_with_figure(said_.aim.offset_m, shell_.units());
    const Marked& last = looked_at();
    return headline(last.mark, shell_.units()) + ". " +
           diagnosis_sentence(last.mark, shell_.units()) +
           " The read: " + aim_with_figure(*last.mark.best.aim_offset_m, shell_.units()) + ".";
}

Places PractiseMode::places() const {
    Places places;
    if (const auto aim = aim_px()) places.emplace_back("aim", *aim);
    if (const auto hole = px_of(truth_.putt.hole)) places.emplace_back("hole", *hole);
    const Rect ruler = pace_ruler();
    places.emplace_back("pace",
                        Vec2(ruler.x + ruler.w * said_.level_putt_m / most_pace_m(), ruler.y));
    return places;
}

}  // namespace dewtrail
