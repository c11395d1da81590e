#include "physics/read/read.hpp"

#include <cmath>
#include <stdexcept>

#include "physics/read/aim_offset.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/read/room.hpp"
#include "physics/read/shortfall.hpp"
#include "physics/read/surface_line.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double least_apex_m = 1e-4;
constexpr double start_spot_m = 12 * metres_per_inch;

double wrap(double angle) {
    const double a = std::remainder(angle, 2 * M_PI);
    return a == -M_PI ? M_PI : a + 0.0;  // never -0
}

PlayerPoint along_start_line(double angle_rad, double length_m) {
    return {length_m * std::cos(angle_rad), length_m * std::sin(angle_rad) + 0.0};
}

RollOptions roll_options(const Putt& putt, const ReadOptions& options) {
    RollOptions how;
    how.tolerance = options.tolerance;
    how.hole = putt.hole;
    how.outline = putt.outline.get();
    how.keep_path = options.keep_path;
    how.most_arc_m = 5000;
    how.most_steps = 40000;
    how.conditions = putt.conditions;
    return how;
}

/// The simulation has the last word. Where it contradicts the table, the ball is so near the limit
/// that there is no room to either side.
void describe_hole(const Putt& putt, const ReadOptions& options, Read& read) {
    if (options.open_hole) {
        read.open = roll_through_hole(putt, read.roll, roll_options(putt, options));
        if (!read.open->meetings.empty())
            read.entry.holed = read.open->meetings.front().outcome.holed;
    }
    if (options.room && read.entry.holed)
        read.room = room_of(putt, read.stroke).value_or(Room{0, 0, 0, 0});
}

void describe_apex(const Putt& putt, Read& read) {
    if (!read.roll.apex) return;
    const PlayerPoint apex = in_player_frame(putt, read.roll.apex->at);
    if (std::abs(apex.offset_m) < least_apex_m) return;
    read.apex = apex;
    const double angle = read.stroke.angle_rad;
    if (std::abs(angle) >= M_PI / 2) return;
    const double side = apex.offset_m > 0 ? 1 : -1;
    if (side * angle < 0) return;  // it breaks both ways, and is farthest off on the other side
    read.line_above_apex_m = side * (apex.along_m * std::tan(angle) - apex.offset_m);
}

/// Where the ball is at the hole: its closest pass, or where it rests if it dies there.
const PathPoint& at_hole(const Putt& putt, const Roll& roll) {
    const bool dies = roll.end == RollEnd::at_rest && putt.finish.dead_weight() &&
                      (roll.last.at - putt.hole).norm() < most_finish_error_m;
    return roll.pass && !dies ? *roll.pass : roll.last;
}

void describe_arrival(const Putt& putt, Read& read) {
    const Roll& roll = read.roll;
    const PathPoint& at = at_hole(putt, roll);
    read.arrival_speed_m_s = at.speed_m_s;
    read.arrival_time_s = at.time_s;
    if (at.speed_m_s > 0) read.arrival_angle_rad = wrap(at.bearing_rad - bearing_of(putt.line()));
    if (roll.end == RollEnd::at_rest) read.past_m = roll.last.arc_m - at.arc_m;
    if (const auto entry = entry_of(putt, roll)) read.entry = *entry;
}

/// The measured miss and finish of the check; dead weight is judged by where the ball rests.
Check check_of(const Putt& putt, const Read& read) {
    const PathPoint& at = at_hole(putt, read.roll);
    Check check;
    check.miss_m = (at.at - putt.hole).norm();
    if (putt.finish.kind == Finish::Kind::hole_speed)
        check.finish_error_m_s = std::abs(at.speed_m_s - putt.finish.value);
    else if (putt.finish.dead_weight())
        check.finish_error_m = (read.roll.last.at - putt.hole).norm();
    else
        check.finish_error_m = read.past_m ? std::abs(*read.past_m - putt.finish.value) : HUGE_VAL;
    return check;
}

bool passes(const Check& check) {
    return check.miss_m <= most_miss_m && check.finish_error_m.value_or(0) <= most_finish_error_m &&
           check.finish_error_m_s.value_or(0) <= most_finish_error_m_s;
}

/// Off the green before the hole, or stopped for leaving it before the finish that was asked.
bool leaves_green(const Putt& putt, const Read& read) {
    const Roll& roll = read.roll;
    const PathPoint& at = at_hole(putt, roll);
    if (roll.off_green && roll.off_green->arc_m < at.arc_m) return true;
    return putt.finish.kind == Finish::Kind::past && roll.end == RollEnd::left_the_green;
}

/// The level roll without the skid, which does not depend on the stimp.
double rolled_m(const Putt& putt, const Read& read) {
    if (!putt.conditions.launch_spin) return read.level_roll_m;
    return read.level_roll_m - level_skid_m(read.stroke.speed_m_s, putt.conditions);
}

/// d(aim)/d(angle) and the level putt's own dependence on speed and stimp: L = v^2 S / v_s^2.
Costs costs_of(const Putt& putt, const Read& read, double tolerance) {
    Costs costs;
    if (read.turns) costs.halves = half_costs_of(putt, read.stroke, read.roll);
    const auto moved = stroke_sensitivity(putt, read.stroke, tolerance);
    if (!moved) return costs;
    const Vec2 up = uphill_at_hole(putt).value_or(putt.line().normalized());
    const Vec2 right(up.y(), -up.x());
    const auto by_tilt = [&](int row, const Vec2& tilt) {
        return (*moved)(row, 1) * tilt.x() + (*moved)(row, 2) * tilt.y();
    };
    const double rho = putt.resistance, stimp = stimp_of_resistance(rho);
    const double rho_per_stimp = -rho / stimp;
    const double speed = read.stroke.speed_m_s;
    const double level_per_speed = level_roll_per_speed(speed, rho, putt.conditions);
    costs.level_putt_m_per_stimp_m =
        level_per_speed * (*moved)(1, 0) * rho_per_stimp + rolled_m(putt, read) / stimp;
    costs.level_putt_m_per_slope = level_per_speed * by_tilt(1, up);
    costs.level_putt_m_per_cross_slope = level_per_speed * by_tilt(1, right);
    if (!read.aim_offset_m) return costs;
    const double cosine = std::cos(read.stroke.angle_rad);
    const double aim_per_angle = putt.distance_m() / (cosine * cosine);
    costs.aim_m_per_stimp_m = aim_per_angle * (*moved)(0, 0) * rho_per_stimp;
    costs.aim_m_per_slope = aim_per_angle * by_tilt(0, up);
    costs.aim_m_per_cross_slope = aim_per_angle * by_tilt(0, right);
    return costs;
}

NoLine plane_has_none(const Putt& putt, const PlaneLines& lines) {
    NoLine none;
    none.why = putt.finish.kind == Finish::Kind::past ? NoLine::Why::never_stops
                                                      : NoLine::Why::always_faster;
    none.holds_up_to_slope = lines.holds_up_to_slope;
    none.friction_over_slope = lines.friction_over_slope;
    none.least_arrival_m_s = lines.least_arrival_m_s;
    return none;
}

/// Candidate strokes, not yet verified; smallest angle first. `none` is set if there are none.
struct Candidates {
    std::vector<Stroke> strokes;
    NoLine none;
};

Candidates candidates_for(const Putt& putt, const ReadOptions& options) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    if (plane && putt.conditions.plain()) {
        const PlaneLines lines =
            lines_on_plane(plane->gradient(), putt.resistance, putt.line(), putt.finish);
        return {lines.strokes, plane_has_none(putt, lines)};
    }
    const SurfaceLines lines = lines_on_surface(putt, 10 * options.tolerance,
                                                options.every_line || options.look_for_others);
    NoLine none;
    none.holds_up_to_slope = putt.holding();
    none.nearest_finish = lines.nearest_finish;
    return {lines.strokes, none};
}

/// A ball this slow changes its speed so quickly from place to place that 1e-6 m of error in place
/// is 1e-4 m/s, and one that the slope all but keeps going turns an error in speed into a hundred
/// times as much in length: solve and check are both made finer.
ReadOptions fine_enough(const Putt& putt, ReadOptions options) {
    constexpr double slow_m_s = 0.25, balanced_k = 1.05, finer = 0.02;
    const Finish& finish = putt.finish;
    const bool slow =
        finish.kind == Finish::Kind::hole_speed && finish.value > 0 && finish.value < slow_m_s;
    if (slow || putt.least_friction_over_pull() < balanced_k) options.tolerance *= finer;
    return options;
}

void check_input(const Putt& putt) {
    if (!putt.surface) throw std::invalid_argument("putt: has no surface");
    if (!(putt.resistance > 0)) throw std::invalid_argument("putt: resistance must be positive");
    if (!(putt.finish.value >= 0)) throw std::invalid_argument("putt: finish must not be negative");
    if (!(putt.distance_m() > hole_radius_m))
        throw std::invalid_argument("putt: the ball lies inside the hole");
}

}  // namespace

Read describe_stroke(const Putt& putt, const Stroke& stroke, const ReadOptions& options) {
    check_input(putt);
    Read read;
    read.stroke = {wrap(stroke.angle_rad), stroke.speed_m_s};
    read.level_roll_m = level_roll_m(stroke.speed_m_s, putt.resistance, putt.conditions);
    read.level_putt_m = read.level_roll_m - options.usual_past_m;
    const double angle = read.stroke.angle_rad;
    read.start_spot = along_start_line(angle, std::min(start_spot_m, putt.distance_m() / 2));
    read.aim_offset_m = aim_offset_m(putt, angle);
    if (read.level_putt_m > 0) read.stand_in_hole = along_start_line(angle, read.level_putt_m);
    read.roll =
        roll(*putt.surface, putt.resistance, putt.launch(stroke), roll_options(putt, options));
    read.rolls_from = read.roll.rolls_from;
    describe_apex(putt, read);
    read.turns = turns_of(putt, stroke, read.roll);
    describe_arrival(putt, read);
    describe_hole(putt, options, read);
    return read;
}

ReadResult read(const Putt& putt, const ReadOptions& asked) {
    check_input(putt);
    const ReadOptions options = fine_enough(putt, asked);
    const Candidates candidates = candidates_for(putt, options);
    ReadResult result;
    NoLine none = candidates.none;
    ReadOptions bare = options;
    bare.room = bare.open_hole = false;
    for (const Stroke& stroke : candidates.strokes) {
        Read line = describe_stroke(putt, stroke, bare);
        line.check = check_of(putt, line);
        if (leaves_green(putt, line)) {
            none.why = NoLine::Why::leaves_the_green;
        } else if (!passes(line.check)) {
            none.why = NoLine::Why::check_failed;
            // A ball that did not come to rest in the check has no finish error.
            const double off = std::max(line.check.miss_m, line.check.finish_error_m.value_or(0));
            if (std::isfinite(off)) none.check_miss_m = off;
        } else if (result.lines.empty() || options.every_line) {
            describe_hole(putt, options, line);
            if (options.costs) line.costs = costs_of(putt, line, 10 * options.tolerance);
            result.lines.push_back(std::move(line));
        } else {
            ++result.other_lines;
        }
    }
    if (options.every_line && !result.lines.empty())
        result.other_lines = static_cast<int>(result.lines.size()) - 1;
    if (result.lines.empty()) result.none = none;
    return result;
}

}  // namespace dewtrail
