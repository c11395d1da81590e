#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/picture/map/eye_ground.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/brief_note.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/picture/widgets/whole_lines.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

MarkId mark_of(Glyph glyph) {
    switch (glyph) {
        case Glyph::aim:
            return MarkId::aim;
        case Glyph::stand_in:
            return MarkId::stand_in;
        case Glyph::apex:
            return MarkId::apex;
        case Glyph::finish:
            return MarkId::hole;
        default:
            return MarkId::none;
    }
}

constexpr double faint_after_s = 0.12, words_after_s = 0.4, travel_s = 1.2;

}  // namespace

MapView ReadMode::map_view() const {
    MapView view;
    view.time_s = shell_.playback.time_s;
    view.marks_share = marks_share_;
    view.marks_shown = !commit_ && marks_share_ > 0;
    view.covered = shell_.message_box();
    view.slope = dewtrail::slope_figure(setup_, shell_.units());
    view.dry = dry_;
    view.since_drop_s = since_drop_s_;
    if (ease_.t < 1) view.before = &ease_.before, view.eased = eased(ease_.t);
    view.hovered = hovered_mark_;
    if (const auto& hovered = shell_.hovered(); hovered && hovered->what == What::row)
        view.hovered = mark_of(static_cast<Glyph>(hovered->index));
    if (shell_.focus()) view.focused = shell_.focus()->mark;
    if (note_state_.pinned) view.pinned = mark_of(*note_state_.pinned);
    return view;
}

/// Nothing moves that has words beside it.
bool ReadMode::words_rest() const {
    return !shell_.dragging() && view_.t >= 1 && ease_.t >= 1;
}

/// Where the heights of the ground yield is only looked at when the putt rests.
GroundState ReadMode::ground_now(const Look& look) const {
    GroundState now = ground_state(setup_, solved_.putt.hole, shell_.dusk(), look);
    if (view_.eye) {  // the green lies round ball and hole
        now.eye = view_.eye_camera;
        now.distance_m = solved_.putt.distance_m();
        now.clock_h = bearing_of(solved_.putt.line());
    } else {
        now.plan = view_.plan;
    }
    if (!view_.eye && words_rest()) now.clear = plan_.taken;
    return now;
}

void ReadMode::draw_map(const Look& look) {
    MapView view = map_view();
    if (view_.eye) view.avoid.push_back(place_box(look));
    plan_ = view_.eye ? eye_picture(solved_, shown_trail(), view_.eye_camera, view_.place, pane(),
                                    view, look, wishes_for_labels_)
                      : plan_picture(solved_, shown_trail(), view_.plan, pane(), view, look,
                                     wishes_for_labels_);
}

void ReadMode::prepare(const Look& look, Picture& ground) {
    const Attention near = shell_.attention();
    const auto lay = [&] {
        laid_.picture.clear(), laid_.targets.clear();  // their memory is kept
        const Canvas canvas{laid_.picture, laid_.targets, near, look};
        laid_.height = room_ ? lay_out_room(canvas) : lay_out_note(canvas);
        if (is_small(look.layout) && !room_)
            keep_whole(laid_.picture, laid_.targets, look.layout.note);
    };
    lay();
    // By whole pixels: what is written stands on them.
    const double most_px = std::ceil(std::max(0.0, laid_.height - look.layout.note.h));
    if (note_state_.scrolled_px > most_px) {
        note_state_.scrolled_px = most_px;
        lay();
    }
    if (room_) {
        GroundState now;
        now.pane = room_pane(look.layout);
        now.dusk = shell_.dusk();
        if (shell_.ground_changed(ground_, now)) ground = room_ground(now.pane, look);
        return;
    }
    draw_map(look);
    // Which mark the pointer is on is known once they have their places.
    if (!shell_.dragging()) {
        const MarkId now = shell_.hovered() ? MarkId::none : mark_at(shell_.pointer());
        if (std::exchange(hovered_mark_, now) != now) draw_map(look);
    }
    if (!shell_.ground_changed(ground_, ground_now(look))) return;
    ground = view_.eye ? eye_ground(solved_, view_.eye_camera, pane(), look)
                       : plan_ground(solved_, view_.plan, pane(), plan_.taken, look,
                                     words_rest() ? boxes_of_words(plan_.picture, look)
                                                  : std::vector<Rect>());
    // No dew on the heights: now that they have their places, the map once more.
    dry_.clear();
    for (const Shape& shape : ground)
        if (const auto* text = std::get_if<Text>(&shape))
            dry_.push_back(rect_of(*text, look.width));
    draw_map(look);
}

/// The note while the solver is at work: after a moment fainter, and after a while in words.
NoteState ReadMode::note_state() const {
    NoteState state = note_state_;
    state.spread_open = spread_open_;
    if (solving_.asked_s < faint_after_s) return state;
    state.figures_share = 0.75;
    state.travelled = std::fmod((solving_.asked_s - faint_after_s) / travel_s, 1.0);
    state.solving = solving_.asked_s >= words_after_s;
    return state;
}

/// Returns its height.
double ReadMode::lay_out_note(const Canvas& canvas) const {
    const bool seen = note_shown_ || canvas.look.layout.portrait;
    if (seen && commit_)
        add_rect(canvas.picture, canvas.look.layout.note, canvas.look.colours.paper);
    if (!seen || commit_) return 0;
    const Note note = note_of(setup_, solved_, shell_.units(), odds_shown());
    if (!note_shown_) {
        draw_brief_note(canvas, note);
        return 0;
    }
    return draw_note(canvas, note, note_state()).full_height;
}

void ReadMode::paint(const Canvas& canvas) const {
    Picture& picture = canvas.picture;
    const Look& look = canvas.look;
    const auto paint_laid = [&] {
        std::move(laid_.picture.begin(), laid_.picture.end(), std::back_inserter(picture));
        canvas.targets.insert(canvas.targets.end(), laid_.targets.begin(), laid_.targets.end());
    };
    if (room_) return paint_laid();
    picture = std::move(plan_.picture);
    paint_laid();
    draw_roll_strip(canvas, shell_.playback, trail_);
    const bool stops = setup_.finish.kind == Finish::Kind::past || !solved_.read ||
                       solved_.read->roll.end == RollEnd::at_rest;
    const std::optional<Field> typed = shell_.typed_field();
    draw_setup_strip(canvas, setup_, stops || setup_.finish.kind == Finish::Kind::hole_speed,
                     typed);
    paint_note_edge(canvas);
    if (rows_shown()) draw_slope_rows(canvas, setup_, typed);
    if (spread_open_ && !commit_) draw_spread_sheet(canvas, {setup_, start_.presets, typed});
    paint_commit(canvas);
    draw_hint(picture, look);
    draw_drag_figure(picture, look);
}

/// A putt that cannot be read is told where nothing newer is to be said.
Surround ReadMode::surround() const {
    Surround round;
    round.views = {"Plan", "Eye"};
    if (room_ || (note_state_.detail && !commit_)) round.views.push_back("Room");
    round.view = room_ ? 2 : view_.eye ? 1 : 0;
    if (setup_.green) round.name = setup_.green->name;
    round.numbers = !commit_;
    if (commit_) return round;
    const Trouble trouble = trouble_of(solved_, shell_.units());
    round.notice = {trouble.words, {}};
    if (!trouble.button.empty()) round.notice.answers = {{trouble.button, What::offer}};
    return round;
}

}  // namespace dewtrail
