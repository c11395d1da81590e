#include <algorithm>
#include <cmath>

#include "viewer/scene/eye_picture.hpp"
#include "viewer/scene/figures.hpp"
#include "viewer/scene/ground.hpp"
#include "viewer/scene/read_mode.hpp"
#include "viewer/scene/symbols.hpp"

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

Attention ReadMode::attention() const {
    Attention a;
    if (!drag_) a.hovered = hovered_;
    if (focus_ && focus_->mark == MarkId::none) a.focused = Target{focus_->what, focus_->index, {}};
    return a;
}

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
    if (!drag_ && camera_t_ >= 1 && ease_t_ >= 1 && !playback_.running)
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
                        : plan_ground(solved_, camera_, pane(), taken_, look);
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
    const Look look{palette_between(dusk_), layout_, start_.units, width, !commit_};
    Frame frame;
    // Where the message comes to lie is asked first: labels keep clear of it.
    Picture only_asked;
    draw_message(only_asked, look);
    targets_.clear();
    Picture& picture = frame.picture;
    const Attention near = attention();
    const TopBarState top{.eye = eye_,
                          .room = room_,
                          .room_offered = note_state_.detail && !commit_,
                          .help = sheet_ == Sheet::help,
                          .name = setup_.green ? setup_.green->name : ""};
    if (room_) {
        draw_room(frame, look);
        draw_top_bar(picture, targets_, top, near, look);
        draw_message(picture, look);
        if (sheet_ != Sheet::none) draw_sheet(picture, look);
        return frame;
    }
    draw_green(frame, look);
    draw_roll_strip(picture, targets_, playback_, trail_, near, look);
    const bool stops = setup_.finish.kind == Finish::Kind::past || !solved_.read ||
                       solved_.read->roll.end == RollEnd::at_rest;
    draw_setup_strip(picture, targets_, setup_,
                     stops || setup_.finish.kind == Finish::Kind::hole_speed, typing_, near, look);
    if (note_shown_ && !commit_) {
        const Note note = note_of(solved_, start_.units, note_state_.detail, odds_shown());
        note_height_ = draw_note(picture, targets_, note, note_state(), near, look).full_height;
        note_state_.scrolled_px =
            std::min(note_state_.scrolled_px, std::max(0.0, note_height_ - layout_.note.h));
    } else if (note_shown_) {
        add_rect(picture, layout_.note, look.colours.paper);
    }
    draw_top_bar(picture, targets_, top, near, look);
    draw_note_edge(picture, look);
    if (rows_shown()) draw_slope_rows(picture, targets_, setup_, typing_, near, look);
    draw_spread(picture, look);
    draw_message(picture, look);
    draw_hint(picture, look);
    draw_drag_figure(picture, look);
    if (sheet_ != Sheet::none) draw_sheet(picture, look);
    return frame;
}

void ReadMode::draw_sheet(Picture& picture, const Look& look) {
    const Palette& c = look.colours;
    const bool help = sheet_ == Sheet::help;
    const std::size_t count = help ? help_lines().size() : start_.greens.size();
    const std::size_t per_column = help ? (count + 1) / 2 : std::max<std::size_t>(1, count);
    const double row_h = look.type(help ? 34 : 42), title_h = look.type(64);
    const double w = std::min(layout_.width - look.u(40), look.type(help ? 860 : 420));
    const double h = std::min(layout_.height - look.u(16),
                              title_h + static_cast<double>(per_column) * row_h + look.u(24));
    const Rect sheet{std::round((layout_.width - w) / 2), std::round((layout_.height - h) / 2), w,
                     h};
    add_rect(picture, {0, 0, layout_.width, layout_.height}, {20, 32, 28, 90});
    add_rounded_rect(picture, sheet, look.u(10), c.paper);
    targets_.clear();
    targets_.push_back({What::sheet, 0, sheet});
    const double x = std::round(sheet.x + look.u(32));
    picture.push_back(Text{help ? "Keys" : "Open a green",
                           Face::book,
                           look.type(34),
                           {x, std::round(sheet.y + look.type(48))},
                           c.ink});
    if (!help && start_.greens.empty())
        picture.push_back(Text{"No green was found.",
                               Face::sans,
                               look.type(17),
                               {x, std::round(sheet.y + title_h + look.type(24))},
                               c.ink2});
    for (std::size_t i = 0; i < count; ++i) {
        const auto column = static_cast<double>(i / per_column);
        const double y =
            std::round(sheet.y + title_h + (static_cast<double>(i % per_column) + 0.65) * row_h);
        if (!help) {
            const Rect row{sheet.x + look.u(16), y - 0.65 * row_h, sheet.w - look.u(32), row_h};
            const bool hot = static_cast<int>(i) == sheet_row_ || row.contains(pointer_);
            if (hot) add_rounded_rect(picture, row, look.u(6), c.paper2);
            picture.push_back(Text{start_.greens[i], Face::book, look.type(25), {x, y}, c.ink});
            targets_.push_back({What::green_name, static_cast<int>(i), row});
            continue;
        }
        const double half = (w - look.u(64) - look.u(40)) / 2,
                     left = std::round(x + column * (half + look.u(40)));
        const auto& [what, keys] = help_lines()[i];
        const double most = half - look.width(Face::sans_bold, look.type(16), keys) - look.u(10);
        const double full = look.width(Face::sans, look.type(17), what);
        const double size = look.type(17) * std::min(1.0, most / full);
        picture.push_back(Text{what, Face::sans, size, {left, y}, c.ink2});
        picture.push_back(Text{keys,
                               Face::sans_bold,
                               look.type(16),
                               {std::round(left + half), y},
                               c.ink,
                               Align::right});
    }
}

}  // namespace dewtrail
