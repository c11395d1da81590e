#include "viewer/picture/map/clock_ring.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/symbols.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr int half_hours = 24, fives_of_minutes = 144;
constexpr double hours_apart_u = 5;     // or two of them are read as one
constexpr double beside_ball_h = 0.26;  // no time is written so near to the ball

void tick(Picture& picture, const ClockRing& ring, double hours, double length, double width,
          const Rect& pane, Colour colour) {
    const Vec2 at = ring.at(hours);
    if (!pane.contains(at)) return;
    const Vec2 out = (at - ring.hole) / ring.radius * (length / 2);
    picture.push_back(Line{{at - out, at + out}, width, colour});
}

}  // namespace

Vec2 ClockRing::at(double hours) const {
    const double turn = hours / hours_per_rad;
    return hole + radius * Vec2(up.x() * std::cos(turn) - up.y() * std::sin(turn),
                                up.x() * std::sin(turn) + up.y() * std::cos(turn));
}

std::optional<ClockRing> ring_of(const Solved& s, const PlanCamera& camera, const Marks& marks) {
    const auto clock_h = clock_of(s.putt);
    if (!clock_h || !marks.hole) return std::nullopt;
    return ClockRing{*marks.hole, s.putt.distance_m() * camera.px_per_m, *clock_h,
                     camera.direction_px(*uphill_at_hole(s.putt))};
}

std::vector<Vec2> ClockRing::circle() const {
    constexpr int pieces = 240;
    std::vector<Vec2> points;
    points.reserve(pieces + 1);
    for (int i = 0; i <= pieces; ++i) points.push_back(at(i / 20.0));
    return points;
}

void draw_clock_ring(Picture& picture, const ClockRing& ring, const Rect& pane, const Look& look) {
    const Colour colour = look.colours.height_label;
    picture.push_back(Line{ring.circle(), look.u(1), colour});
    for (int i = 0; i < fives_of_minutes; ++i)
        tick(picture, ring, i / 12.0, look.u(4), look.u(1), pane, colour);
    for (int i = 0; i < half_hours; ++i)
        tick(picture, ring, i / 2.0, look.u(13), look.u(1.4), pane, colour);
}

void write_hours(PlanPicture& out, const ClockRing& ring, std::vector<Rect> obstacles,
                 const Rect& pane, const Look& look, Colour surface) {
    for (int i = 0; i < half_hours; ++i) {
        const double hours = i / 2.0;
        if (std::abs(std::remainder(hours - ring.ball_h, 12)) < beside_ball_h) continue;
        const Vec2 outward = (ring.at(hours) - ring.hole) / ring.radius;
        const Vec2 middle =
            ring.at(hours) + (look.u(14) + look.type(18) * std::abs(outward.x())) * outward;
        Text text{format_clock(hours),
                  Face::sans,
                  look.type(16),
                  middle + Vec2(0, look.type(5.5)),
                  look.colours.height_label,
                  Align::centre};
        const Rect box = rect_of(text, look.width).grown(look.u(hours_apart_u / 2));
        const auto meets = [&](const Rect& o) { return o.meets(box); };
        if (!pane.grown(-2).holds(box) || std::any_of(obstacles.begin(), obstacles.end(), meets))
            continue;
        out.taken.push_back(box);
        obstacles.push_back(box);
        draw_map_text(out.picture, std::move(text), look, surface);
    }
}

}  // namespace dewtrail
