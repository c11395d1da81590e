#include "physics/read/room.hpp"

#include <algorithm>
#include <cmath>

#include "physics/hole/hole_capture.hpp"
#include "physics/read/told_stroke.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double fine_tolerance = 1e-8, rough_tolerance = 1e-5;

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

StrokesAbout::StrokesAbout(const Putt& putt, const Stroke& read)
    : putt_(putt), read_(read), level_roll_m_(level_roll_m(read.speed_m_s, putt.resistance)) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    if (plane && putt.conditions.plain() && !putt.outline &&
        plane->gradient().norm() < putt.resistance)
        closed_form_.emplace(putt);
}

Approach StrokesAbout::approach(const StrokeOff& off, Rolled how) const {
    if (closed_form_)
        return closed_form_->approach(read_.angle_rad + off.angle_rad,
                                      level_roll_m_ * (1 + off.pace));
    RollOptions options;
    options.tolerance = how == Rolled::roughly ? rough_tolerance : fine_tolerance;
    options.hole = putt_.hole;
    if (how == Rolled::exactly) options.outline = putt_.outline.get();
    options.until_rim = true;
    options.conditions = putt_.conditions;
    const Launch launch = putt_.launch(off_by(putt_, read_, off));
    return approach_of(roll(*putt_.surface, putt_.resistance, launch, options));
}

double StrokesAbout::margin(const StrokeOff& off) const {
    if (closed_form_)
        return closed_form_->margin(read_.angle_rad + off.angle_rad,
                                    level_roll_m_ * (1 + off.pace));
    const Approach here = approach(off, Rolled::exactly);
    if (here.how != Approach::How::at_rim)
        return std::min(0.0, 1 - (here.at.at - putt_.hole).norm() / hole_radius_m) - 1e-9;
    const RimArrival arrival = arrival_at(putt_, here.at);
    return capture_limit_m_s(arrival.offset_m, arrival.slope_along, arrival.slope_right) -
           arrival.speed_m_s;
}

namespace {

using Edges = std::pair<double, double>;

Edges edges_by_angle(const Putt& putt, const StrokesAbout& strokes, const Arrival& read) {
    const double distance = putt.distance_m(), beside = 0.7 * hole_radius_m / distance;
    const Vec2 turned = right_of(read.way(putt));
    DropLine line(putt, read, {distance, 0, turned.x(), turned.y()}, !strokes.closed(),
                  [&](double off, Rolled how) {
                      return strokes.approach({off, 0}, how);
                  });
    const double right = line.edge(beside, M_PI / 2, false);
    return {line.edge(-beside, -M_PI / 2, false), right};
}

Edges edges_by_pace(const Putt& putt, const Stroke& stroke, const StrokesAbout& strokes,
                    const Arrival& read) {
    constexpr double least = 0.02, softest = 0.9 * least_pace_off;
    const Vec2 way = read.way(putt);
    const double level = level_roll_m(stroke.speed_m_s, putt.resistance, putt.conditions);
    const double energy = 2 * rolling_share * gravity_m_s2 * putt.holding() * level;
    DropLine line(putt, read, {0, energy, way.x(), way.y()}, !strokes.closed(),
                  [&](double off, Rolled how) {
                      return strokes.approach({0, off}, how);
                  });
    const double too_fast = (2.7 - read.figures[Arrival::energy]) / energy;
    const double firm = line.edge(std::max(0.3 * too_fast, least), most_pace_off, false);
    const double too_short = (putt.distance_m() - 2 * hole_radius_m) / way.norm() - 1;
    return {line.edge(std::clamp(too_short, softest, -least), least_pace_off, true), firm};
}

}  // namespace

std::optional<Room> room_of(const Putt& putt, const Stroke& stroke) {
    const StrokesAbout strokes(putt, stroke);
    const Arrival read(putt, 0, strokes.approach({}, Rolled::exactly));
    if (!read.drops) return std::nullopt;
    const auto [left, right] = edges_by_angle(putt, strokes, read);
    const auto [soft, firm] = edges_by_pace(putt, stroke, strokes, read);
    return Room{left, right, soft, firm};
}

}  // namespace dewtrail
