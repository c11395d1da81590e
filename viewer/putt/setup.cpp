#include "viewer/putt/setup.hpp"

#include <algorithm>
#include <cmath>

#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

/// Readings where a LineProfile knows them, from the surface itself: ball, halfway, hole.
std::vector<LineReading> sampled(const Putt& putt) {
    std::vector<LineReading> readings;
    const Vec2 ahead = putt.line().normalized();
    const Vec2 right(ahead.y(), -ahead.x());
    for (const double share : {0.0, 0.5, 1.0}) {
        const Vec2 at = putt.ball + share * putt.line();
        const Vec2 g = putt.surface->at(at.x(), at.y()).gradient();
        readings.push_back({share, g.dot(ahead), g.dot(right)});
    }
    return readings;
}

std::vector<LineReading> in_metres(const Setup& setup) {
    std::vector<LineReading> readings = setup.readings;
    for (LineReading& r : readings) r.along_m *= setup.distance_m;
    return readings;
}

/// The profile as rows at ball, halfway and hole, when it was given otherwise.
void make_three_rows(Setup& setup) {
    if (setup.readings.size() == 3 && setup.readings[0].along_m == 0 &&
        setup.readings[1].along_m == 0.5 && setup.readings[2].along_m == 1)
        return;
    setup.readings = sampled(putt_of(setup));
}

/// The ground was read anew from the same ball: what blows and grows stays as the player faces it.
void see_slope(Setup& setup, const AlongAcross& at_hole) {
    setup.typed.slope.clear();
    setup.typed.clock.clear();
    setup.slope = at_hole.slope();
    const double least = setup.readings.empty() ? 0 : least_told_slope;
    if (!(setup.slope > least)) return;
    const double clock_h = clock_of(at_hole), hours = clock_h - setup.clock_h;
    setup.conditions.wind_m_s = turned(setup.conditions.wind_m_s, hours);
    setup.conditions.grain = turned(setup.conditions.grain, hours);
    setup.clock_h = clock_h;
}

AlongAcross limited(const AlongAcross& values) {
    const double size = values.slope();
    const double share = size > most_slope ? most_slope / size : 1;
    return {values.up * share, values.falls_left * share};
}

}  // namespace

Putt putt_of(const Setup& setup) {
    Putt putt;
    putt.resistance = resistance_of_stimp(setup.stimp_ft * metres_per_foot);
    putt.finish = setup.finish;
    putt.conditions = setup.conditions;
    if (setup.green) {
        putt.surface = setup.green->surface;
        putt.outline = std::shared_ptr<const Outline>(setup.green, &setup.green->outline);
        putt.ball = setup.ball;
        putt.hole = setup.hole;
        return putt;
    }
    putt.ball = setup.distance_m * clock_direction(setup.clock_h);
    if (setup.readings.empty())
        putt.surface = std::make_shared<Plane>(Vec2(0, setup.slope));
    else
        putt.surface = std::make_shared<LineProfile>(putt.ball, putt.hole, in_metres(setup));
    return putt;
}

PlacedPutt placed(Setup setup, std::vector<std::string> notes) {
    Putt putt = putt_of(setup);
    return {std::move(setup), std::move(putt), std::move(notes)};
}

double distance_of(const Setup& setup) {
    return setup.green ? (setup.hole - setup.ball).norm() : setup.distance_m;
}

double slope_at_hole(const Setup& setup) {
    return setup.green ? putt_of(setup).slope_at_hole() : setup.slope;
}

std::optional<double> clock_of(const Setup& setup) {
    if (setup.green) return clock_of(putt_of(setup));
    return setup.slope < least_told_slope ? std::nullopt : std::optional(setup.clock_h);
}

double bearing_hours(const Setup& setup) {
    if (!setup.green) return setup.clock_h;
    return clock_of(setup).value_or(clock_of_direction(setup.ball - setup.hole));
}

AlongAcross along_across(const Setup& setup) {
    if (!setup.green && setup.readings.empty()) return along_across(setup.slope, setup.clock_h);
    if (!setup.green && setup.readings.back().along_m == 1)
        return {setup.readings.back().up, setup.readings.back().right_up};
    const LineReading at_hole = sampled(putt_of(setup)).back();
    return {at_hole.up, at_hole.right_up};
}

void set_distance(Setup& setup, double distance_m) {
    const double d = std::clamp(distance_m, least_distance_m, most_distance_m);
    setup.typed.distance.clear();
    if (!setup.green)
        setup.distance_m = d;
    else
        place_ball(setup, setup.hole + d * (setup.ball - setup.hole).normalized());
}

void set_clock(Setup& setup, double clock_h) {
    const double hours = on_the_dial(clock_h) - bearing_hours(setup);
    setup.typed.clock.clear();
    if (setup.green) return place_ball(setup, setup.hole + turned(setup.ball - setup.hole, hours));
    setup.clock_h = on_the_dial(clock_h);
    for (LineReading& r : setup.readings) {
        const Vec2 seen = turned({r.right_up, r.up}, -hours);
        r.right_up = seen.x();
        r.up = seen.y();
    }
}

void set_distance_and_clock(Setup& setup, double distance_m, double clock_h) {
    if (setup.green) {
        const Vec2 up = uphill_at_hole(putt_of(setup)).value_or(Vec2(0, 1));
        return place_ball(setup, setup.hole + distance_m * turned(up, clock_h));
    }
    set_clock(setup, clock_h);
    set_distance(setup, distance_m);
}

void set_slope(Setup& setup, double slope) {
    if (setup.green) return;
    const double s = std::clamp(slope, 0.0, most_slope);
    const double ratio = setup.slope > 0 ? s / setup.slope : 0;
    for (LineReading& r : setup.readings) {
        const AlongAcross scaled = limited({r.up * ratio, r.right_up * ratio});
        r.up = scaled.up;
        r.right_up = scaled.falls_left;
    }
    setup.slope = s;
    setup.typed.slope.clear();
}

void set_along_across(Setup& setup, const AlongAcross& values) {
    if (setup.green) return;
    const AlongAcross v = limited(values);
    setup.readings.clear();
    see_slope(setup, v);
}

void set_readings(Setup& setup, std::vector<LineReading> readings) {
    for (LineReading& r : readings) r.along_m /= setup.distance_m;
    setup.readings = std::move(readings);
    setup.face = SlopeFace::three_rows;
    see_slope(setup, along_across(setup));
}

void set_face(Setup& setup, SlopeFace face) {
    if (setup.green) return;
    setup.face = face;
    if (face == SlopeFace::three_rows) {
        make_three_rows(setup);
    } else if (!setup.readings.empty()) {
        set_along_across(setup, along_across(setup));
    }
}

AlongAcross row(const Setup& setup, int index) {
    const std::vector<LineReading> rows = sampled(putt_of(setup));
    const LineReading& r = rows[static_cast<std::size_t>(index)];
    return {r.up, r.right_up};
}

void set_row(Setup& setup, int index, const AlongAcross& values) {
    if (setup.green) return;
    make_three_rows(setup);
    LineReading& r = setup.readings[static_cast<std::size_t>(index)];
    const AlongAcross v = limited(values);
    r.up = v.up;
    r.right_up = v.falls_left;
    see_slope(setup, along_across(setup));
}

void set_stimp(Setup& setup, double stimp_ft) {
    setup.stimp_ft = std::clamp(stimp_ft, least_stimp_ft, most_stimp_ft);
    setup.typed.stimp.clear();
}

void set_finish(Setup& setup, const Finish& finish) {
    const bool past = finish.kind == Finish::Kind::past;
    setup.finish = finish;
    setup.finish.value = std::clamp(finish.value, 0.0, past ? most_past_m : most_hole_speed_m_s);
    setup.typed.finish.clear();
}

void place_ball(Setup& setup, const Vec2& at) {
    Vec2 from = at - setup.hole;
    if (!setup.green) from = at;
    const double d = from.norm();
    if (!(d > 0)) return;
    from *= std::clamp(d, least_distance_m, most_distance_m) / d;
    setup.typed.distance.clear();
    setup.typed.clock.clear();
    if (setup.green) {
        setup.ball = setup.hole + from;
        setup.ball_name.clear();
    } else {
        setup.distance_m = from.norm();
        set_clock(setup, clock_of_direction(from));
    }
}

void place_hole(Setup& setup, const Vec2& at) {
    if (!setup.green) return;
    const auto fits = [&](const Vec2& p) {
        return setup.green->outline.inside_by(p) >= hole_inside_by_m &&
               (p - setup.ball).norm() >= least_distance_m;
    };
    double lo = 0, hi = 1;
    if (fits(at)) lo = 1;
    for (int i = 0; lo < 1 && i < 20; ++i) {
        const double mid = (lo + hi) / 2;
        (fits(setup.hole + mid * (at - setup.hole)) ? lo : hi) = mid;
    }
    setup.hole += lo * (at - setup.hole);
    setup.typed.distance.clear();
    setup.typed.clock.clear();
    setup.hole_name.clear();
}

void mirror(Setup& setup) {
    if (setup.green) return set_clock(setup, 12 - bearing_hours(setup));
    setup.clock_h = on_the_dial(12 - setup.clock_h);
    setup.typed.clock.clear();
    for (LineReading& r : setup.readings) r.right_up = 0 - r.right_up;
    for (Vec2* v : {&setup.conditions.wind_m_s, &setup.conditions.grain}) v->x() = 0 - v->x();
}

void put_on_green(Setup& setup, std::shared_ptr<const Green> green) {
    const Vec2 hole = green->holes.begin()->second;
    setup.hole = hole;
    setup.hole_name = green->holes.begin()->first;
    setup.ball_name.clear();
    setup.stimp_ft = green->stimp_ft;
    setup.typed = {};
    // All round the clock, the place that lies farthest inside.
    double best = -1;
    for (int i = 0; i < 24; ++i) {
        const Vec2 ball = hole + 12 * metres_per_foot * clock_direction(i / 2.0);
        const double inside = green->outline.inside_by(ball);
        if (inside > best + 1e-9) {
            best = inside;
            setup.ball = ball;
        }
    }
    setup.readings.clear();
    setup.face = SlopeFace::total;
    setup.green = std::move(green);
}

}  // namespace dewtrail
