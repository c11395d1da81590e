#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/review/review_mode.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/practice/log/leave.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

constexpr double near_u = 26;

double finest_m(const Units& units) {
    return units.metric ? 0.01 : metres_per_inch;
}

}  // namespace

bool ReviewMode::hand_cursor() const {
    if (handle_ != Handle::none) return true;
    if (Mode::hand_cursor()) return true;
    return putt_.end &&
           (pointer_ - camera_.to_px(on_green(read_.putt, *putt_.end))).norm() < layout_.u(near_u);
}

void ReviewMode::pointer_moved(const Vec2& px, Held) {
    pointer_ = px;
    if (handle_ != Handle::none) return drag_to(px);
    hovered_ = target_at(targets_, px);
}

void ReviewMode::pointer_pressed(const Vec2& px, Button button, Held held, bool twice) {
    pointer_moved(px, held);
    typing_.reset();
    if (click_in_sheet() || button != Button::left) return;
    if (hovered_) return click(*hovered_, twice);
    if (!layout_.green.contains(px)) return;
    handle_ = Handle::end;
    before_drag_ = putt_;
    focus_ = FocusStop::on(What::answer, review_end);
    drag_to(px);
}

void ReviewMode::drag_to(const Vec2& px) {
    if (handle_ == Handle::time) {
        playback_.running = false;
        playback_.seek(time_at(layout_, playback_, px.x()));
        return act("scrub");
    }
    RealPutt putt = handle_ == Handle::ruler ? before_drag_ : putt_;
    if (handle_ == Handle::end) {
        PlayerPoint end = in_player_frame(read_.putt, camera_.to_green(px));
        const double step = finest_m(units());
        end.offset_m = step * std::round(end.offset_m / step);
        const double past = step * std::round((end.along_m - read_.putt.distance_m()) / step);
        end.along_m = read_.putt.distance_m() + past;
        putt.end = end;
        putt.holed = false;
        return change(std::move(putt), "end", Ground::same);
    }
    const auto target = find_target(targets_, What::field, static_cast<int>(ruler_));
    if (!target) return;
    move_field(putt.setup, ruler_, share_on_ruler(*target, px.x(), layout_), units());
    change(std::move(putt), std::string("drag-") + field_name(ruler_));
}

void ReviewMode::pointer_released(const Vec2& px) {
    pointer_ = px;
    if (handle_ == Handle::none) return;
    const bool ruler = handle_ == Handle::ruler, scrubbed = handle_ == Handle::time;
    handle_ = Handle::none;
    if (!scrubbed) history_.remember(before_drag_);
    if (ruler) fit_camera();
    act("drop");
}

void ReviewMode::click(const Target& target, bool twice) {
    if (click_common(target)) return;
    switch (target.what) {
        case What::button:
            return keep();
        case What::sure:
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
        case What::figure:
            if (twice) return begin_typing(number_of(static_cast<Field>(target.index)));
            [[fallthrough]];
        case What::field:
            focus_ = FocusStop::on(What::field, target.index);
            if (!field_state(putt_.setup, static_cast<Field>(target.index), units()).enabled)
                return;
            handle_ = Handle::ruler;
            ruler_ = static_cast<Field>(target.index);
            before_drag_ = putt_;
            return;
        case What::face: {
            RealPutt putt = putt_;
            set_face(putt.setup, static_cast<SlopeFace>(target.index));
            return change(std::move(putt), "face");
        }
        case What::time_line:
            handle_ = Handle::time;
            return drag_to(pointer_);
        default:
            return;
    }
}

void ReviewMode::wheel(double clicks, const Vec2& px, Held held) {
    const auto target = target_at(targets_, px);
    if (target && (target->what == What::field || target->what == What::figure))
        step_field(static_cast<Field>(target->index), clicks, held.shift);
}

void ReviewMode::step_field(Field field, double steps, bool fine) {
    RealPutt putt = putt_;
    if (dewtrail::step_field(putt.setup, field, steps, fine, units()))
        change(std::move(putt), "step");
}

/// From the hole where nothing was said yet.
void ReviewMode::move_end(double along_m, double across_m) {
    RealPutt putt = putt_;
    if (!putt.end) putt.end = PlayerPoint{read_.putt.distance_m(), 0};
    putt.end->along_m += along_m;
    putt.end->offset_m += across_m;
    putt.holed = false;
    change(std::move(putt), "end", Ground::same);
}

void ReviewMode::begin_typing(int field) {
    typing_ = field;
    act("type");
}

std::optional<Typing> ReviewMode::typing() const {
    if (!typing_) return std::nullopt;
    const Units& u = units();
    if (const auto field = typed_field()) {
        const auto where = figure_place(targets_, *field);
        if (!where) return std::nullopt;
        return Typing{*typing_, typed_value(putt_.setup, *field, u), *where, layout_.type(28)};
    }
    const auto target = find_target(targets_, What::answer, *typing_);
    if (!target) return std::nullopt;
    std::string text;
    if (*typing_ == review_aim)
        text = format_aim(meant_aim_m(), u) + (meant_aim_m() < 0 ? " left" : " right");
    if (*typing_ == review_pace) text = format_distance(meant_level_putt_m(), u);
    const double h = layout_.type(34);
    return Typing{*typing_, text,
                  Rect{target->hit.x + layout_.u(34), target->hit.bottom() - h,
                       target->hit.w - layout_.u(34), h},
                  layout_.type(24)};
}

void ReviewMode::typed(const std::string& text) {
    if (!typing_) return;
    const int what = *typing_;
    const auto field = typed_field();
    typing_.reset();
    if (text.empty()) return;
    try {
        RealPutt putt = putt_;
        if (field) {
            type_field(putt.setup, *field, text, units());
        } else if (what == review_aim) {
            putt.aim_m = parse_aim_offset_m(text, units());
        } else if (what == review_pace) {
            putt.level_putt_m = parse_level_roll_m(text, units(), "pace");
        } else {
            const Leave leave = parse_leave(text, units());
            if (!leave.past_m && !leave.right_m)
                throw InputError("which way was it left?", "Type it like 2ft past 6in left.");
            putt.end = PlayerPoint{read_.putt.distance_m() + leave.past_m.value_or(0),
                                   leave.right_m.value_or(0)};
            putt.holed = false;
        }
        change(std::move(putt),
               field                ? "typed"
               : what == review_end ? "end"
                                    : "meant",
               field ? Ground::changed : Ground::same);
        focus_.reset();  // the next Enter logs it
    } catch (const InputError& error) {
        say(spoken(error.what()) + " " + spoken(error.remedy()));
        act("message");
    }
}

void ReviewMode::press(KeyPress pressed) {
    if (press_while_typing(pressed) || press_in_sheet(pressed)) return;
    if (pressed.code == key::escape) {
        if (handle_ != Handle::none) {
            putt_ = before_drag_;
            handle_ = Handle::none;
            work_out(Ground::changed);
        }
        message_.clear();
        focus_.reset();
        return;
    }
    if (press_common(pressed)) return;
    if (pressed.ctrl) {
        if (pressed.code == 'z') undo(!pressed.shift);
        if (pressed.code == 'y') undo(false);
        if (pressed.code == 'c') wish({Wish::Kind::copy_text, as_text()}), act("copy");
        return;
    }
    if (pressed.code == key::tab) {
        return step_focus_over({What::mode, What::print, What::units, What::help, What::close,
                                What::answer, What::sure, What::button, What::field, What::face,
                                What::play, What::time_line, What::slow},
                               pressed.shift);
    }
    if (pressed.code == key::enter) {
        if (focus_ && focus_->what == What::answer) return begin_typing(focus_->index);
        if (focus_ && focus_->what == What::field)
            return begin_typing(number_of(static_cast<Field>(focus_->index)));
        if (focus_ && focus_->what != What::button)
            if (const auto target = find_target(targets_, focus_->what, focus_->index))
                return click(*target, false);
        return keep();
    }
    press_letter(pressed);
}

bool ReviewMode::press_letter(KeyPress pressed) {
    const double step = (pressed.shift ? 12 : 1) * finest_m(units());
    if (press_playback(playback_, pressed)) return true;
    const bool arrow = pressed.code >= key::up && pressed.code <= key::right;
    if (arrow && focus_ && focus_->what == What::field) {
        const bool more = pressed.code == key::up || pressed.code == key::right;
        return step_field(static_cast<Field>(focus_->index), more ? 1 : -1, pressed.shift), true;
    }
    switch (pressed.code) {
        case key::left:
            return move_end(0, -step), true;
        case key::right:
            return move_end(0, step), true;
        case key::up:
            return move_end(step, 0), true;
        case key::down:
            return move_end(-step, 0), true;
        case 'a':
            return begin_typing(review_aim), true;
        case 'v':
            return begin_typing(review_pace), true;
        case 'w':
            return begin_typing(review_end), true;
        case 'h': {
            RealPutt putt = putt_;
            putt.holed = !putt.holed;
            return change(std::move(putt), "holed", Ground::same), true;
        }
        case '[':
            return step_field(Field::ball_at, -1, pressed.shift), true;
        case ']':
            return step_field(Field::ball_at, 1, pressed.shift), true;
        case ',':
            return step_field(Field::distance, -1, pressed.shift), true;
        case '.':
            return step_field(Field::distance, 1, pressed.shift), true;
        case 's':
            focus_ = FocusStop::on(What::field, static_cast<int>(Field::slope));
            return act("focus"), true;
        case 't':
            focus_ = FocusStop::on(What::field, static_cast<int>(Field::stimp));
            return act("focus"), true;
        case 'f':
            focus_ = FocusStop::on(What::field, static_cast<int>(Field::finish));
            return act("focus"), true;
        case key::space:
            return playback_.toggle(), act(playback_.running ? "roll" : "pause"), true;
        default:
            return false;
    }
}

std::vector<std::pair<std::string, Vec2>> ReviewMode::places() const {
    std::vector<std::pair<std::string, Vec2>> places = {{"hole", camera_.to_px(read_.putt.hole)},
                                                        {"ball", camera_.to_px(read_.putt.ball)}};
    if (putt_.end) places.emplace_back("end", camera_.to_px(on_green(read_.putt, *putt_.end)));
    for (const Target& t : targets_) {
        if (t.what == What::button) places.emplace_back("button", t.hit.centre());
        if (t.what == What::sure) places.emplace_back("holed", t.hit.centre());
        if (t.what == What::answer) {
            constexpr const char* names[] = {"meant-aim", "meant-pace", "end-words"};
            places.emplace_back(names[t.index], t.hit.centre());
        }
    }
    return places;
}

}  // namespace dewtrail
