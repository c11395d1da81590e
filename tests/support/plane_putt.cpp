#include "tests/support/plane_putt.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail::oracle {
namespace {

/// Halves [a, b], at most some thousand wide, down to 1e-18; f(a) and f(b) differ in sign.
Real bisect(const std::function<Real(Real)>& f, Real a, Real b) {
    const bool rising = f(a) < 0;
    for (int i = 0; i < 72; ++i) {
        const Real middle = (a + b) / 2;
        if (middle == a || middle == b) break;
        ((f(middle) < 0) == rising ? a : b) = middle;
    }
    return (a + b) / 2;
}

Real lowest(const std::function<Real(Real)>& f, Real a, Real b) {
    const Real golden = (std::sqrt(Real(5)) - 1) / 2;
    for (int i = 0; i < 120; ++i) {
        const Real left = b - golden * (b - a), right = a + golden * (b - a);
        (f(left) < f(right) ? b : a) = f(left) < f(right) ? right : left;
    }
    return (a + b) / 2;
}

/// A putt in the slope plane: beta is the ball-hole direction from straight downhill, 0 < beta <
/// pi.
struct SlopePlane {
    Real slope, cosine, pull, k, chord, beta, u_chord;
    Real side;  ///< +1 where the hole lies counterclockwise of straight uphill

    explicit SlopePlane(const PlanePutt& p) {
        const Real gx = p.gradient.x(), gy = p.gradient.y();
        const Real hx = p.hole_from_ball.x(), hy = p.hole_from_ball.y();
        slope = std::hypot(gx, gy);
        cosine = 1 / std::sqrt(1 + slope * slope);
        pull = Real(5) / 7 * Real(gravity_m_s2) * slope * cosine;
        k = p.resistance / slope;
        const Real up = (hx * gx + hy * gy) / slope / cosine;
        const Real left_of_uphill = (gx * hy - gy * hx) / slope;
        side = left_of_uphill < 0 ? -1 : 1;
        chord = std::hypot(up, left_of_uphill);
        beta = std::atan2(std::abs(left_of_uphill), -up);
        // tan(beta/2), by the form that keeps its digits near straight uphill.
        u_chord = std::abs(left_of_uphill) / (chord - up);
        if (up > 0) u_chord = (chord + up) / std::abs(left_of_uphill);
    }

    /// Plan angle from straight uphill of the heading u.
    Real plan_angle(Real u) const { return std::atan2(2 * u, (u * u - 1) * cosine); }
};

/// The member of the family of paths through ball and hole that sets off at u0, at speed 1.
class Path {
  public:
    Path(const SlopePlane& plane, Real u0) : plane_(plane), roll_{plane.pull, plane.k, 1, u0} {
        const Real at_apex = std::log(plane.u_chord);
        Real depth = 1;
        while (above(at_apex - depth) > 0) {
            depth *= 2;
            if (depth * std::max(Real(1), plane.k) > 2000) return;
        }
        const Real log_u = bisect([this](Real y) { return above(y); }, at_apex - depth, at_apex);
        hole_ = roll_.at(std::exp(log_u));
        scale_ = plane.chord / std::hypot(hole_.across, hole_.downhill);
        reaches_ = true;
    }

    bool reaches() const { return reaches_; }
    Real launch_speed() const { return std::sqrt(scale_); }
    Real hole_speed() const { return std::sqrt(scale_) * hole_.speed; }
    Real time() const { return std::sqrt(scale_) * hole_.time; }
    Real past() const { return scale_ * (roll_.rest().arc - hole_.arc); }
    PlaneRoll::Point apex() const {
        PlaneRoll roll = roll_;
        roll.speed = launch_speed();
        return roll.at(plane_.u_chord);
    }

  private:
    /// How far the path is on the high side of the ball-hole line.
    Real above(Real log_u) const {
        const auto p = roll_.at(std::exp(log_u));
        return p.across * std::cos(plane_.beta) - p.downhill * std::sin(plane_.beta);
    }

    const SlopePlane& plane_;
    PlaneRoll roll_;
    PlaneRoll::Point hole_{};
    Real scale_ = 0;
    bool reaches_ = false;
};

class Solver {
  public:
    explicit Solver(const PlanePutt& putt)
        : putt_(putt), plane_(putt), nearest_(std::log(plane_.u_chord) + 1e-14L) {}

    PlaneAnswer run() const {
        PlaneAnswer answer;
        if (plane_.k > 1)
            answer.lines.push_back(putt_.finish.value == 0 ? dying_line() : stopping_line());
        else
            running_lines(answer);
        std::sort(answer.lines.begin(), answer.lines.end(), [](const auto& a, const auto& b) {
            return std::abs(a.angle_rad) < std::abs(b.angle_rad);
        });
        return answer;
    }

  private:
    Path path(Real log_u0) const { return Path(plane_, std::exp(log_u0)); }

    /// Positive while the ball does more at the hole than was asked.
    Real excess(const Path& path) const {
        if (!path.reaches()) return -1;
        const bool past = putt_.finish.kind == Finish::Kind::past;
        return (past ? path.past() : path.hole_speed()) - Real(putt_.finish.value);
    }

    /// The straighter the line, the more the ball does at the hole; dying there is the crookedest.
    PlaneLine stopping_line() const {
        const Real log_u0 =
            bisect([this](Real y) { return excess(path(y)); }, nearest_, log_dying());
        return describe(log_u0);
    }

    PlaneRoll::Point rest(Real log_u0) const {
        return PlaneRoll{plane_.pull, plane_.k, 1, std::exp(log_u0)}.rest();
    }

    /// Dead weight: the stop lies in the direction of the hole, whatever the speed.
    Real log_dying() const {
        return bisect(
            [this](Real y) { return std::atan2(rest(y).across, rest(y).downhill) - plane_.beta; },
            nearest_, nearest_ + steepest);
    }

    PlaneLine dying_line() const {
        const Real y = log_dying();
        const Real scale = plane_.chord / std::hypot(rest(y).across, rest(y).downhill);
        const PlaneRoll roll{plane_.pull, plane_.k, std::sqrt(scale), std::exp(y)};
        PlaneLine line = line_at(roll.u0, roll.speed, roll.at(plane_.u_chord));
        line.time_s = roll.rest().time;
        line.past_m = 0;
        return line;
    }

    void running_lines(PlaneAnswer& answer) const {
        const auto speed = [this](Real y) { return path(y).hole_speed(); };
        const Real last = nearest_ + steepest, slowest = lowest(speed, nearest_, last);
        answer.least_arrival_m_s = speed(slowest);
        const Real asked = putt_.finish.value;
        if (putt_.finish.kind == Finish::Kind::past || asked <= *answer.least_arrival_m_s) return;
        for (const Real end : {nearest_, last}) {
            if (speed(end) < asked) continue;
            answer.lines.push_back(
                describe(bisect([&](Real y) { return speed(y) - asked; }, slowest, end)));
        }
    }

    PlaneLine describe(Real log_u0) const {
        const Path found = path(log_u0);
        PlaneLine line = line_at(std::exp(log_u0), found.launch_speed(), found.apex());
        line.time_s = found.time();
        line.hole_speed_m_s = found.hole_speed();
        if (plane_.k > 1) line.past_m = found.past();
        return line;
    }

    /// A ball always sets off nearer to uphill than the hole lies: to the right of the ball-hole
    /// line where the hole is to the left of uphill.
    PlaneLine line_at(Real u0, Real speed, const PlaneRoll::Point& apex) const {
        const Real chord_angle = plane_.plan_angle(plane_.u_chord);
        PlaneLine line{};
        line.angle_rad = plane_.side * (chord_angle - plane_.plan_angle(u0));
        line.speed_m_s = speed;
        const Real up = -apex.downhill * plane_.cosine, across = apex.across;
        const Real c = std::cos(chord_angle), s = std::sin(chord_angle);
        line.apex_along_m = up * c + across * s;
        line.apex_offset_m = plane_.side * (up * s - across * c);
        return line;
    }

    /// How far log u0 may lie above the ball-hole line's. A launch within e^-25 rad of straight
    /// uphill comes back past a hole at its side only by cancelling digits, and at no speed of this
    /// world.
    static constexpr Real steepest = 25;

    PlanePutt putt_;
    SlopePlane plane_;
    Real nearest_;
};

/// Level ground, or straight up or down: one dimension.
PlaneAnswer straight(const PlanePutt& putt, Real grade) {
    const Real cosine = 1 / std::sqrt(1 + grade * grade);
    const Real slowing = Real(5) / 7 * Real(gravity_m_s2) * cosine * (putt.resistance + grade);
    const Real chord = Real(putt.hole_from_ball.norm()) / cosine;
    const bool past = putt.finish.kind == Finish::Kind::past;
    PlaneAnswer answer;
    if (std::abs(grade) >= putt.resistance)
        answer.least_arrival_m_s = grade > 0 ? 0 : std::sqrt(-2 * slowing * chord);
    if (answer.least_arrival_m_s && past) return answer;
    const Real asked = putt.finish.value;
    const Real at_hole2 = past ? 2 * slowing * asked : asked * asked;
    const Real launch2 = at_hole2 + 2 * slowing * chord;
    if (launch2 <= 0) return answer;
    PlaneLine line{};
    line.speed_m_s = std::sqrt(launch2);
    line.hole_speed_m_s = std::sqrt(at_hole2);
    line.time_s = 2 * chord / (line.speed_m_s + line.hole_speed_m_s);
    if (!answer.least_arrival_m_s) line.past_m = past ? asked : at_hole2 / (2 * slowing);
    answer.lines.push_back(line);
    return answer;
}

/// The brackets of the closed forms at one u.
struct Integrals {
    Real speed, time, across, downhill, arc;

    Integrals(Real k, Real u) {
        const Real a = std::pow(u, k - 1), u2 = u * u;
        speed = a + a * u2;
        time = a / (k - 1) + a * u2 / (k + 1);
        across = a * a * u / (2 * k - 1) + a * a * u * u2 / (2 * k + 1);
        downhill = a * a / (2 * k - 2) - a * a * u2 * u2 / (2 * k + 2);
        // The arc is the integral of v^2 du / (s u), derived here.
        arc = a * a / (2 * k - 2) + 2 * a * a * u2 / (2 * k) + a * a * u2 * u2 / (2 * k + 2);
    }
};

}  // namespace

Real PlaneRoll::constant() const {
    return speed * 2 / (std::pow(u0, k - 1) + std::pow(u0, k + 1));
}

PlaneRoll::Point PlaneRoll::at(Real u) const {
    const Real C = constant();
    const Integrals from(k, u0), to(k, u);
    Point p;
    p.time = C / (2 * pull) * (from.time - to.time);
    p.across = C * C / (2 * pull) * (from.across - to.across);
    p.downhill = C * C / (4 * pull) * (from.downhill - to.downhill);
    p.arc = C * C / (4 * pull) * (from.arc - to.arc);
    p.speed = C / 2 * to.speed;
    return p;
}

PlaneRoll::Point PlaneRoll::rest() const {
    const Real c2 = 1 / (1 + u0 * u0), q2 = u0 * u0 * c2, sine = 2 * u0 * c2, cosine = c2 - q2;
    const Real reach = speed * speed / pull;
    Point p;
    p.time = speed * (k + cosine) / (pull * (k * k - 1));
    p.across = reach * sine * (c2 / (2 * k - 1) + q2 / (2 * k + 1));
    p.downhill = reach / 2 * (c2 * c2 / (k - 1) - q2 * q2 / (k + 1));
    p.arc = reach * (c2 * c2 / (2 * k - 2) + 2 * c2 * q2 / (2 * k) + q2 * q2 / (2 * k + 2));
    p.speed = 0;
    return p;
}

PlaneAnswer solve(const PlanePutt& putt) {
    const Real slope = putt.gradient.norm();
    if (slope == 0) return straight(putt, 0);
    const double across =
        putt.gradient.x() * putt.hole_from_ball.y() - putt.gradient.y() * putt.hole_from_ball.x();
    if (std::abs(across) < 1e-14 * putt.gradient.norm() * putt.hole_from_ball.norm()) {
        const bool uphill = putt.gradient.dot(putt.hole_from_ball) > 0;
        return straight(putt, uphill ? slope : -slope);
    }
    return Solver(putt).run();
}

}  // namespace dewtrail::oracle
