#include "physics/read/stroke_roller.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/hole/hole_capture.hpp"
#include "physics/hole/open_hole.hpp"
#include "physics/read/told_stroke.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/roll/lockstep_roll.hpp"

namespace dewtrail {
namespace {

constexpr double roll_tolerance = 1e-6;  // 0.3 mm at rest
constexpr double no_drop = -0.5;

}  // namespace

Approach approach_of(const Roll& roll) {
    if (const auto rim = roll.rim_on_green()) return {Approach::How::at_rim, *rim};
    if (roll.pass) return {Approach::How::passes, *roll.pass};
    return {Approach::How::rests, roll.last};
}

StrokeRoller::StrokeRoller(const Putt& putt)
    : putt_(putt), level_slowing_(level_deceleration_m_s2(putt.resistance)) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    if (plane && putt.conditions.plain()) ground_.emplace(plane->gradient(), putt.resistance);
}

Launch StrokeRoller::launch(double angle_rad, double level_roll_m) const {
    const double speed = putt_.conditions.plain() ? std::sqrt(2 * level_slowing_ * level_roll_m)
                                                  : launch_speed_m_s(putt_, level_roll_m);
    return putt_.launch({angle_rad, speed});
}

RollOptions StrokeRoller::roll_options() const {
    RollOptions options;
    options.tolerance = roll_tolerance;
    options.outline = putt_.outline.get();
    options.conditions = putt_.conditions;
    return options;
}

std::optional<PathPoint> StrokeRoller::rim(double angle_rad, double level_roll_m) const {
    if (ground_) return PlaneRoll(*ground_, launch(angle_rad, level_roll_m)).rim(putt_.hole);
    RollOptions options = roll_options();
    options.hole = putt_.hole;
    options.until_rim = true;
    return roll(*putt_.surface, putt_.resistance, launch(angle_rad, level_roll_m), options)
        .rim_on_green();
}

double StrokeRoller::margin(double angle_rad, double level_roll_m) const {
    return margin_at(rim(angle_rad, level_roll_m));
}

double StrokeRoller::margin_at(const std::optional<PathPoint>& rim) const {
    if (!rim) return no_drop;
    const RimArrival arrival = arrival_at(putt_, *rim);
    return capture_limit_m_s(arrival.offset_m, arrival.slope_along, arrival.slope_right) -
           arrival.speed_m_s;
}

Approach StrokeRoller::approach(double angle_rad, double level_roll_m) const {
    if (ground_) {
        const PlaneRoll rolled(*ground_, launch(angle_rad, level_roll_m));
        if (const auto rim = rolled.rim(putt_.hole)) return {Approach::How::at_rim, *rim};
        if (const auto pass = rolled.pass(putt_.hole)) return {Approach::How::passes, *pass};
        return {Approach::How::rests, rolled.rest()};
    }
    RollOptions options = roll_options();
    options.hole = putt_.hole;
    options.until_rim = true;
    return approach_of(
        roll(*putt_.surface, putt_.resistance, launch(angle_rad, level_roll_m), options));
}

Vec2 StrokeRoller::nearest(double angle_rad, double level_roll_m) const {
    if (ground_) {
        const PlaneRoll rolled(*ground_, launch(angle_rad, level_roll_m));
        const auto pass = rolled.pass(putt_.hole);
        return pass ? pass->at : rolled.rest_at();
    }
    RollOptions options = roll_options();
    options.hole = putt_.hole;
    const Roll rolled =
        roll(*putt_.surface, putt_.resistance, launch(angle_rad, level_roll_m), options);
    return rolled.pass.value_or(rolled.last).at;
}

Vec2 StrokeRoller::rest(double angle_rad, double level_roll_m) const {
    return rest_from(launch(angle_rad, level_roll_m), false);
}

/// `rolling`: with the spin of rolling, whatever the putter gives.
Vec2 StrokeRoller::rest_from(Launch launch, bool rolling) const {
    if (ground_) return PlaneRoll(*ground_, launch).rest_at();
    RollOptions options = roll_options();
    if (rolling) options.conditions.launch_spin.reset();
    return roll(*putt_.surface, putt_.resistance, launch, options).last.at;
}

/// Calls take(i, roll) for each stroke.
template <class Take>
void StrokeRoller::in_lockstep(std::span<const LevelStroke> strokes, bool until_rim,
                               Take take) const {
    RollOptions options = roll_options();
    if (until_rim) options.hole = putt_.hole;
    options.until_rim = until_rim;
    std::array<Launch, lockstep_lanes> launches;
    std::array<PlainRoll, lockstep_lanes> rolls;
    for (std::size_t first = 0; first < strokes.size(); first += lockstep_lanes) {
        const std::size_t count = std::min<std::size_t>(lockstep_lanes, strokes.size() - first);
        for (std::size_t i = 0; i < count; ++i)
            launches[i] = launch(strokes[first + i].angle_rad, strokes[first + i].level_roll_m);
        roll_in_lockstep(*putt_.surface, putt_.resistance, std::span(launches).first(count),
                         options, std::span(rolls).first(count));
        for (std::size_t i = 0; i < count; ++i) take(first + i, rolls[i]);
    }
}

void StrokeRoller::margins(std::span<const LevelStroke> strokes, std::span<double> margins) const {
    if (ground_)
        for (std::size_t i = 0; i < strokes.size(); ++i)
            margins[i] = margin(strokes[i].angle_rad, strokes[i].level_roll_m);
    else
        in_lockstep(strokes, true,
                    [&](std::size_t i, const PlainRoll& r) { margins[i] = margin_at(r.rim); });
}

void StrokeRoller::rests(std::span<const LevelStroke> strokes, std::span<Vec2> rests) const {
    if (ground_)
        for (std::size_t i = 0; i < strokes.size(); ++i)
            rests[i] = rest(strokes[i].angle_rad, strokes[i].level_roll_m);
    else
        in_lockstep(strokes, false, [&](std::size_t i, const PlainRoll& r) { rests[i] = r.last; });
}

Vec2 StrokeRoller::rest_through_hole(double angle_rad, double level_roll_m) const {
    const auto at = rim(angle_rad, level_roll_m);
    if (!at) return rest(angle_rad, level_roll_m);
    const HoleOutcome outcome = roll_into_hole(arrival_at(putt_, *at));
    if (outcome.holed) return putt_.hole;
    const PathPoint exit = exit_of(putt_, {*at, outcome});
    if (!(exit.speed_m_s > 0)) return exit.at;
    return rest_from({exit.at, exit.bearing_rad, exit.speed_m_s}, true);
}

}  // namespace dewtrail
