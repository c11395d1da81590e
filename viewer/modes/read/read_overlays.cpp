#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double place_size = 16, between_u = 28;
constexpr const char* commit_words = "commit: hide every number";

/// Beside the eye's place, and its distance from that.
double commit_w(const Look& look) {
    return look.width(Face::sans, look.type(place_size), commit_words) + look.u(between_u);
}

constexpr const char* hint_words[] = {"Drag the ball round the hole.",
                                      "Drag the drop to turn the slope.", "Space rolls it."};

}  // namespace

/// By the mark it is about, where nothing else is.
void ReadMode::draw_hint(Picture& picture, const Look& look) const {
    if (hint_.which < 0 || commit_ || shell_.dragging()) return;
    const Palette& c = look.colours;
    const double size = look.type(22);
    const std::string words = hint_words[hint_.which];
    const double w = look.width(Face::book_italic, size, words);
    Vec2 at(pane().x + look.u(58), pane().bottom() - look.u(16));
    if (hint_.which == 0 && plan_.marks.ball)
        at = *plan_.marks.ball + Vec2(-w - look.u(24), look.u(64));
    if (hint_.which == 1) at = plan_.drop + Vec2(look.u(-8), look.u(44));
    at.x() = std::clamp(at.x(), pane().x + look.u(12), pane().right() - w - look.u(12));
    const auto free = [&](double y) {
        const Rect box{at.x(), y - size, w, 1.3 * size};
        return !plan_.fall_line.meets(box) &&
               std::none_of(plan_.labels.begin(), plan_.labels.end(),
                            [&](const PlacedLabel& l) { return l.box.meets(box); });
    };
    const double lowest = pane().bottom() - look.u(14);
    if (hint_.which == 1 && at.y() > lowest) at.y() = plan_.fall_line.y - look.u(12);
    for (int tries = 0; tries < 12 && at.y() < lowest && !free(at.y()); ++tries)
        at.y() += look.u(30);
    at.y() = std::clamp(at.y(), pane().y + look.u(80), lowest);
    if (is_small(look.layout) && !free(at.y())) return;  // names before hints
    draw_map_text(picture,
                  {words, Face::book_italic, size, {std::round(at.x()), std::round(at.y())}, c.ink},
                  look, surface_colour(c));
}

/// Where the eye is told, above the line of the commit view: names keep clear of it.
Rect ReadMode::place_box(const Look& look) const {
    const double size = look.type(place_size),
                 w = look.width(Face::sans, size, words_for(view_.place)) + commit_w(look);
    const double up = look.u(18) + (commit_ ? 1.5 * size : 0);
    return {pane().x + look.u(40), pane().bottom() - up - size, w, 1.3 * size};
}

/// Quiet lines: how the numbers come back, and where the eye is; a click takes it to the next
/// place.
void ReadMode::paint_commit(const Canvas& canvas) const {
    Brush brush(canvas);
    const Rect& green = pane();
    const double x = green.x + brush.u(40), y = green.bottom() - brush.u(18);
    if (commit_) brush.word({"Esc: the numbers again", What::commit}, x, y);
    if (!view_.eye) return;
    const double base = place_box(canvas.look).y + brush.type(place_size);
    const Rect place =
        brush.word({words_for(view_.place), What::view, 1, false, place_size}, x, base);
    if (!commit_)
        brush.word({commit_words, What::commit, 0, false, place_size},
                   place.right() + brush.u(between_u), base);
}

/// What a drag has come to, beside the pointer.
void ReadMode::draw_drag_figure(Picture& picture, const Look& look) const {
    const MarkId mark = shell_.held_mark();
    if (mark == MarkId::none) return;
    const FieldState clock = field_state(setup_, Field::ball_at, look.units);
    const std::string distance = format_distance(distance_of(setup_), look.units);
    std::string words =
        clock.unit.empty() ? distance : fmt::format("{}, {}", clock.figure, distance);
    if (mark == MarkId::bar) words = format_slope(solved_.putt.slope_at_hole());
    const double size = look.type(23), w = look.width(Face::book, size, words);
    const double x = std::clamp(shell_.pointer().x() + look.u(22), pane().x + look.u(8),
                                pane().right() - w - look.u(8));
    const double y =
        std::clamp(shell_.pointer().y() - look.u(18), pane().y + size, pane().bottom() - look.u(8));
    draw_map_text(picture,
                  {words, Face::book, size, {std::round(x), std::round(y)}, look.colours.copper},
                  look, surface_colour(look.colours));
}

/// Where the note begins, or came from: it can be dragged away and back.
void ReadMode::paint_note_edge(const Canvas& canvas) const {
    const Rect& hit = canvas.look.layout.note_edge;
    Brush brush(canvas);
    brush.target(What::note_edge, 0, hit);
    if (is_small(canvas.look.layout)) {
        const bool upright = hit.h > hit.w;
        const double w = brush.u(upright ? 5 : 60), h = brush.u(upright ? 60 : 5);
        const double x = upright ? hit.right() - brush.u(11) : hit.centre().x() - w / 2;
        const double y = upright ? hit.centre().y() - h / 2 : hit.y + brush.u(6);
        if (!upright || !note_shown_)
            add_rounded_rect(canvas.picture, {x, y, w, h}, brush.u(2), canvas.look.colours.rule);
        return;
    }
    if (!brush.hot(What::note_edge)) return;
    const double half = std::max(1.0, brush.u(1.5));
    const Rect line = hit.w < hit.h ? Rect{hit.centre().x() - half, hit.y, 2 * half, hit.h}
                                    : Rect{hit.x, hit.centre().y() - half, hit.w, 2 * half};
    add_rect(canvas.picture, line, canvas.look.colours.wet_green);
}

}  // namespace dewtrail
