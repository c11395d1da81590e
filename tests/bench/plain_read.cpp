#include "tests/bench/plain_read.hpp"

#include <Eigen/LU>
#include <array>
#include <boost/numeric/odeint.hpp>
#include <cmath>

#include "physics/roll/green_speed.hpp"

namespace dewtrail::bench {
namespace {

using State = std::array<double, 5>;  // x, y, vx, vy, arc
namespace odeint = boost::numeric::odeint;

constexpr double stopped_m_s = 1e-3;

struct Motion {
    const Putt& putt;
    long* evaluations;

    void operator()(const State& s, State& rate, double) const {
        ++*evaluations;
        const SurfaceJet j = putt.surface->at(s[0], s[1]);
        const double vx = s[2], vy = s[3], vz = j.hx * vx + j.hy * vy;
        const double bend = j.hxx * vx * vx + 2 * j.hxy * vx * vy + j.hyy * vy * vy;
        const double W2 = 1 + j.hx * j.hx + j.hy * j.hy;
        const double v = std::sqrt(vx * vx + vy * vy + vz * vz);
        const double push = (rolling_share * gravity_m_s2 + bend) / W2;
        const double drag =
            rolling_share * putt.resistance * (gravity_m_s2 + bend) / std::sqrt(W2) / v;
        rate = {vx, vy, -j.hx * push - drag * vx, -j.hy * push - drag * vy, v};
    }
};

State launched(const Putt& putt, const Stroke& stroke) {
    const Vec2 e = along_bearing(bearing_of(putt.line()) + stroke.angle_rad);
    const double grade = e.dot(putt.surface->at(putt.ball.x(), putt.ball.y()).gradient());
    const Vec2 v = e * stroke.speed_m_s / std::sqrt(1 + grade * grade);
    return {putt.ball.x(), putt.ball.y(), v.x(), v.y(), 0};
}

double receding(const Putt& putt, const State& s) {
    return (s[0] - putt.hole.x()) * s[2] + (s[1] - putt.hole.y()) * s[3];
}

struct Rolled {
    State last;
    std::optional<State> pass;
};

template <class Stepper>
State pass_within(const Putt& putt, Stepper& stepper, double a, double b) {
    State s;
    for (int i = 0; i < 45; ++i) {
        const double middle = 0.5 * (a + b);
        stepper.calc_state(middle, s);
        (receding(putt, s) < 0 ? a : b) = middle;
    }
    return s;
}

Rolled rolled(const Putt& putt, const Stroke& stroke, double tolerance, long* evaluations) {
    auto stepper =
        odeint::make_dense_output(tolerance, tolerance, odeint::runge_kutta_dopri5<State>());
    stepper.initialize(launched(putt, stroke), 0, 1e-2);
    Rolled result;
    const Motion motion{putt, evaluations};
    for (int step = 0; step < 5000; ++step) {
        const State before = stepper.current_state();
        const auto [a, b] = stepper.do_step(motion);
        const State& now = stepper.current_state();
        if (receding(putt, before) < 0 && receding(putt, now) >= 0 && !result.pass)
            result.pass = pass_within(putt, stepper, a, b);
        if (std::hypot(now[2], now[3]) < stopped_m_s) break;
        // Held back where it slows to a stop, or a step would carry it through.
        const double stops_in =
            std::hypot(now[2], now[3]) / (rolling_share * gravity_m_s2 * putt.resistance);
        if (stepper.current_time_step() > 0.5 * stops_in)
            stepper.initialize(State(now), b, 0.5 * stops_in);
    }
    result.last = stepper.current_state();
    const double v = std::hypot(result.last[2], result.last[3]);
    const double grip =
        putt.resistance - putt.surface->at(result.last[0], result.last[1]).gradient().norm();
    result.last[4] += v * v / (2 * rolling_share * gravity_m_s2 * std::max(grip, 1e-3));
    return result;
}

std::optional<Eigen::Vector2d> residual(const Putt& putt, const Stroke& stroke, double tolerance,
                                        long* evaluations) {
    const Rolled r = rolled(putt, stroke, tolerance, evaluations);
    if (!r.pass) {
        // Short of the hole: as far as it is short.
        const Vec2 off = Vec2(r.last[0], r.last[1]) - putt.hole, e = putt.line().normalized();
        return Eigen::Vector2d(off.dot(Vec2(e.y(), -e.x())), e.dot(off) - putt.finish.value);
    }
    const State& s = *r.pass;
    const Vec2 e = Vec2(s[2], s[3]).normalized();
    const double miss = (Vec2(s[0], s[1]) - putt.hole).dot(Vec2(e.y(), -e.x()));
    return Eigen::Vector2d(miss, r.last[4] - s[4] - putt.finish.value);
}

}  // namespace

PlainRead plain_read(const Putt& putt, double tolerance) {
    PlainRead result;
    const double level = putt.distance_m() + putt.finish.value;
    Stroke stroke{0, speed_of_level_roll_m_s(level, putt.resistance)};
    constexpr double nudge = 1e-5;
    for (int i = 0; i < 40; ++i) {
        const auto at = [&](double angle, double speed) {
            return *residual(putt, {angle, speed}, tolerance, &result.evaluations);
        };
        const Eigen::Vector2d here = at(stroke.angle_rad, stroke.speed_m_s);
        if (here.norm() < 1e-6) {
            result.stroke = stroke;
            break;
        }
        Eigen::Matrix2d slope;
        slope.col(0) = (at(stroke.angle_rad + nudge, stroke.speed_m_s) - here) / nudge;
        slope.col(1) = (at(stroke.angle_rad, stroke.speed_m_s + nudge) - here) / nudge;
        Eigen::Vector2d step = -slope.fullPivLu().solve(here);
        step *= std::min(1.0, 0.3 / step.cwiseAbs().maxCoeff());
        stroke = {stroke.angle_rad + step[0], stroke.speed_m_s + step[1]};
    }
    return result;
}

Vec2 plain_roll(const Putt& putt, const Stroke& stroke, double tolerance) {
    long evaluations = 0;
    const Rolled r = rolled(putt, stroke, tolerance, &evaluations);
    return {r.last[0], r.last[1]};
}

}  // namespace dewtrail::bench
