#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

constexpr double handle_u = 24, most_aim_share = 0.6;

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
    return step * (std::round(value / step) + steps);
}

}  // namespace

Rect PractiseMode::pace_ruler() const {
    const Rect& strip = layout_.roll_strip;
    const double from = strip.x + layout_.u(40) + layout_.type(110);
    return {from, std::round(strip.y + 0.5 * strip.h), strip.right() - layout_.u(40) - from, 0};
}

std::optional<Vec2> PractiseMode::green_at(const Vec2& px) const {
    if (view_ == View::plan) return camera_.to_green(px);
    return eye_.to_green(px, on_ground(truth_.putt, truth_.putt.hole).z());
}

std::optional<Vec2> PractiseMode::px_of(const Vec2& green) const {
    if (view_ == View::plan) return camera_.to_px(green);
    return eye_.to_px(on_ground(truth_.putt, green));
}

bool PractiseMode::hand_cursor() const {
    if (handle_ != Handle::none) return true;
    if (Mode::hand_cursor()) return hovered_->what != What::row;
    if (stage_ != Stage::asking || gives_aim() || view_ == View::progress) return false;
    const auto at = px_of(place_of_aim(truth_.putt, said_.aim_m));
    return at && (pointer_ - *at).norm() < layout_.u(handle_u);
}

void PractiseMode::pointer_moved(const Vec2& px, Held) {
    pointer_ = px;
    if (handle_ != Handle::none) return drag_to(px);
    hovered_ = target_at(targets_, px);
}

void PractiseMode::drag_to(const Vec2& px) {
    Said said = said_;
    if (handle_ == Handle::time) {
        playback_.running = false;
        playback_.seek(time_at(layout_, playback_, px.x()));
        return act("scrub");
    }
    if (handle_ == Handle::pace) {
        const Rect ruler = pace_ruler();
        const double share = std::clamp((px.x() - ruler.x) / ruler.w, 0.0, 1.0);
        const double step = pace_steps(units()).fine_m;
        said.level_putt_m = std::max(step, stepped(share * most_pace_m(), 0, step));
    } else if (const auto at = green_at(px)) {
        const PlayerPoint p = in_player_frame(truth_.putt, *at);
        const double most = most_aim_share * truth_.putt.distance_m();
        said.aim_m = std::clamp(stepped(p.offset_m, 0, aim_steps(units()).fine_m), -most, most);
    }
    change(said, handle_ == Handle::pace ? "drag-pace" : "drag-aim");
}

void PractiseMode::pointer_pressed(const Vec2& px, Button button, Held held, bool twice) {
    pointer_moved(px, held);
    typing_.reset();
    if (click_in_sheet() || button != Button::left) return;
    if (hovered_) return click(*hovered_, twice);
    focus_.reset();
    if (stage_ != Stage::asking || gives_aim() || view_ == View::progress) return;
    if (!layout_.green.contains(px)) return;
    // Anywhere near the rail: the diamond comes to the pointer.
    const auto aim = px_of(place_of_aim(truth_.putt, said_.aim_m));
    const auto at = green_at(px);
    if (!aim || !at) return;
    const PlayerPoint p = in_player_frame(truth_.putt, *at);
    const bool near_rail =
        std::abs(p.along_m - truth_.putt.distance_m()) < 0.12 * truth_.putt.distance_m();
    if ((px - *aim).norm() > layout_.u(handle_u) && !near_rail) return;
    handle_ = Handle::aim;
    before_drag_ = said_;
    focus_ = FocusStop::on(What::answer, answer_aim);
    drag_to(px);
}

void PractiseMode::pointer_released(const Vec2& px) {
    pointer_ = px;
    if (handle_ == Handle::none) return;
    const bool answered = handle_ != Handle::time && !(said_ == before_drag_);
    handle_ = Handle::none;
    if (answered) history_.remember(before_drag_);
    act("drop");
}

void PractiseMode::click(const Target& target, bool twice) {
    if (click_common(target)) return;
    switch (target.what) {
        case What::view:
            return choose_view(target.index);
        case What::button:
            return go_on();
        case What::sure: {
            Said said = said_;
            said.sure = target.index == 0;
            return change(said, "sure");
        }
        case What::session:
            return open_sessions();
        case What::help_level:
            return press({'h'});
        case What::play:
            return press({key::space});
        case What::slow:
            return press({'m'});
        case What::close:
            message_.clear();
            return act("close");
        case What::answer:
            focus_ = FocusStop::on(What::answer, target.index);
            if (twice) begin_typing(target.index);
            return;
        case What::time_line:
        case What::field:  // the ruler of the pace
            handle_ = target.what == What::field ? Handle::pace : Handle::time;
            if (handle_ == Handle::pace) focus_ = FocusStop::on(What::answer, answer_pace);
            before_drag_ = said_;
            return drag_to(pointer_);
        default:
            return;
    }
}

void PractiseMode::choose_view(int index) {
    view_ = static_cast<View>(index);
    view_chosen_ = view_ != View::progress;
    progress_.reset();
    forget_ground();
    act(index == 0 ? "plan" : index == 1 ? "eye" : "progress");
}

void PractiseMode::wheel(double clicks, const Vec2& px, Held held) {
    if (stage_ != Stage::asking || handle_ != Handle::none) return;
    if (layout_.roll_strip.contains(px)) return step_pace(clicks, held.shift);
    if (layout_.green.contains(px)) step_aim(clicks, held.shift);
}

void PractiseMode::step_aim(double steps, bool fine) {
    if (gives_aim()) return;
    const Steps s = aim_steps(units());
    const double most = most_aim_share * truth_.putt.distance_m();
    Said said = said_;
    said.aim_m = std::clamp(stepped(said.aim_m, steps, fine ? s.fine_m : s.usual_m), -most, most);
    if (said.aim_m == 0) said.aim_m = 0;  // never -0
    change(said, "aim");
}

void PractiseMode::step_pace(double steps, bool fine) {
    if (gives_pace()) return;
    const Steps s = pace_steps(units());
    Said said = said_;
    said.level_putt_m = std::clamp(stepped(said.level_putt_m, steps, fine ? s.fine_m : s.usual_m),
                                   s.fine_m, most_pace_m());
    change(said, "pace");
}

void PractiseMode::begin_typing(int field) {
    if (stage_ == Stage::slope && field >= answer_slope) {
        typing_ = field;
        focus_ = FocusStop::on(What::answer, field);
        return act("type");
    }
    if (stage_ != Stage::asking || (field == answer_aim ? gives_aim() : gives_pace())) return;
    typing_ = field;
    focus_ = FocusStop::on(What::answer, field);
    act("type");
}

std::optional<Typing> PractiseMode::typing() const {
    if (!typing_) return std::nullopt;
    const auto target = find_target(targets_, What::answer, *typing_);
    if (!target) return std::nullopt;
    if (*typing_ >= answer_slope) {
        const double h = layout_.type(34);
        return Typing{
            *typing_, spot_.words(*typing_ - answer_slope),
            Rect{target->hit.x, target->hit.bottom() - h - layout_.u(4), target->hit.w, h},
            layout_.type(25)};
    }
    const Units& u = units();
    const std::string side = said_.aim_m < 0 ? " left" : " right";
    const std::string text = *typing_ == answer_aim
                                 ? format_aim(said_.aim_m, u) + (said_.aim_m == 0 ? "" : side)
                                 : format_distance(said_.level_putt_m, u);
    const double h = layout_.type(34);
    const Rect where{target->hit.x + layout_.u(34), target->hit.bottom() - h - layout_.u(8),
                     target->hit.w - layout_.u(34), h};
    return Typing{*typing_, text, where, layout_.type(25)};
}

void PractiseMode::typed(const std::string& text) {
    if (!typing_) return;
    const int field = *typing_;
    typing_.reset();
    if (text.empty()) return;
    try {
        if (field >= answer_slope) return typed_slope(field - answer_slope, text);
        Said said = said_;
        if (field == answer_aim)
            said.aim_m = parse_aim_offset_m(text, units());
        else
            said.level_putt_m = parse_level_roll_m(text, units(), "pace");
        change(said, field == answer_aim ? "typed-aim" : "typed-pace");
        focus_.reset();  // the next Enter rolls it
    } catch (const InputError& error) {
        say(spoken(error.what()) + " " + spoken(error.remedy()));
        act("message");
    } catch (const std::runtime_error& error) {  // the memory cannot be written
        say(error.what());
        act("message");
    }
}

void PractiseMode::press(KeyPress pressed) {
    if (press_while_typing(pressed) || press_in_sheet(pressed)) return;
    if (pressed.code == key::escape) {
        if (handle_ != Handle::none) {
            said_ = before_drag_;
            handle_ = Handle::none;
        }
        message_.clear();
        focus_.reset();
        return;
    }
    if (pressed.ctrl && pressed.code == 'o') return open_sessions();
    if (press_common(pressed)) return;
    if (pressed.ctrl && pressed.code == 'z') return undo(!pressed.shift);
    if (pressed.ctrl && pressed.code == 'y') return undo(false);
    if (pressed.ctrl && pressed.code == 'c') {
        wish({Wish::Kind::copy_text, as_text()});
        return act("copy");
    }
    if (pressed.ctrl) return;
    if (pressed.code == key::tab) {
        return step_focus_over({What::mode, What::view, What::print, What::units, What::help,
                                What::close, What::answer, What::sure, What::button, What::play,
                                What::time_line, What::slow, What::help_level, What::session},
                               pressed.shift);
    }
    if (pressed.code == key::enter) {
        const bool typable = stage_ == Stage::asking || stage_ == Stage::slope;
        if (focus_ && focus_->what == What::answer && typable) return begin_typing(focus_->index);
        if (focus_ && focus_->what != What::button)
            if (const auto target = find_target(targets_, focus_->what, focus_->index))
                return click(*target, false);
        return go_on();
    }
    press_answer(pressed);
}

bool PractiseMode::press_answer(KeyPress pressed) {
    if (press_playback(playback_, pressed)) return true;
    switch (pressed.code) {
        case key::left:
            return step_aim(-1, pressed.shift), true;
        case key::right:
            return step_aim(1, pressed.shift), true;
        case key::up:
            return step_pace(1, pressed.shift), true;
        case key::down:
            return step_pace(-1, pressed.shift), true;
        case 'a':
            return begin_typing(answer_aim), true;
        case 'v':
            return begin_typing(answer_pace), true;
        case 's': {
            Said said = said_;
            said.sure = !said_.sure.value_or(false);
            return change(said, "sure"), true;
        }
        case 'h':
            if (stage_ != Stage::asking) return true;
            help_chosen_ = true;
            help_ = static_cast<GroundHelp>((static_cast<int>(help_) + 1) % 3);
            if (help_ == GroundHelp::eye_only) view_ = View::eye;
            forget_ground();
            return act("ground-help"), true;
        case 'p':
            return choose_view(0), true;
        case 'e':
            return choose_view(1), true;
        case 'g':
            return choose_view(2), true;
        case key::space:
            if (stage_ == Stage::asking) return roll_it(), true;
            if (stage_ != Stage::over && stage_ != Stage::slope) playback_.toggle(), act("pause");
            return true;
        default:
            return false;
    }
}

/// What a screen reader, or a pupil's diary, wants to have.
std::string PractiseMode::as_text() const {
    if (session_->marked().empty() || !told()) return aim_with_figure(said_.aim_m, units());
    const Marked& last = session_->marked().back();
    return headline(last.mark, units()) + ". " + diagnosis_sentence(last.mark, units()) +
           " The read: " + aim_with_figure(*last.mark.best.aim_offset_m, units()) + ".";
}

std::vector<std::pair<std::string, Vec2>> PractiseMode::places() const {
    std::vector<std::pair<std::string, Vec2>> places;
    if (const auto aim = px_of(place_of_aim(truth_.putt, said_.aim_m)))
        places.emplace_back("aim", *aim);
    if (const auto hole = px_of(truth_.putt.hole)) places.emplace_back("hole", *hole);
    const Rect ruler = pace_ruler();
    places.emplace_back("pace",
                        Vec2(ruler.x + ruler.w * said_.level_putt_m / most_pace_m(), ruler.y));
    for (const Target& t : targets_) {
        if (t.what == What::button) places.emplace_back("button", t.hit.centre());
        if (t.what == What::sure)
            places.emplace_back(t.index == 0 ? "sure" : "not-sure", t.hit.centre());
        if (t.what == What::answer)
            places.emplace_back(t.index == answer_aim ? "aim-words" : "pace-words", t.hit.centre());
        if (t.what == What::session)
            places.emplace_back("session" + std::to_string(t.index), t.hit.centre());
    }
    return places;
}

}  // namespace dewtrail
