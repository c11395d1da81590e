#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/read/read_mode.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"

namespace dewtrail {
namespace {

constexpr double mark_hit_u = 22;
constexpr double drag_from_px = 3;

}  // namespace

std::optional<Vec2> ReadMode::green_at(const Vec2& px) const {
    if (!eye_) return camera_.to_green(px);
    const Vec2& hole = setup_.green ? setup_.hole : Vec2(Vec2::Zero());
    return eye_camera_.to_green(px, solved_.putt.surface->at(hole.x(), hole.y()).h);
}

std::optional<Vec2> ReadMode::px_of(const Vec2& green) const {
    if (!eye_) return camera_.to_px(green);
    return eye_camera_.to_px(on_ground(solved_.putt, green));
}

MarkId ReadMode::mark_at(const Vec2& px) const {
    if (!pane().contains(px) || sheet_open() || room_) return MarkId::none;
    const double reach = mark_hit_u * layout_.scale;
    MarkId best = MarkId::none;
    double nearest = reach;
    const auto look = [&](MarkId id, const std::optional<Vec2>& at, double share) {
        if (!at || (*at - px).norm() * share >= nearest) return;
        nearest = (*at - px).norm() * share;
        best = id;
    };
    // What can be dragged wins over what can only be looked at.
    for (const MarkId id : {MarkId::aim, MarkId::apex, MarkId::start_spot, MarkId::stand_in})
        look(id, place_of(plan_.marks, id), 1.6);
    look(MarkId::hole, plan_.marks.hole, 1);
    look(MarkId::rolling, plan_.marks.rolling, 1);
    look(MarkId::ball, plan_.marks.ball, 1);
    if (!setup_.green && uphill_at_hole(solved_.putt)) {
        look(MarkId::drop, plan_.drop, 1);
        look(MarkId::bar, plan_.bar, 1);
    }
    return best;
}

bool ReadMode::hand_cursor() const {
    const bool green = setup_.green != nullptr;
    switch (drag_ ? drag_->mark : hovered_mark_) {
        case MarkId::ball:
        case MarkId::rolling:
        case MarkId::drop:
        case MarkId::bar:
            return true;
        case MarkId::hole:
            return green;
        default:
            break;
    }
    return hovered_ && hovered_->what != What::note && hovered_->what != What::sheet &&
           hovered_->what != What::row;
}

void ReadMode::pointer_moved(const Vec2& px, Held held) {
    pointer_ = px;
    if (!drag_) {
        hovered_ = target_at(targets_, px);
        hovered_mark_ = hovered_ ? MarkId::none : mark_at(px);
        return;
    }
    if (!drag_->moved && (px - drag_->from).norm() < drag_from_px) return;
    drag_->moved = true;
    if (drag_->pan) {
        camera_ = drag_->camera;
        camera_.centre_m -= camera_.to_green(px) - camera_.to_green(drag_->from);
        zoomed_ = true;
    } else if (drag_->target) {
        drag_field(px, held);
    } else {
        drag_mark(px, held);
    }
}

void ReadMode::pointer_pressed(const Vec2& px, Button button, Held held, bool twice) {
    pointer_moved(px, held);
    if (drag_) return;
    typing_.reset();
    if (click_in_sheet()) return;
    if (button == Button::right) {
        if (mark_at(px) == MarkId::ball) change([](Setup& s) { mirror(s); }, "mirror");
        return;
    }
    if (button == Button::middle) {
        if (!eye_ && !room_ && pane().contains(px)) begin_drag(MarkId::none, px), drag_->pan = true;
        return;
    }
    if (hovered_) return click(*hovered_, twice);
    const MarkId mark = mark_at(px);
    const bool draggable = mark == MarkId::ball || mark == MarkId::rolling ||
                           mark == MarkId::drop || mark == MarkId::bar ||
                           (mark == MarkId::hole && setup_.green);
    if (draggable) {
        begin_drag(mark, px);
        if (mark != MarkId::rolling)
            focus_ = FocusStop::on(mark == MarkId::bar ? MarkId::drop : mark);
    } else {
        focus_.reset();
    }
}

void ReadMode::click(const Target& target, bool twice) {
    if (click_common(target)) return;
    switch (target.what) {
        case What::view:
            if (target.index == 2) return show_room();
            if (target.index == 0) return set_view(false);
            return eye_ && !room_ ? next_eye() : set_view(true);
        case What::detail:
            return press({'k'});
        case What::play:
            return press({key::space});
        case What::slow:
            return press({'m'});
        case What::face:
            focus_ = FocusStop::on(What::face, target.index);
            return change([&](Setup& s) { set_face(s, static_cast<SlopeFace>(target.index)); },
                          "face");
        case What::choice:
            return choose_finish(target.index);
        case What::spread:
            return toggle_spread();
        case What::preset:
            return choose_preset(target.index);
        case What::best:
            return take_best(static_cast<BestKind>(target.index));
        case What::offer:
            return use_offer();
        case What::close:
            message_.clear();
            return act("close");
        case What::row: {
            const auto glyph = static_cast<Glyph>(target.index);
            note_state_.pinned = note_state_.pinned == glyph ? std::nullopt : std::optional(glyph);
            return act("pin");
        }
        case What::time_line:
        case What::note_edge:
        case What::field:
        case What::figure:
            break;
        default:
            return;
    }
    if (target.what == What::figure && twice) return begin_typing(static_cast<Field>(target.index));
    const What what = target.what == What::figure ? What::field : target.what;
    if (what != What::note_edge) focus_ = FocusStop::on(what, target.index);
    begin_drag(MarkId::none, pointer_);
    drag_->target = Target{what, target.index, target.hit};
    // A press on the ruler or the time line itself takes the handle there at once.
    if (what == What::time_line) drag_field(pointer_, {});
}

void ReadMode::pointer_released(const Vec2& px) {
    pointer_ = px;
    if (drag_) end_drag();
}

void ReadMode::wheel(double clicks, const Vec2& px, Held held) {
    if (drag_) return;
    const auto target = target_at(targets_, px);
    if (!target && pane().contains(px)) return wheel_over_green(clicks, px, held);
    if (!target) return;
    if (target->what == What::field || target->what == What::figure)
        return step_field(static_cast<Field>(target->index), clicks, held.shift, "wheel");
    if (target->what == What::time_line) {
        playback_.seek(playback_.time_s + 0.05 * clicks);
        return act("scrub");
    }
    if (!layout_.note.contains(px)) return;
    const double most = std::max(0.0, note_height_ - layout_.note.h);
    note_state_.scrolled_px =
        std::clamp(note_state_.scrolled_px - 48 * layout_.scale * clicks, 0.0, most);
}

void ReadMode::wheel_over_green(double clicks, const Vec2& px, Held held) {
    if (held.ctrl) return zoom(std::pow(1.15, clicks), px);
    const MarkId mark = mark_at(px);
    if (mark == MarkId::ball) return step_field(Field::ball_at, clicks, held.shift, "wheel");
    if (plan_.slope_figure.contains(px))
        return step_field(Field::slope, clicks, held.shift, "wheel");
    if (mark == MarkId::drop || mark == MarkId::bar || plan_.fall_line.contains(px))
        turn_fall_line(clicks);
}

void ReadMode::begin_typing(Field field) {
    if (!field_state(setup_, field, appearance_.units).enabled) return;
    typing_ = number_of(field);
    focus_ = FocusStop::on(What::field, static_cast<int>(field));
    act("type");
}

void ReadMode::typed(const std::string& text) {
    if (!typing_) return;
    const Field field = *typed_field();
    typing_.reset();
    if (text.empty()) return;
    try {
        Setup edited = setup_;
        type_field(edited, field, text, appearance_.units);
        change([&](Setup& s) { s = edited; }, std::string("typed-") + field_name(field));
    } catch (const InputError& error) {
        say(spoken(error.what()) + " " + spoken(error.remedy()));
        act("message");
    }
}

std::optional<Typing> ReadMode::typing() const {
    const auto field = typed_field();
    if (!field) return std::nullopt;
    const auto where = figure_place(targets_, *field);
    if (!where) return std::nullopt;
    return Typing{*typing_, typed_value(setup_, *field, appearance_.units), *where,
                  layout_.type(28)};
}

}  // namespace dewtrail
