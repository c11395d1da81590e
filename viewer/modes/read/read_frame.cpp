#include <algorithm>
#include <cmath>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/picture/map/eye_ground.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

/// Mixes numbers into a key; equal input, equal key.
class Key {
  public:
    void add(double value) { mix(std::hash<double>{}(value)); }
    void add(const Rect& r) { add(r.x), add(r.y), add(r.w), add(r.h); }
    void add(const Vec2& v) { add(v.x()), add(v.y()); }
    void mix(std::size_t h) { key_ ^= h + 0x9e3779b97f4a7c15ULL + (key_ << 6) + (key_ >> 2); }
    std::size_t key() const { return key_; }

  private:
    std::size_t key_ = 0;
};

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
    view.time_s = playback_.time_s;
    view.marks_share = marks_share_;
    view.marks_shown = !commit_ && marks_share_ > 0;
    view.covered = message_bar_;
    view.dry = dry_;
    view.since_drop_s = since_drop_s_;
    if (ease_t_ < 1) view.before = &before_, view.eased = eased(ease_t_);
    view.hovered = hovered_mark_;
    if (hovered_ && hovered_->what == What::row)
        view.hovered = mark_of(static_cast<Glyph>(hovered_->index));
    if (focus_) view.focused = focus_->mark;
    if (note_state_.pinned) view.pinned = mark_of(*note_state_.pinned);
    return view;
}

/// Nothing moves that has words beside it.
bool ReadMode::words_rest() const {
    return !drag_ && camera_t_ >= 1 && ease_t_ >= 1;
}

/// All that the ground depends on. Where its heights yield is only looked at when the putt rests.
std::size_t ReadMode::key_of_ground(const Look& look) const {
    Key key;
    key.add(pane());
    key.add(look.layout.scale);
    key.add(look.layout.text);
    key.add(dusk_);
    key.add(eye_ ? 1 : 0);
    key.add(room_ ? 1 : 0);
    if (room_) return key.key();
    key.add(commit_ ? 1 : 0);
    key.add(look.units.metric ? 1 : 0);
    key.mix(std::hash<const void*>{}(setup_.green.get()));
    key.add(solved_.putt.hole);
    key.add(setup_.slope);
    for (const LineReading& r : setup_.readings)
        key.add(r.up), key.add(r.right_up), key.add(setup_.distance_m), key.add(setup_.clock_h);
    if (eye_) {
        key.add(eye_camera_.from().x()), key.add(eye_camera_.from().y()),
            key.add(eye_camera_.from().z());
        key.add(eye_camera_.bearing_rad());
        return key.key();
    }
    key.add(camera_.centre_m);
    key.add(camera_.px_per_m);
    key.add(camera_.turned_rad);
    if (words_rest() && !playback_.running)
        for (const Rect& box : taken_) key.add(box);
    return key.key();
}

void ReadMode::draw_map(Picture& picture, const Look& look) {
    const MapView view = map_view();
    plan_ = eye_ ? eye_picture(solved_, shown_trail(), eye_camera_, eye_place_, pane(), view, look,
                               wishes_for_labels_)
                 : plan_picture(solved_, shown_trail(), camera_, pane(), view, look,
                                wishes_for_labels_);
    taken_ = plan_.taken;
    picture = std::move(plan_.picture);
}

void ReadMode::draw_green(Frame& frame, const Look& look) {
    draw_map(frame.picture, look);
    frame.ground_key = key_of_ground(look);
    if (frame.ground_key == last_ground_key_) return;
    last_ground_key_ = frame.ground_key;
    frame.ground = eye_ ? eye_ground(solved_, eye_camera_, pane(), look)
                        : plan_ground(solved_, camera_, pane(), taken_, look,
                                      words_rest() ? boxes_of_words(frame.picture, look)
                                                   : std::vector<Rect>());
    // No dew on the heights: now that they have their places, the map once more.
    dry_.clear();
    for (const Shape& shape : frame.ground)
        if (const auto* text = std::get_if<Text>(&shape))
            dry_.push_back(rect_of(*text, look.width));
    draw_map(frame.picture, look);
}

/// The note while the solver is at work: after a moment fainter, and after a while in words.
NoteState ReadMode::note_state() const {
    NoteState state = note_state_;
    state.spread_open = spread_open_;
    if (asked_s_ < faint_after_s) return state;
    state.figures_share = 0.75;
    state.travelled = std::fmod((asked_s_ - faint_after_s) / travel_s, 1.0);
    state.solving = asked_s_ >= words_after_s;
    return state;
}

Frame ReadMode::frame(const TextWidth& width) {
    const Look look = this->look(width, !commit_);
    Frame frame;
    // Where the message comes to lie is asked first: labels keep clear of it.
    Picture only_asked;
    draw_message(only_asked, look);
    targets_.clear();
    Picture& picture = frame.picture;
    const Attention near = attention();
    const TopBarState top = top_bar();
    if (room_) {
        draw_room(frame, look);
        draw_top_bar(picture, targets_, top, near, look);
        draw_message(picture, look);
        draw_sheet(picture, look);
        return frame;
    }
    draw_green(frame, look);
    draw_roll_strip(picture, targets_, playback_, trail_, near, look);
    const bool stops = setup_.finish.kind == Finish::Kind::past || !solved_.read ||
                       solved_.read->roll.end == RollEnd::at_rest;
    draw_setup_strip(picture, targets_, setup_,
                     stops || setup_.finish.kind == Finish::Kind::hole_speed, typed_field(), near,
                     look);
    if (note_shown_ && !commit_) {
        const Note note = note_of(setup_, solved_, appearance_.units, odds_shown());
        note_height_ = draw_note(picture, targets_, note, note_state(), near, look).full_height;
        note_state_.scrolled_px =
            std::min(note_state_.scrolled_px, std::max(0.0, note_height_ - layout_.note.h));
    } else if (note_shown_) {
        add_rect(picture, layout_.note, look.colours.paper);
    }
    draw_top_bar(picture, targets_, top, near, look);
    draw_note_edge(picture, look);
    if (rows_shown()) draw_slope_rows(picture, targets_, setup_, typed_field(), near, look);
    draw_spread(picture, look);
    draw_message(picture, look);
    draw_hint(picture, look);
    draw_drag_figure(picture, look);
    draw_sheet(picture, look);
    return frame;
}

TopBarState ReadMode::top_bar() const {
    TopBarState top = top_bar_of_mode();
    top.views = {"Plan", "Eye"};
    if (room_ || (note_state_.detail && !commit_)) top.views.push_back("Room");
    top.view = room_ ? 2 : eye_ ? 1 : 0;
    if (setup_.green) top.name = setup_.green->name;
    return top;
}

}  // namespace dewtrail
