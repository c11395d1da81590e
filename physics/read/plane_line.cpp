#include "physics/read/plane_line.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/plane_roll.hpp"

namespace dewtrail {
namespace {

using boost::math::tools::eps_tolerance;

/// Flatter than this a putt bends by less than 1e-8 rad, and g' -> 0 would only cost digits.
constexpr double level_slope = 1e-10;

/// The only positive root of a4 u^4 + a3 u^3 + a1 u - a0, where a4, a0 > 0 and a3, a1 share a sign
/// (one change of sign: Descartes). Newton from a bound above it, where the quartic is convex.
double positive_root(double a4, double a3, double a1, double a0) {
    double u = std::pow(a0 / a4, 0.25);
    if (a3 < 0) u = 2 * std::max({-a3 / a4, std::cbrt(-a1 / a4), u});
    for (int i = 0; i < 200; ++i) {
        const double value = ((a4 * u + a3) * u * u + a1) * u - a0;
        const double slope = (4 * a4 * u + 3 * a3) * u * u + a1;
        const double next = u - value / slope;
        if (!(next < u)) break;
        u = next;
    }
    return u;
}

/// A putt on a plane seen in the slope plane, scaled: lengths by v0^2/g', speeds by v0.
/// Every path that passes the hole is labelled by tau, how far its heading has turned by then.
class Family {
  public:
    Family(double k, double chord_angle)
        : k_(k), sin_(std::sin(chord_angle)), cos_(std::cos(chord_angle)) {}

    struct Member {
        double tau;
        double u;      ///< tan(phi0 / 2), phi0 the launch heading from straight downhill
        double chord;  ///< ball to hole
        double hole_speed;
        double past;  ///< arc from hole to rest, k > 1
    };

    Member at(double tau) const {
        const double e0 = decay(2 * k_ - 2, tau), e1 = decay(2 * k_ - 1, tau);
        const double e3 = decay(2 * k_ + 1, tau), e4 = decay(2 * k_ + 2, tau);
        return member(tau, e0, e1, e3, e4);
    }

    /// The one that dies at the hole centre: tau -> infinity. k > 1.
    Member dying() const {
        const auto e = [this](double shift) { return 1 / (2 * k_ + shift); };
        return member(std::numeric_limits<double>::infinity(), e(-2), e(-1), e(1), e(2));
    }

  private:
    Member member(double tau, double e0, double e1, double e3, double e4) const {
        const double u = positive_root(sin_ * e4, 2 * cos_ * e3, 2 * cos_ * e1, sin_ * e0);
        const double c = 1 / (1 + u * u), s = u * u * c, sine = 2 * u * c;
        const double across = sine * (c * e1 + s * e3);  // a sum: nothing cancels
        Member m{tau, u, across / sin_, 0, 0};
        m.hole_speed = c * std::exp(-(k_ - 1) * tau) + s * std::exp(-(k_ + 1) * tau);
        if (k_ > 1) m.past = tail(tau, c, s);
        return m;
    }

    double tail(double tau, double c, double s) const {
        const auto left = [&](double p) { return std::exp(-p * tau) / p; };
        return c * c * left(2 * k_ - 2) + 2 * c * s * left(2 * k_) + s * s * left(2 * k_ + 2);
    }

    double k_, sin_, cos_;
};

/// The putt in the slope plane, SI: x downhill, y across toward the hole (so y >= 0).
struct SlopePlane : PlaneForces {
    double k;
    double down_m, across_m;

    SlopePlane(const Vec2& gradient, double resistance, const Vec2& hole_from_ball)
        : PlaneForces(gradient, resistance),
          k(resistance / slope),
          down_m(-hole_from_ball.dot(uphill) / cosine),
          across_m(hole_from_ball.dot(across)) {
        if (across_m < 0) {
            across = -across;
            across_m = -across_m;
        }
    }

    double chord_m() const { return std::hypot(down_m, across_m); }
    double chord_angle() const { return std::atan2(across_m, down_m); }
    bool straight() const { return across_m < 1e-14 * chord_m(); }

    Vec2 plan_direction(double u) const {
        const double c = 1 / (1 + u * u);
        const double cos_phi = (1 - u * u) * c, sin_phi = 2 * u * c;
        return -cos_phi * cosine * uphill + sin_phi * across;
    }
};

double angle_right(const Vec2& from, const Vec2& to) {
    const double angle = std::atan2(to.x() * from.y() - to.y() * from.x(), from.dot(to));
    return angle == -M_PI ? M_PI : angle + 0.0;
}

/// Straight up, straight down or level: one dimension, constant deceleration `slowing`.
PlaneLines straight_lines(double slowing, double chord, bool stops, bool downhill,
                          const Finish& finish, PlaneLines lines) {
    const bool past = finish.kind == Finish::Kind::past;
    if (!stops) lines.least_arrival_m_s = downhill ? std::sqrt(-2 * slowing * chord) : 0.0;
    if (past && !stops) return lines;
    const double hole_speed2 = past ? 2 * slowing * finish.value : finish.value * finish.value;
    const double launch2 = hole_speed2 + 2 * slowing * chord;
    if (launch2 > 0) lines.strokes.push_back({0.0, std::sqrt(launch2)});
    return lines;
}

class SlopedPutt {
  public:
    SlopedPutt(const SlopePlane& plane, const Vec2& hole_from_ball)
        : plane_(plane), line_(hole_from_ball), family_(plane.k, plane.chord_angle()) {}

    Stroke stroke(const Family::Member& m) const {
        return {angle_right(line_, plane_.plan_direction(m.u)), std::sqrt(scale(m))};
    }

    /// k > 1: past and hole speed both fall steadily with tau.
    Stroke stopping_line(const Finish& finish) const {
        if (finish.value == 0) return stroke(family_.dying());
        const auto excess = [&](double tau) { return log_ratio(family_.at(tau), finish); };
        std::uintmax_t most = 300;
        const auto root = boost::math::tools::bracket_and_solve_root(
            excess, first_guess(finish), 2.0, false, eps_tolerance<double>(51), most);
        return stroke(family_.at(0.5 * (root.first + root.second)));
    }

    /// k <= 1: the hole speed falls to a least value and rises again.
    PlaneLines running_lines(const Finish& finish, PlaneLines lines) const {
        const double lo = std::log(1e-9);
        const double hi = std::log(std::min(1e8, 300 / std::max(1 - plane_.k, 1e-9)));
        const auto speed = [&](double log_tau) {
            return hole_speed(family_.at(std::exp(log_tau)));
        };
        const double slowest = boost::math::tools::brent_find_minima(
                                   [&](double y) { return std::log(speed(y)); }, lo, hi, 40)
                                   .first;
        lines.least_arrival_m_s = speed(slowest);
        if (finish.kind == Finish::Kind::past) return lines;
        if (!(*lines.least_arrival_m_s < finish.value)) return lines;
        const auto excess = [&](double y) { return std::log(speed(y) / finish.value); };
        for (const auto& [a, b] : {std::pair(lo, slowest), std::pair(slowest, hi)}) {
            if ((excess(a) < 0) == (excess(b) < 0)) continue;
            std::uintmax_t most = 200;
            const auto root =
                boost::math::tools::toms748_solve(excess, a, b, eps_tolerance<double>(51), most);
            lines.strokes.push_back(stroke(family_.at(std::exp(0.5 * (root.first + root.second)))));
        }
        return lines;
    }

  private:
    double scale(const Family::Member& m) const { return plane_.pull * plane_.chord_m() / m.chord; }
    double hole_speed(const Family::Member& m) const { return m.hole_speed * std::sqrt(scale(m)); }

    double log_ratio(const Family::Member& m, const Finish& finish) const {
        const double value =
            finish.kind == Finish::Kind::past ? m.past * scale(m) / plane_.pull : hole_speed(m);
        return std::log(std::max(value, 1e-300) / finish.value);
    }

    /// tau = integral of g' dt / v along the straight line at constant deceleration.
    double first_guess(const Finish& finish) const {
        const double slowing = std::max(
            plane_.friction - plane_.pull * std::cos(plane_.chord_angle()), 0.05 * plane_.friction);
        const double hole_speed2 = finish.kind == Finish::Kind::past ? 2 * slowing * finish.value
                                                                     : finish.value * finish.value;
        const double launch2 = hole_speed2 + 2 * slowing * plane_.chord_m();
        return plane_.pull / slowing * 0.5 * std::log(launch2 / hole_speed2);
    }

    const SlopePlane& plane_;
    Vec2 line_;
    Family family_;
};

}  // namespace

PlaneLines lines_on_plane(const Vec2& gradient, double resistance, const Vec2& hole_from_ball,
                          const Finish& finish) {
    const double distance = hole_from_ball.norm();
    if (!(distance > 0) || !std::isfinite(distance) || !gradient.allFinite())
        throw std::invalid_argument("ball and hole must be apart, gradient finite");
    if (!(resistance > 0)) throw std::invalid_argument("resistance must be positive");
    if (!(finish.value >= 0)) throw std::invalid_argument("finish must not be negative");

    PlaneLines lines;
    lines.holds_up_to_slope = resistance;
    if (gradient.norm() < level_slope) {
        lines.friction_over_slope = std::numeric_limits<double>::infinity();
        const double friction = rolling_share * gravity_m_s2 * resistance;
        return straight_lines(friction, distance, true, false, finish, lines);
    }
    const SlopePlane plane(gradient, resistance, hole_from_ball);
    lines.friction_over_slope = plane.k;
    const bool stops = plane.k > 1;
    if (plane.straight()) {
        const bool downhill = plane.down_m > 0;
        const double slowing = plane.friction + (downhill ? -plane.pull : plane.pull);
        return straight_lines(slowing, plane.chord_m(), stops, downhill, finish, lines);
    }
    const SlopedPutt putt(plane, hole_from_ball);
    if (stops)
        lines.strokes.push_back(putt.stopping_line(finish));
    else
        lines = putt.running_lines(finish, lines);
    std::sort(lines.strokes.begin(), lines.strokes.end(), [](const Stroke& a, const Stroke& b) {
        return std::abs(a.angle_rad) < std::abs(b.angle_rad);
    });
    return lines;
}

}  // namespace dewtrail
