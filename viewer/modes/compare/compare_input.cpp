#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double rail_u = 26;

double stepped(double value, double steps, double step) {
    const double to = step * (std::round(value / step) + steps);
    return to == 0 ? 0 : to;  // never -0
}

}  // namespace

bool CompareMode::hand_cursor() const {
    return handle_ != Handle::none || Mode::hand_cursor();
}

void CompareMode::pointer_moved(const Vec2& px, Held) {
    pointer_ = px;
    if (handle_ != Handle::none) return drag_to(px);
    hovered_ = target_at(targets_, px);
}

void CompareMode::pointer_pressed(const Vec2& px, Button button, Held held, bool twice) {
    pointer_moved(px, held);
    typing_.reset();
    if (click_in_sheet() || button != Button::left) return;
    if (hovered_) return click(*hovered_, twice);
    focus_.reset();
    // On the rail at the hole's height the guess of the chosen putt follows.
    const bool rail = std::abs(px.y() - px_of({0, 0}).y()) < layout_.u(rail_u);
    if (!map().contains(px) || !rail) return;
    handle_ = Handle::guess;
    before_drag_ = compared_;
    drag_to(px);
}

void CompareMode::drag_to(const Vec2& px) {
    if (handle_ == Handle::time) {
        playback_.running = false;
        released_ = true;
        playback_.seek(time_at(layout_, playback_, px.x()));
        return act("scrub");
    }
    if (handle_ == Handle::guess) {
        const double step = units().metric ? 0.005 : metres_per_inch / 4;
        const double offset = (px.x() - px_of({0, 0}).x()) / (stretch_ * px_per_m());
        compared_.guesses[chosen_] = stepped(offset, 0, step);
        return act("guess");
    }
    const auto target = find_target(targets_, What::field, static_cast<int>(ruler_));
    if (!target || compared_.putts.empty()) return;
    const double share = share_on_ruler(*target, px.x(), layout_);
    edit_putt([&](Setup& s) { move_field(s, ruler_, share, units()); }, "drag-field");
}

void CompareMode::pointer_released(const Vec2& px) {
    pointer_ = px;
    if (handle_ == Handle::none) return;
    const bool scrubbed = handle_ == Handle::time;
    handle_ = Handle::none;
    if (!scrubbed) history_.remember(before_drag_);
    act("drop");
}

void CompareMode::click(const Target& target, bool twice) {
    if (click_common(target)) return;
    switch (target.what) {
        case What::button:
        case What::play:
            return roll();
        case What::swap:
            return swap();
        case What::slow:
            return press({'m'});
        case What::stretch:
            return set_stretch(1);
        case What::chances:
            return press({'h'});
        case What::graphs:
            return press({'g'});
        case What::session:
            return row_chosen(What::session, target.index);
        case What::offer:
            return add_putt();
        case What::close:
            message_.clear();
            return act("close");
        case What::putt:
            chosen_ = static_cast<std::size_t>(target.index);
            focus_ = FocusStop::on(What::putt, target.index);
            act("choose");
            if (twice) typing_ = target.index, act("type");
            return;
        case What::figure:
            if (twice) return typing_ = number_of(static_cast<Field>(target.index)), act("type");
            [[fallthrough]];
        case What::field:
            focus_ = FocusStop::on(What::field, target.index);
            before_drag_ = compared_;
            handle_ = Handle::ruler;
            ruler_ = static_cast<Field>(target.index);
            return;
        case What::time_line:
            handle_ = Handle::time;
            return drag_to(pointer_);
        default:
            return;
    }
}

void CompareMode::set_stretch(int way) {
    stretch_ = way > 0 ? (stretch_ == 8 ? 1 : 2 * stretch_) : (stretch_ == 1 ? 8 : stretch_ / 2);
    act("stretch");
}

void CompareMode::wheel(double clicks, const Vec2& px, Held held) {
    const auto target = target_at(targets_, px);
    if (!target) return;
    if (target->what == What::stretch) return set_stretch(clicks > 0 ? 1 : -1);
    if (target->what == What::field || target->what == What::figure)
        step_field(static_cast<Field>(target->index), clicks, held.shift);
}

void CompareMode::step_field(Field field, double steps, bool fine) {
    edit_putt([&](Setup& s) { dewtrail::step_field(s, field, steps, fine, units()); }, "step");
}

std::optional<Typing> CompareMode::typing() const {
    if (!typing_) return std::nullopt;
    if (const auto field = typed_field()) {
        const auto where = figure_place(targets_, *field);
        if (!where || compared_.putts.empty()) return std::nullopt;
        return Typing{*typing_, typed_value(compared_.putts[chosen_], *field, units()), *where,
                      layout_.type(25)};
    }
    const auto target = find_target(targets_, What::putt, *typing_);
    if (!target) return std::nullopt;
    const auto& guess = compared_.guesses[static_cast<std::size_t>(*typing_)];
    const std::string text =
        guess ? format_aim(*guess, units()) + (*guess < 0 ? " left" : " right") : "";
    const Rect& row = target->hit;
    return Typing{*typing_, text,
                  Rect{row.x + 0.36 * row.w, row.y + row.h / 2 - layout_.type(17), 0.3 * row.w,
                       layout_.type(34)},
                  layout_.type(22)};
}

void CompareMode::typed(const std::string& text) {
    if (!typing_) return;
    const auto putt = static_cast<std::size_t>(*typing_);
    const auto field = typed_field();
    typing_.reset();
    if (text.empty()) return;
    try {
        if (field) {
            Setup edited = compared_.putts[chosen_];
            type_field(edited, *field, text, units());
            return edit_putt([&](Setup& s) { s = edited; }, "typed");
        }
        const double guess = parse_aim_offset_m(text, units());
        history_.remember(compared_);
        compared_.guesses[putt] = guess;
        focus_.reset();
        act("guess");
    } catch (const InputError& error) {
        say(spoken(error.what()) + " " + spoken(error.remedy()));
        act("message");
    }
}

void CompareMode::press(KeyPress pressed) {
    if (press_while_typing(pressed) || press_in_sheet(pressed)) return;
    if (pressed.code == key::escape) {
        if (handle_ != Handle::none) {
            compared_ = before_drag_;
            handle_ = Handle::none;
            work_out();
        }
        message_.clear();
        focus_.reset();
        return;
    }
    if (pressed.ctrl && pressed.code == 'o') {
        std::vector<std::string> titles;
        for (const auto& name : demonstration_names()) titles.emplace_back(name.title);
        open_list("Ready demonstrations", std::move(titles), What::session, "");
        return act("demonstrations");
    }
    if (press_common(pressed)) return;
    if (pressed.ctrl) {
        if (pressed.code == 'z') undo(!pressed.shift);
        if (pressed.code == 'y') undo(false);
        if (pressed.code == 'c') wish({Wish::Kind::copy_text, as_text()}), act("copy");
        return;
    }
    if (pressed.code == key::tab) {
        step_focus_over(
            {What::mode, What::print, What::units, What::help, What::close, What::putt, What::offer,
             What::button, What::swap, What::chances, What::graphs, What::field, What::session,
             What::stretch, What::play, What::time_line, What::slow},
            pressed.shift);
        if (focus_ && focus_->what == What::putt) chosen_ = static_cast<std::size_t>(focus_->index);
        return;
    }
    if (pressed.code == key::enter) {
        if (focus_ && focus_->what == What::putt) return typing_ = focus_->index, act("type");
        if (focus_ && focus_->what == What::field)
            return typing_ = number_of(static_cast<Field>(focus_->index)), act("type");
        if (focus_)
            if (const auto target = find_target(targets_, focus_->what, focus_->index))
                return click(*target, false);
        return roll();
    }
    press_letter(pressed);
}

bool CompareMode::press_letter(KeyPress pressed) {
    if (press_playback(playback_, pressed)) {
        released_ = released_ || pressed.code != 'm';  // who looks closer is not stopped again
        return true;
    }
    const auto guess = [&](double steps) {
        const double fine = units().metric ? 0.005 : metres_per_inch / 4;
        const double step = pressed.shift ? fine : 4 * fine;
        history_.remember(compared_);
        auto& aim = compared_.guesses[chosen_];
        aim = stepped(aim.value_or(0), steps, step);
        act("guess");
    };
    const bool arrow = pressed.code >= key::up && pressed.code <= key::right;
    const bool more = pressed.code == key::up || pressed.code == key::right;
    if (arrow && focus_ && focus_->what == What::field)
        return step_field(static_cast<Field>(focus_->index), more ? 1 : -1, pressed.shift), true;
    const auto focus_field = [&](Field field) {  // one's own putts have fields
        if (!compared_.show.empty()) edit_putt([](Setup&) {}, "own");
        focus_ = FocusStop::on(What::field, static_cast<int>(field)), act("focus");
    };
    const std::size_t n = comparison_.putts.size();
    switch (pressed.code) {
        case key::space:
            return roll(), true;
        case 'w':
            return swap(), true;
        case key::up:
            return chosen_ = (chosen_ + n - 1) % n, act("choose"), true;
        case key::down:
            return chosen_ = (chosen_ + 1) % n, act("choose"), true;
        case key::left:
            return guess(-1), true;
        case key::right:
            return guess(1), true;
        case 'a':
            return typing_ = static_cast<int>(chosen_), act("type"), true;
        case 'q':
            return pressed.shift ? take_putt_away() : add_putt(), true;
        case '[':
            return step_field(Field::ball_at, -1, pressed.shift), true;
        case ']':
            return step_field(Field::ball_at, 1, pressed.shift), true;
        case ',':
            return step_field(Field::distance, -1, pressed.shift), true;
        case '.':
            return step_field(Field::distance, 1, pressed.shift), true;
        case 's':
            return focus_field(Field::slope), true;
        case 't':
            return focus_field(Field::stimp), true;
        case 'f':
            return focus_field(Field::finish), true;
        case 'h':
            chances_ = !chances_;
            work_out_chances();
            return act("chances"), true;
        case 'g':
            return graphs_ = !graphs_, act("graphs"), true;
        case 'k':
            return detail_ = !detail_, act("detail"), true;
        case 'z':
            return set_stretch(pressed.shift ? -1 : 1), true;
        default:
            return false;
    }
}

std::vector<std::pair<std::string, Vec2>> CompareMode::places() const {
    std::vector<std::pair<std::string, Vec2>> places = {{"hole", px_of({0, 0})}};
    for (const Target& t : targets_) {
        const std::string index = std::to_string(t.index);
        if (t.what == What::button) places.emplace_back("button", t.hit.centre());
        if (t.what == What::swap) places.emplace_back("swap", t.hit.centre());
        if (t.what == What::putt) places.emplace_back("putt" + index, t.hit.centre());
        if (t.what == What::session) places.emplace_back("show" + index, t.hit.centre());
        if (t.what == What::stretch) places.emplace_back("stretch", t.hit.centre());
        if (t.what == What::field)
            places.emplace_back(field_name(static_cast<Field>(t.index)), t.hit.centre());
    }
    return places;
}

}  // namespace dewtrail
