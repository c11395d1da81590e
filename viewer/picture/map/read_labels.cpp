#include "viewer/picture/map/read_labels.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "viewer/picture/symbols.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

// Of the width of the green; what is wider takes two lines.
constexpr double most_aim_share = 0.3, most_apex_share = 0.42;
constexpr double much_hidden = 0.25;  // of the hole, by an aim spot inside a stand-in hole's ring

Rect square(const Vec2& at, double half) {
    return {at.x() - half, at.y() - half, 2 * half, 2 * half};
}

/// Radius of the stand-in hole as drawn: true to scale, like the hole.
double stand_in_px(const Marks& m, const Look& look) {
    return std::max(look.u(10), m.hole_px);
}

/// Of the aim spot, units: half the diagonal of its diamond, and the radius of a stand-in hole's
/// ring that lies round it or, where both lie round the hole, in it.
struct AimSize {
    double half_u = 11, ring_u = 0;
    double hides = 0;  ///< share of the hole

    double reach_u() const { return std::max(half_u, ring_u); }
};

AimSize aim_size(const Marks& m, const Look& look) {
    AimSize size;
    if (m.together) size.half_u = 8, size.ring_u = 15;
    if (!m.hole) return size;
    const double away_px = (*m.aim - *m.hole).norm();
    size.hides = share_hidden(away_px, m.hole_px, look);
    if (!m.together) {
        size.half_u = diamond_half_u(away_px, m.hole_px, size.half_u, look);
    } else if (size.hides > much_hidden) {
        size.ring_u = std::max(size.ring_u, m.hole_px / look.u(1) + 6);
        size.half_u = std::numbers::sqrt2 * (size.ring_u + 4);
    } else {
        size.hides = 0;
    }
    return size;
}

Label aim_label(const Solved& s, const Read& read, const Marks& m, const MapView& view,
                const Look& look) {
    const Colour copper = look.colours.copper;
    Label label{"aim",
                {},
                *m.aim,
                look.u(aim_size(m, look).reach_u() + (m.together ? 6 : 8)),
                sides_toward(m.high_side),
                true};
    label.lines.push_back({m.together ? "aim spot and stand-in hole" : "aim spot", Face::sans_bold,
                           look.type(18), copper});
    if (!s.read) return label;
    const SaidAim aim{*read.aim_offset_m, view.aim};
    for (const auto& line : wrapped_evenly(aim.words(look.units), Face::book, look.type(25),
                                           most_aim_share * look.layout.green.w, look.width))
        label.lines.push_back({line, Face::book, look.type(25), copper});
    return label;
}

/// Of a path that breaks both ways: 'turn', and how far off and where it is; on the side it tells.
Label turn_label(const Solved& s, const PlayerPoint& turn, const Vec2& at, const Marks& m,
                 bool one_line, const Look& look) {
    const Colour green = look.colours.wet_green;
    const std::string words = turn_words(turn, s.putt.distance_m(), look.units);
    const bool as_aimed = turn.offset_m * s.shown()->stroke.angle_rad >= 0;
    return {"turn",
            {{"turn", Face::sans_bold, look.type(18), green},
             {words, Face::book, look.type(one_line ? 24 : 23), green}},
            at,
            look.u(one_line ? 90 : 40),
            sides_toward(as_aimed ? m.high_side : Vec2(-m.high_side)),
            true,
            true};
}

Label apex_label(const Solved& s, const Read& read, const Marks& m, bool one_line,
                 const Look& look) {
    const Colour green = look.colours.wet_green;
    Label label{"apex", {},  *m.apex, look.u(one_line ? 90 : 40), sides_toward(-m.high_side),
                true,   true};
    label.lines.push_back({"apex", Face::sans_bold, look.type(18), green});
    const std::string words =
        apex_words(read.apex->along_m, read.apex->offset_m, s.putt.distance_m(), look.units);
    const auto comma = words.find(", ");
    const bool fits =
        look.width(Face::book, look.type(24), words) < most_apex_share * look.layout.green.w;
    if ((one_line && fits) || comma == std::string::npos) {
        label.lines.push_back({words, Face::book, look.type(24), green});
    } else {
        label.lines.push_back({words.substr(0, comma + 1), Face::book, look.type(23), green});
        label.lines.push_back({words.substr(comma + 2), Face::book, look.type(23), green});
    }
    return label;
}

Label break_label(const PlacedBreakMark& placed, const Marks& m, bool two_lines, const Look& look) {
    Label label{placed.mark.name,           {},    placed.at, look.u(two_lines ? 20 : 60),
                sides_toward(-m.high_side), false, true};
    if (two_lines) {
        label.sides.count = 1;  // on the low side, or not at all
        label.lines.push_back({placed.mark.name, Face::sans, look.type(17), look.colours.ink});
        label.lines.push_back({placed.mark.words, Face::sans, look.type(17), look.colours.ink2});
    } else {
        label.sides = {m.high_side.x() > 0 ? Side::right : Side::left};
        label.lines.push_back({placed.mark.name + ", " + placed.mark.words, Face::sans,
                               look.type(16), look.colours.ink});
    }
    return label;
}

/// From the mark to the nearest edge of its label.
std::pair<Vec2, Vec2> leader_of(const PlacedLabel& placed, double clear_of_mark,
                                double clear_of_text) {
    const Rect box = placed.box.grown(clear_of_text);
    const Vec2 mark = placed.label->mark;
    const Vec2 end(std::clamp(mark.x(), box.x, box.right()),
                   std::clamp(mark.y(), box.y, box.bottom()));
    const Vec2 way = end - mark;
    const double length = way.norm();
    return {length > clear_of_mark ? Vec2(mark + way * (clear_of_mark / length)) : end, end};
}

}  // namespace

Sides sides_toward(const Vec2& way) {
    const auto dot = [&](Side side) {
        switch (side) {
            case Side::above:
                return -way.y();
            case Side::below:
                return way.y();
            case Side::right:
                return way.x();
            case Side::left:
                return -way.x();
        }
        return 0.0;
    };
    Sides sides = {Side::above, Side::below, Side::right, Side::left};
    const auto first = [&](Side a, Side b) { return dot(a) > dot(b); };
    // A stable sort of four, without memory of its own.
    for (auto next = sides.begin(); next != sides.end(); ++next)
        std::rotate(std::upper_bound(sides.begin(), next, *next, first), next, next + 1);
    return sides;
}

std::vector<PlacedBreakMark> placed_break_marks(const Solved& s, const Trail& trail,
                                                const Projection& project, const Units& units) {
    std::vector<PlacedBreakMark> placed;
    if (!s.read) return placed;
    const std::vector<BreakMark> marks = break_marks(s.putt, *s.read, trail, units);
    placed.reserve(marks.size());
    for (const BreakMark& mark : marks) {
        const auto at = project(trail.at(mark.time_s).at);
        const auto next = project(trail.at(mark.time_s + 0.02).at);
        if (at && next && (*next - *at).norm() > 0)
            placed.push_back({mark, *at, (*next - *at).normalized()});
    }
    return placed;
}

std::vector<Label> labels_for(const Solved& s, const Marks& m,
                              const std::vector<PlacedBreakMark>& breaks, bool one_line,
                              const MapView& view, const Look& look) {
    std::vector<Label> labels;
    labels.reserve(7 + m.finishes.size() + breaks.size());
    const Read* read = s.shown();
    const Palette& c = look.colours;
    const auto in_view = [&](const std::optional<Vec2>& at) {
        return read && at && look.layout.green.contains(*at);
    };
    if (in_view(m.aim)) labels.push_back(aim_label(s, *read, m, view, look));
    if (in_view(m.start_spot))
        labels.push_back({"start spot",
                          {{"start spot", Face::sans_bold, look.type(18), c.copper}},
                          *m.start_spot,
                          look.u(20),
                          sides_toward(m.high_side),
                          true});
    const Turns* turns = read && read->turns ? &*read->turns : nullptr;
    if (in_view(m.apex) && !turns) labels.push_back(apex_label(s, *read, m, one_line, look));
    if (turns && read->apex) {
        const bool apex_first = turns->first.offset_m * read->apex->offset_m > 0;
        const auto turn = [&](const std::optional<Vec2>& at, const PlayerPoint& where) {
            if (in_view(at)) labels.push_back(turn_label(s, where, *at, m, one_line, look));
        };
        turn(m.apex, apex_first ? turns->first : turns->second);
        turn(m.turn, apex_first ? turns->second : turns->first);
    }
    if (in_view(m.stand_in) && !m.together)
        labels.push_back({"stand-in hole",
                          {{"stand-in hole", Face::sans_bold, look.type(18), c.copper}},
                          *m.stand_in,
                          stand_in_px(m, look) + look.u(8),
                          sides_toward(m.high_side),
                          true});
    const Vec2 out = m.ball && m.hole && (*m.ball - *m.hole).norm() > 0
                         ? Vec2((*m.ball - *m.hole).normalized())
                         : Vec2(1, 0);
    if (m.hole)
        labels.push_back({"hole",
                          {{"hole", Face::sans, look.type(18), c.ink}},
                          *m.hole,
                          m.hole_px + look.u(9),
                          sides_toward(-m.high_side - 0.2 * out)});
    if (m.ball)
        labels.push_back({"ball",
                          {{"ball", Face::sans, look.type(18), c.ink}},
                          *m.ball,
                          m.ball_px + look.u(10),
                          sides_toward(out - 0.3 * m.high_side)});
    for (const Marks::Finish& finish : m.finishes)
        labels.push_back({finish.name,
                          {{finish.name, Face::sans, look.type(16), c.copper}},
                          finish.at,
                          look.u(20),
                          sides_toward(-out + 0.2 * m.high_side),
                          false,
                          true});
    for (const PlacedBreakMark& placed : breaks)
        labels.push_back(break_label(placed, m, one_line, look));
    return labels;
}

void draw_labels(Picture& picture, const std::vector<PlacedLabel>& labels, const Look& look,
                 Colour surface) {
    for (const PlacedLabel& placed : labels) {
        if (!has_leader(placed)) continue;
        const auto [from, to] = leader_of(placed, look.u(13), look.u(3));
        picture.push_back(Line{{from, to}, look.u(1.4), placed.label->lines[0].colour});
    }
    // Names last, over the leaders of others.
    for (const PlacedLabel& placed : labels)
        for (const Text& text : placed.texts) draw_map_text(picture, text, look, surface);
}

double room_beside_marks_u(const Marks& m, const Vec2& at, const Look& look) {
    constexpr double wide = 0.95, ring_u = 2.5, bar_u = 5.5;  // half the triangle's foot; outlines
    double room_px = HUGE_VAL;
    const auto beside = [&](const std::optional<Vec2>& mark, double radius_px) {
        if (mark) room_px = std::min(room_px, (*mark - at).norm() - radius_px);
    };
    beside(m.ball, m.ball_px);
    beside(m.hole, m.hole_px);
    beside(m.start_spot, look.u(bar_u));
    if (m.aim) beside(m.aim, look.u(aim_size(m, look).reach_u()));
    return (room_px / look.u(1) - ring_u) / wide;
}

std::vector<Rect> mark_boxes(const Marks& m, const Look& look) {
    std::vector<Rect> boxes;
    boxes.reserve(7 + m.finishes.size());
    if (m.ball) boxes.push_back(square(*m.ball, m.ball_px + look.u(3)));
    if (m.hole) boxes.push_back(square(*m.hole, m.hole_px + look.u(4)));
    if (m.aim)
        boxes.push_back(square(*m.aim, look.u(std::max(15.0, aim_size(m, look).reach_u() + 4))));
    if (m.stand_in) boxes.push_back(square(*m.stand_in, stand_in_px(m, look) + look.u(3)));
    if (m.start_spot) boxes.push_back(square(*m.start_spot, look.u(13)));
    for (const auto& [turn, size_u] : {std::pair(m.apex, m.apex_u), {m.turn, m.turn_u}})
        if (turn) boxes.push_back(square(*turn, look.u(size_u + 2)));
    for (const Marks::Finish& finish : m.finishes) boxes.push_back(square(finish.at, look.u(8)));
    return boxes;
}

void draw_start_line(Picture& picture, const Solved& s, const Marks& m, const Look& look) {
    if (!m.line_seen) return;
    const bool found = s.read.has_value();
    add_dashes(picture, {m.line_from, m.line_to}, look.u(11), found ? 0 : look.u(7), look.u(2.6),
               look.colours.copper);
}

void draw_start_spot(Picture& picture, const Marks& m, const Look& look, Colour surface) {
    if (m.start_spot && m.line_seen)
        draw_start_bar(picture, *m.start_spot, (m.line_to - m.line_from).normalized(), look,
                       surface);
}

void draw_aim_marks(Picture& picture, const Marks& m, double hole_px, const Look& look,
                    Colour surface) {
    const Palette& c = look.colours;
    if (m.stand_in && !m.together)
        draw_dashed_ring(picture, *m.stand_in, std::max(look.u(10), hole_px), look, surface);
    if (!m.aim) return;
    const AimSize size = aim_size(m, look);
    if (m.together) {
        if (size.hides == 0) add_disc(picture, *m.aim, look.u(17), faded(surface, 0.85));
        draw_dashed_ring(picture, *m.aim, look.u(size.ring_u), look, surface);
    }
    draw_diamond(picture, *m.aim, size.half_u, look, c.copper, surface);
}

std::optional<Vec2> place_of(const Marks& m, MarkId id) {
    switch (id) {
        case MarkId::ball:
            return m.ball;
        case MarkId::hole:
            return m.hole;
        case MarkId::aim:
            return m.aim;
        case MarkId::stand_in:
            return m.stand_in;
        case MarkId::start_spot:
            return m.start_spot;
        case MarkId::apex:
            return m.apex;
        case MarkId::rolling:
            return m.rolling;
        default:
            return std::nullopt;
    }
}

void draw_attention(Picture& picture, const Marks& m, const MapView& view, const Look& look) {
    const Palette& c = look.colours;
    if (const auto at = place_of(m, view.hovered))
        add_ring(picture, *at, look.u(24), look.u(1.4), faded(c.copper, 0.7));
    if (const auto at = place_of(m, view.pinned))
        add_ring(picture, *at, look.u(24), look.u(2.4), c.copper);
    if (const auto at = place_of(m, view.focused))
        add_ring(picture, *at, look.u(24), look.u(1.8), c.copper);
}

}  // namespace dewtrail
