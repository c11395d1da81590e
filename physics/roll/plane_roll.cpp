#include "physics/roll/plane_roll.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// How much of the path is left at the points between which we search for the hole. Dense at the
/// end, where the heading swings round.
constexpr double left[] = {0.85, 0.7, 0.55, 0.42, 0.3, 0.2, 0.12, 0.06, 0.02, 4e-3, 2e-4, 1e-6};
constexpr double nothing_left = 1e-14;
constexpr double last_digits = 1e-14, half_the_digits = 1e-8;

/// The root between a, where f < 0, and b, where f >= 0: Newton held to the bracket. f gives value
/// and slope.
template <class F>
double root(F f, double a, double b, double first) {
    double x = std::clamp(first, a, b);
    for (int i = 0; i < 100; ++i) {
        const auto [value, slope] = f(x);
        const double step = -value / slope;
        (value < 0 ? a : b) = x;
        const bool inside = x + step > a && x + step < b;
        x = inside ? x + step : 0.5 * (a + b);
        // Newton squares the error: after so small a step nothing is left of it.
        if ((inside && std::abs(step) <= half_the_digits * x) || b - a <= last_digits * b) break;
    }
    return x;
}

}  // namespace

double decay(double rate, double sigma) {
    return rate == 0 ? sigma : -std::expm1(-rate * sigma) / rate;
}

PlaneForces::PlaneForces(const Vec2& gradient, double resistance)
    : slope(gradient.norm()),
      cosine(1 / std::sqrt(1 + slope * slope)),
      pull(rolling_share * gravity_m_s2 * slope * cosine),
      friction(rolling_share * gravity_m_s2 * resistance * cosine),
      uphill(slope > 0 ? Vec2(gradient / slope) : Vec2(0, 1)),
      across(-uphill.y(), uphill.x()) {}

PlaneGround::PlaneGround(const Vec2& gradient, double resistance)
    : PlaneForces(gradient, resistance) {
    if (!(resistance > slope) || !std::isfinite(resistance))
        throw std::invalid_argument("plane: resistance " + std::to_string(resistance) +
                                    " must exceed the slope " + std::to_string(slope));
}

PlaneRoll::PlaneRoll(const PlaneGround& ground, const Launch& launch)
    : PlaneRoll(ground, launch, along_bearing(launch.bearing_rad)) {}

PlaneRoll::PlaneRoll(const PlaneGround& ground, const Launch& launch, const Vec2& e)
    : ground_(ground), launch_(launch) {
    const double down = -e.dot(ground.uphill) / ground.cosine, across = e.dot(ground.across);
    const double length = std::sqrt(down * down + across * across), sine = across / length;
    // Of 1 + cos and 1 - cos the smaller one by the other, so that it keeps its digits.
    const double larger = 0.5 * (1 + std::abs(down) / length);
    const double smaller = 0.25 * sine * sine / larger;
    c_ = down > 0 ? larger : smaller;
    s_ = down > 0 ? smaller : larger;
    root_ = 0.5 * sine;
}

Vec2 PlaneRoll::plan(double down, double across) const {
    return launch_.from - down * ground_.cosine * ground_.uphill + across * ground_.across;
}

double PlaneRoll::speed(double sigma) const {
    const double f = ground_.friction, g = ground_.pull;
    return launch_.speed_m_s * (c_ * std::exp((g - f) * sigma) + s_ * std::exp(-(g + f) * sigma));
}

PlaneRoll::Place PlaneRoll::place(double sigma) const {
    const double f = ground_.friction, g = ground_.pull, v2 = launch_.speed_m_s * launch_.speed_m_s;
    const double slowed = std::exp((g - f) * sigma), turned = std::exp(-g * sigma);
    const double e = slowed * slowed, t2 = turned * turned;
    const double down =
        v2 * (c_ * c_ * (1 - e) / (2 * (f - g)) - s_ * s_ * (1 - e * t2 * t2) / (2 * (f + g)));
    const double across =
        2 * v2 * root_ *
        (c_ * (1 - e * turned) / (2 * f - g) + s_ * (1 - e * turned * t2) / (2 * f + g));
    const double s = c_ > 0 ? s_ * t2 : s_;  // straight up it never turns, and t2 may underflow
    const Vec2 heading =
        (s - c_) * ground_.cosine * ground_.uphill + 2 * root_ * turned * ground_.across;
    const double foreshortened = heading.norm() / (c_ + s), v = slowed * (c_ + s_ * t2);
    return {plan(down, across), heading.normalized(), v2 * v * v * foreshortened, foreshortened};
}

PathPoint PlaneRoll::at(double sigma) const {
    const double f = ground_.friction, g = ground_.pull, v = launch_.speed_m_s;
    const Place here = place(sigma);
    const double time = v * (c_ * decay(f - g, sigma) + s_ * decay(f + g, sigma));
    const double arc = v * v *
                       (c_ * c_ * decay(2 * (f - g), sigma) + 2 * c_ * s_ * decay(2 * f, sigma) +
                        s_ * s_ * decay(2 * (f + g), sigma));
    return {time, here.at, bearing_of(here.heading), speed(sigma), arc};
}

Vec2 PlaneRoll::rest_at() const {
    const double f = ground_.friction, g = ground_.pull, v2 = launch_.speed_m_s * launch_.speed_m_s;
    return plan(v2 * (c_ * c_ / (2 * (f - g)) - s_ * s_ / (2 * (f + g))),
                2 * v2 * root_ * (c_ / (2 * f - g) + s_ / (2 * f + g)));
}

PathPoint PlaneRoll::rest() const {
    const double f = ground_.friction, g = ground_.pull, v = launch_.speed_m_s;
    const bool straight_up = c_ == 0;
    const double time = v * (c_ / (f - g) + s_ / (f + g));
    const double arc = 0.5 * v * v * (c_ * c_ / (f - g) + 2 * c_ * s_ / f + s_ * s_ / (f + g));
    const bool turns = g > 0 && !straight_up;
    const double bearing = turns ? bearing_of(-ground_.uphill) : launch_.bearing_rad;
    return {time, rest_at(), bearing, 0, arc};
}

/// How much nearer to the hole it comes per sigma, negative, and the slope of that.
std::pair<double, double> PlaneRoll::receding(const Place& p, const Vec2& hole) const {
    const Vec2 off = p.at - hole, right(p.heading.y(), -p.heading.x());
    const double turning =
        -right.dot(ground_.uphill) * ground_.pull * ground_.cosine / p.foreshortened;
    return {off.dot(p.heading), p.rate + off.dot(right) * turning};
}

template <class Found>
void PlaneRoll::each_pass(const Vec2& hole, double from, Found found) const {
    const double f = ground_.friction, g = ground_.pull;
    const double slowing = f - g * (c_ - s_), end = end_of_path();
    const auto nearing = [&](double sigma) { return receding(place(sigma), hole); };
    double a = from, fa = nearing(from).first;
    for (int i = 0; a < end; ++i) {
        const bool last = i >= static_cast<int>(std::size(left));
        const double b = last ? end : std::min(end, from - 0.5 * std::log(left[i]) / slowing);
        const auto [fb, slope] = nearing(b);
        if (fa < 0 && fb >= 0) {
            const double sigma = root(nearing, a, b, b - fb / slope);
            if (found(sigma) || !may_return(place(sigma), hole)) return;
        }
        a = b;
        fa = fb;
    }
}

/// Past the hole and below it, heading down: every heading still to come leads farther away.
bool PlaneRoll::may_return(const Place& passing, const Vec2& hole) const {
    return ground_.pull > 0 &&
           ((passing.at - hole).dot(ground_.uphill) > 0 || passing.heading.dot(ground_.uphill) > 0);
}

double PlaneRoll::end_of_path() const {
    return -0.5 * std::log(nothing_left) / (ground_.friction - ground_.pull);
}

/// However it turns, a ball slows by no less than f - g'.
double PlaneRoll::earliest(double arc) const {
    const double least = ground_.friction - ground_.pull;
    const double share = 2 * least * arc / (launch_.speed_m_s * launch_.speed_m_s);
    return share < 1 ? -0.5 * std::log1p(-share) / least : infinity;
}

std::optional<PathPoint> PlaneRoll::rim(const Vec2& hole) const {
    constexpr double R2 = hole_radius_m * hole_radius_m;
    const double away = (launch_.from - hole).norm() - hole_radius_m;
    if (away <= 0) return std::nullopt;
    const double from = earliest(away);
    const double end = end_of_path();
    if (!(from < end)) return std::nullopt;
    double nearest = infinity;
    each_pass(hole, from, [&](double sigma) {
        if (place(sigma).off2(hole) > R2) return false;
        nearest = sigma;
        return true;
    });
    if (nearest == infinity && place(end).off2(hole) <= R2) nearest = end;
    if (nearest == infinity) return std::nullopt;
    return at(rim_before(nearest, from, hole));
}

/// It comes nearer all the way from `from` to the pass, so the rim lies once between. A straight
/// line there would cross it this far before the pass.
double PlaneRoll::rim_before(double pass, double from, const Vec2& hole) const {
    constexpr double R2 = hole_radius_m * hole_radius_m;
    const Place there = place(pass);
    const double chord = std::sqrt(std::max(0.0, R2 - there.off2(hole)));
    const auto inside = [&](double sigma) {
        const Place p = place(sigma);
        return std::pair(R2 - p.off2(hole), -2 * (p.at - hole).dot(p.heading) * p.rate);
    };
    return root(inside, from, pass, std::max(from, pass - chord / there.rate));
}

std::optional<PathPoint> PlaneRoll::pass(const Vec2& hole) const {
    double nearest = infinity, off2 = infinity;
    each_pass(hole, 0, [&](double sigma) {
        const double here = place(sigma).off2(hole);
        if (here < off2) {
            nearest = sigma;
            off2 = here;
        }
        return false;
    });
    if (nearest == infinity) return std::nullopt;
    return at(nearest);
}

}  // namespace dewtrail
