#include "viewer/picture/map/marks.hpp"

namespace dewtrail {
namespace {

/// The start line ends at whichever lies farther on it: aim spot or stand-in hole.
Vec2 end_of_start_line(const Putt& putt, const Read& read) {
    const Vec2 ahead = along_bearing(bearing_of(putt.line()) + read.stroke.angle_rad);
    double length = std::max(read.level_putt_m, 0.25 * putt.distance_m());
    if (read.aim_offset_m)
        length = std::max(length, (place_of_aim(putt, *read.aim_offset_m) - putt.ball).norm());
    return putt.ball + length * ahead;
}

void place_on_line(Marks& m, const Solved& s, const Read& read, const Projection& project,
                   double nearest_px) {
    if (read.aim_offset_m) m.aim = project(place_of_aim(s.putt, *read.aim_offset_m));
    if (read.stand_in_hole) m.stand_in = project(on_green(s.putt, *read.stand_in_hole));
    m.start_spot = project(on_green(s.putt, read.start_spot));
    if (read.apex) m.apex = project(on_green(s.putt, *read.apex));
    if (read.turns && read.apex) {
        const Turns& turns = *read.turns;
        const bool apex_first = turns.first.offset_m * read.apex->offset_m > 0;
        m.turn = project(on_green(s.putt, apex_first ? turns.second : turns.first));
    }
    m.together = m.aim && m.stand_in && (*m.aim - *m.stand_in).norm() < nearest_px;
    const auto to = project(end_of_start_line(s.putt, read));
    m.line_seen = m.ball && to;
    if (m.line_seen) {
        m.line_from = *m.ball;
        m.line_to = *to;
    }
}

}  // namespace

Vec2 place_of_aim(const Putt& putt, double aim_offset_m) {
    return on_green(putt, {putt.distance_m(), aim_offset_m});
}

Marks between(const Marks& a, const Marks& b, double t) {
    Marks m = b;
    for (const auto mark : {&Marks::ball, &Marks::hole, &Marks::aim, &Marks::stand_in,
                            &Marks::start_spot, &Marks::apex, &Marks::turn})
        if (a.*mark && b.*mark) m.*mark = *(a.*mark) + t * (*(b.*mark) - *(a.*mark));
    if (a.line_seen && b.line_seen) {
        m.line_from = a.line_from + t * (b.line_from - a.line_from);
        m.line_to = a.line_to + t * (b.line_to - a.line_to);
    }
    return m;
}

Marks marks_of(const Solved& s, const Projection& project, double nearest_px) {
    Marks m;
    m.ball = project(s.putt.ball);
    m.hole = project(s.putt.hole);
    const Read* read = s.shown();
    if (!read) return m;
    place_on_line(m, s, *read, project, nearest_px);
    for (const FinishChoice& choice : s.choices) {
        if (choice.chosen || !choice.aim_offset_m) continue;
        if (const auto at = project(place_of_aim(s.putt, *choice.aim_offset_m)))
            m.finishes.push_back({choice.name, *at});
    }
    const double side = read->stroke.angle_rad >= 0 ? 1 : -1;
    const Vec2 middle = s.putt.ball + s.putt.line() / 2;
    const auto a = project(middle);
    const auto b =
        project(on_green(s.putt, {s.putt.distance_m() / 2, side * 0.05 * s.putt.distance_m()}));
    if (a && b && (*b - *a).norm() > 0) m.high_side = (*b - *a).normalized();
    m.apex_side = read->apex && read->apex->offset_m * side < 0 ? Vec2(-m.high_side) : m.high_side;
    return m;
}

}  // namespace dewtrail
