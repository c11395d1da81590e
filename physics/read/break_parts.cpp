#include "physics/read/break_parts.hpp"

#include <cmath>
#include <stdexcept>

namespace dewtrail {
namespace {

/// On the plan.
struct Motion {
    double time_s;
    Vec2 at, velocity;
};

Motion motion_at(const Surface& surface, const PathPoint& p) {
    const Vec2 heading = along_bearing(p.bearing_rad);
    const double climb = surface.at(p.at.x(), p.at.y()).gradient().dot(heading);
    return {p.time_s, p.at, p.speed_m_s / std::sqrt(1 + climb * climb) * heading};
}

/// Of the cubic through both.
Motion halfway(const Motion& a, const Motion& b) {
    const double h = b.time_s - a.time_s;
    return {a.time_s + h / 2, (a.at + b.at) / 2 + h / 8 * (a.velocity - b.velocity),
            1.5 / h * (b.at - a.at) - (a.velocity + b.velocity) / 4};
}

/// Across the start line, toward the side to which the roll breaks.
struct Sideways {
    double gravity = 0, friction = 0;
};

class BendIntegral {
  public:
    BendIntegral(const Putt& putt, const Read& rolled)
        : putt_(putt), time_s_(rolled.arrival_time_s) {
        const Vec2 start = along_bearing(putt.launch(rolled.stroke).bearing_rad);
        const double side = rolled.stroke.angle_rad < 0 ? -1 : 1;
        toward_ = side * Vec2(-start.y(), start.x());
    }

    void add(const Motion& a, const Motion& b) {
        const double h = b.time_s - a.time_s;
        if (!(h > 0)) return;
        add(a, h / 6), add(halfway(a, b), 4 * h / 6), add(b, h / 6);
    }

    const Sideways& sum() const { return sum_; }
    const Vec2& toward() const { return toward_; }

  private:
    void add(const Motion& m, double weight) {
        const Sideways a = sideways(m);
        const double lever = weight * (time_s_ - m.time_s);
        sum_.gravity += lever * a.gravity;
        sum_.friction += lever * a.friction;
    }

    /// The two terms of the equation of motion.
    Sideways sideways(const Motion& m) const {
        const SurfaceJet j = putt_.surface->at(m.at.x(), m.at.y());
        const Vec2& q = m.velocity;
        const double kappa =
            q.x() * q.x() * j.hxx + 2 * q.x() * q.y() * j.hxy + q.y() * q.y() * j.hyy;
        const double W2 = 1 + j.gradient().squaredNorm(), climb = j.gradient().dot(q);
        const double speed = std::sqrt(q.squaredNorm() + climb * climb);
        const double load = (gravity_m_s2 + kappa) / std::sqrt(W2);
        Sideways a;
        a.gravity = -j.gradient().dot(toward_) * (rolling_share * gravity_m_s2 + kappa) / W2;
        if (speed > 0)
            a.friction = -rolling_share * putt_.resistance * load * q.dot(toward_) / speed;
        return a;
    }

    const Putt& putt_;
    double time_s_;
    Vec2 toward_;
    Sideways sum_;
};

/// The point that describe_stroke took the arrival from.
const PathPoint& arrival(const Read& rolled) {
    const Roll& roll = rolled.roll;
    return roll.pass && roll.pass->time_s == rolled.arrival_time_s ? *roll.pass : roll.last;
}

}  // namespace

std::optional<Bend> bend_of(const Putt& putt, const Read& rolled) {
    if (rolled.roll.path.empty()) throw std::invalid_argument("bend: the path was not kept");
    if (!rolled.aim_offset_m || !(rolled.arrival_time_s > 0)) return std::nullopt;
    BendIntegral integral(putt, rolled);
    Motion before = motion_at(*putt.surface, rolled.roll.path.front());
    for (const PathPoint& p : rolled.roll.path) {
        if (p.time_s >= rolled.arrival_time_s) break;
        const Motion now = motion_at(*putt.surface, p);
        integral.add(before, now);
        before = now;
    }
    const PathPoint& end = arrival(rolled);
    integral.add(before, motion_at(*putt.surface, end));

    const double T = rolled.arrival_time_s, cosine = std::cos(rolled.stroke.angle_rad);
    return Bend{.time_s = T,
                .gravity_m_s2 = integral.sum().gravity / (T * T * cosine),
                .friction_m_s2 = integral.sum().friction / (T * T * cosine),
                .break_m = integral.toward().dot(end.at - putt.ball) / cosine};
}

BreakParts break_parts(const Bend& a, const Bend& b) {
    const double ta = a.time_s * a.time_s, tb = b.time_s * b.time_s;
    BreakParts parts;
    parts.time_m = (ta - tb) * (a.pull_m_s2() + b.pull_m_s2()) / 2;
    parts.gravity_m = (ta + tb) / 2 * (a.gravity_m_s2 - b.gravity_m_s2);
    parts.friction_m = (ta + tb) / 2 * (a.friction_m_s2 - b.friction_m_s2);
    parts.whole_m = a.break_m - b.break_m;
    parts.residual_m = parts.whole_m - (parts.time_m + parts.gravity_m + parts.friction_m);
    return parts;
}

}  // namespace dewtrail
