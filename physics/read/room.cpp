#include "physics/read/room.hpp"

#include <algorithm>
#include <cmath>

#include "physics/hole/hole_capture.hpp"
#include "physics/numbers/root.hpp"
#include "physics/read/told_stroke.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double roll_tolerance = 1e-8;

/// Walks outward from 0, where f is `f_inside` > 0, until f <= 0 and returns the edge between;
/// `most` if it never is.
template <class F>
double edge(F f, double f_inside, double first_step, double most) {
    double inside = 0, step = first_step;
    while (true) {
        const double next = std::abs(inside + step) < std::abs(most) ? inside + step : most;
        const double f_next = f(next);
        if (f_next <= 0) {
            constexpr double close = 1e-8;
            return inside < next ? root(f, inside, next, f_inside, f_next, close)
                                 : root(f, next, inside, f_next, f_inside, close);
        }
        if (next == most) return most;
        inside = next;
        f_inside = f_next;
        step *= 1.25;
    }
}

}  // namespace

std::optional<Entry> entry_of(const Putt& putt, const Roll& roll) {
    const auto rim = roll.rim_on_green();
    if (!rim) return std::nullopt;
    const RimArrival arrival = arrival_at(putt, *rim);
    Entry entry;
    entry.speed_m_s = arrival.speed_m_s;
    entry.offset_m = arrival.offset_m;
    entry.time_s = rim->time_s;
    const double round =
        std::remainder(bearing_of(rim->at - putt.hole) - bearing_of(putt.line()), 2 * M_PI);
    entry.clock_rad = round < 0 ? round + 2 * M_PI : round;
    entry.limit_m_s = capture_limit_m_s(arrival.offset_m, arrival.slope_along, arrival.slope_right);
    entry.holed = entry.speed_m_s < entry.limit_m_s;
    return entry;
}

Stroke off_by(const Putt& putt, const Stroke& stroke, const StrokeOff& off) {
    const double angle = stroke.angle_rad + off.angle_rad;
    // A level roll grows as the square of the speed, unless resistance depends on it.
    if (putt.conditions.slow_share == 1) return {angle, stroke.speed_m_s * std::sqrt(1 + off.pace)};
    const double level = level_roll_m(stroke.speed_m_s, putt.resistance, putt.conditions);
    return {angle, launch_speed_m_s(putt, level * (1 + off.pace))};
}

double drop_margin(const Putt& putt, const Stroke& stroke) {
    RollOptions options;
    options.tolerance = roll_tolerance;
    options.hole = putt.hole;
    options.outline = putt.outline.get();
    options.until_rim = true;
    options.conditions = putt.conditions;
    const Roll rolled = roll(*putt.surface, putt.resistance, putt.launch(stroke), options);
    if (const auto entry = entry_of(putt, rolled)) return entry->limit_m_s - entry->speed_m_s;
    const PathPoint nearest = rolled.pass.value_or(rolled.last);
    return std::min(0.0, 1 - (nearest.at - putt.hole).norm() / hole_radius_m) - 1e-9;
}

DropMargins::DropMargins(const Putt& putt, const Stroke& read)
    : putt_(putt), read_(read), level_roll_m_(level_roll_m(read.speed_m_s, putt.resistance)) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    if (plane && putt.conditions.plain() && !putt.outline &&
        plane->gradient().norm() < putt.resistance)
        closed_form_.emplace(putt);
}

double DropMargins::operator()(const StrokeOff& off) const {
    if (closed_form_)
        return closed_form_->margin(read_.angle_rad + off.angle_rad,
                                    level_roll_m_ * (1 + off.pace));
    return drop_margin(putt_, off_by(putt_, read_, off));
}

std::optional<Room> room_of(const Putt& putt, const Stroke& stroke) {
    const DropMargins margins(putt, stroke);
    const auto by_angle = [&](double off) { return margins({off, 0}); };
    const auto by_pace = [&](double off) { return margins({0, off}); };
    const double here = margins({0, 0});
    if (here <= 0) return std::nullopt;
    const double angle_step = 0.4 * hole_radius_m / putt.distance_m();
    constexpr double pace_step = 0.02;
    return Room{edge(by_angle, here, -angle_step, -M_PI / 2),
                edge(by_angle, here, angle_step, M_PI / 2),
                edge(by_pace, here, -pace_step, least_pace_off),
                edge(by_pace, here, pace_step, most_pace_off)};
}

}  // namespace dewtrail
