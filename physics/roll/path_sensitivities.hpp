#pragma once

#include "physics/roll/closing_roll.hpp"
#include "physics/roll/sensitive_roll.hpp"
#include "physics/roll/skidding_ball.hpp"

namespace dewtrail {

/// From the sensitivities of a ball's state to those of x, y, bearing, ln speed and arc.
template <class Ball>
Sensitivities path_sensitivities(const Ball& ball, const typename Ball::State& y) {
    Sensitivities s = Sensitivities::Zero();
    const SurfaceJet j = ball.surface.at(y[0], y[1]);
    const Vec2 w(y[2], y[3]);
    const double climb = w.dot(j.gradient()), plan2 = w.squaredNorm();
    for (int column = 0; column < Ball::columns; ++column) {
        const auto d = [&](int row) { return y[Ball::by(row) + column]; };
        const double d_hx = j.hxx * d(0) + j.hxy * d(1) + (column == 3 ? 1 : 0);
        const double d_hy = j.hxy * d(0) + j.hyy * d(1) + (column == 4 ? 1 : 0);
        const double d_climb = d_hx * w.x() + d_hy * w.y() + j.hx * d(2) + j.hy * d(3);
        s.col(column) << d(0), d(1), (w.y() * d(2) - w.x() * d(3)) / plan2,
            (w.x() * d(2) + w.y() * d(3) + climb * d_climb) / (plan2 + climb * climb), d(Ball::arc);
    }
    return s;
}

/// How x, y, bearing, ln speed and arc change along the path.
template <class Ball>
std::array<double, 5> path_rates(const Ball& ball, const typename Ball::State& y) {
    typename Ball::State rate;
    ball(y, rate);
    const SurfaceJet j = ball.surface.at(y[0], y[1]);
    const Vec2 w(y[2], y[3]), push(rate[2], rate[3]), q(rate[0], rate[1]);
    const double climb = w.dot(j.gradient());
    const double climbing = push.dot(j.gradient()) + q.x() * (j.hxx * w.x() + j.hxy * w.y()) +
                            q.y() * (j.hxy * w.x() + j.hyy * w.y());
    return {q.x(), q.y(), (w.y() * push.x() - w.x() * push.y()) / w.squaredNorm(),
            (w.dot(push) + climb * climbing) / (w.squaredNorm() + climb * climb), rate[Ball::arc]};
}

/// What the last piece of a roll, left to the closed form, adds to the sensitivities at rest: by
/// differences, since it is so short.
template <class Ball>
Sensitivities closing_sensitivities(const Ball& ball, const typename Ball::State& y) {
    Sensitivities s = Sensitivities::Zero();
    for (int column = 0; column < Ball::columns; ++column) {
        const auto way = [&](double by) -> std::array<double, 3> {
            auto near = y;
            for (int row = 0; row < Ball::n; ++row) near[row] += by * y[Ball::by(row) + column];
            SurfaceJet ground = ball.surface.at(near[0], near[1]);
            if (column == 3) ground.hx += by;
            if (column == 4) ground.hy += by;
            const Hold hold(ground, ball.resistance + (column == 2 ? by : 0), ball.forces);
            const Vec2 w(near[2], near[3]);
            if (!(hold.grip() > 0)) return {};
            return closing_way(hold, w.normalized(), speed_along_surface(w, ground));
        };
        double largest = 1;
        for (int row = 0; row < Ball::n; ++row)
            largest = std::max(largest, std::abs(y[Ball::by(row) + column]));
        const double nudge = 1e-7 / largest;
        const auto more = way(nudge), less = way(-nudge);
        constexpr int rows[3] = {0, 1, 4};  // x, y, arc
        for (int i = 0; i < 3; ++i) s(rows[i], column) = (more[i] - less[i]) / (2 * nudge);
    }
    return s;
}

}  // namespace dewtrail
