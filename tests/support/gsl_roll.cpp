#include "tests/support/gsl_roll.hpp"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "tests/support/gsl_driver.hpp"
#include "tests/support/plane_putt.hpp"

namespace dewtrail::oracle {
namespace {

constexpr double closing_speed_m_s = 1e-4;

struct Turf {
    const Surface& surface;
    double resistance;
};

using RollState = std::array<double, 5>;  // x, y, vx, vy, arc

double along_surface(const SurfaceJet& j, double vx, double vy) {
    return std::hypot(vx, vy, j.hx * vx + j.hy * vy);
}

int rolling_motion(double, const double* s, double* rate, void* data) {
    const Turf& green = *static_cast<const Turf*>(data);
    const SurfaceJet j = green.surface.at(s[0], s[1]);
    const double vx = s[2], vy = s[3];
    const double bend = j.hxx * vx * vx + 2 * j.hxy * vx * vy + j.hyy * vy * vy;
    const double W2 = 1 + j.hx * j.hx + j.hy * j.hy;
    const double speed = along_surface(j, vx, vy);
    const double push = (5.0 / 7 * gravity_m_s2 + bend) / W2;
    const double drag = 5.0 / 7 * green.resistance * (gravity_m_s2 + bend) / std::sqrt(W2) / speed;
    rate[0] = vx;
    rate[1] = vy;
    rate[2] = -j.hx * push - drag * vx;
    rate[3] = -j.hy * push - drag * vy;
    rate[4] = speed;
    return GSL_SUCCESS;
}

class Integration {
  public:
    Integration(const Surface& surface, double resistance, const Launch& launch,
                const GslOptions& options)
        : green_{surface, resistance},
          options_(options),
          system_{rolling_motion, nullptr, 5, &green_},
          driver_(gsl_odeiv2_driver_alloc_y_new(&system_, gsl_odeiv2_step_rk8pd, 1e-3,
                                                options.tolerance, options.tolerance)) {
        const Vec2 heading = along_bearing(launch.bearing_rad);
        const SurfaceJet j = surface.at(launch.from.x(), launch.from.y());
        const Vec2 v = heading * launch.speed_m_s / along_surface(j, heading.x(), heading.y());
        state_ = {launch.from.x(), launch.from.y(), v.x(), v.y(), 0};
    }

    GslRoll run() {
        while (time_ < options_.most_time_s) {
            const double speed = point(time_, state_).speed_m_s;
            if (speed <= closing_speed_m_s) return finish();
            const RollState before = state_;
            // Shorter and shorter steps as it slows: the heading turns like 1/v.
            const double step = std::min(options_.most_step_m / speed, 0.2 * speed);
            state_ = advanced(before, step);
            time_ += step;
            if (options_.hole) look_for_hole(before, step);
        }
        result_.last = point(time_, state_);
        return result_;
    }

  private:
    GslPoint point(double time, const RollState& s) const {
        const SurfaceJet j = green_.surface.at(s[0], s[1]);
        return {time, {s[0], s[1]}, {s[2], s[3]}, along_surface(j, s[2], s[3]), s[4]};
    }

    RollState advanced(RollState s, double step) const {
        if (step <= 0) return s;
        double t = 0;
        gsl_odeiv2_driver_reset_hstart(driver_.get(), step);
        gsl_odeiv2_driver_apply(driver_.get(), &t, step, s.data());
        return s;
    }

    /// The part of a step after which f turns from negative to positive.
    template <class F>
    GslPoint locate(F f, const RollState& before, double step) const {
        double a = 0, b = step;
        for (int i = 0; i < 60; ++i) {
            const double middle = (a + b) / 2;
            (f(advanced(before, middle)) < 0 ? a : b) = middle;
        }
        return point(time_ - step + b, advanced(before, b));
    }

    void look_for_hole(const RollState& before, double step) {
        const auto off = [this](const RollState& s) -> Vec2 {
            return Vec2(s[0], s[1]) - *options_.hole;
        };
        const auto inside = [&](const RollState& s) { return hole_radius_m - off(s).norm(); };
        const auto receding = [&](const RollState& s) { return off(s).dot(Vec2(s[2], s[3])); };
        if (!result_.rim && inside(before) < 0 && inside(state_) >= 0)
            result_.rim = locate(inside, before, step);
        if (receding(before) >= 0 || receding(state_) < 0) return;
        const GslPoint here = locate(receding, before, step);
        const auto away = [this](const GslPoint& p) { return (p.at - *options_.hole).norm(); };
        if (!result_.pass || away(here) < away(*result_.pass)) result_.pass = here;
    }

    GslRoll finish() {
        const SurfaceJet j = green_.surface.at(state_[0], state_[1]);
        GslPoint& last = result_.last = point(time_, state_);
        result_.rested = j.gradient().norm() < green_.resistance;
        if (result_.rested) come_to_rest(j.gradient(), last);
        return result_;
    }

    void come_to_rest(const Vec2& gradient, GslPoint& last) const {
        const double slope = gradient.norm(), cosine = 1 / std::sqrt(1 + slope * slope);
        const double friction = 5.0 / 7 * gravity_m_s2 * green_.resistance * cosine;
        const Vec2 travel = last.velocity.normalized();
        if (slope < 1e-6) {
            const double left = last.speed_m_s * last.speed_m_s / (2 * friction);
            last.at += left * travel;
            last.arc_m += left;
            last.time_s += last.speed_m_s / friction;
        } else {
            const Vec2 down = -gradient / slope;
            const Vec2 across = (travel - travel.dot(down) * down).normalized();
            const double psi = std::acos(std::clamp(
                travel.dot(down) / cosine * last.velocity.norm() / last.speed_m_s, -1.0, 1.0));
            const double pull = 5.0 / 7 * gravity_m_s2 * slope * cosine;
            const auto rest =
                PlaneRoll{pull, friction / pull, last.speed_m_s, std::tan(psi / 2)}.rest();
            last.at += double(rest.downhill) * cosine * down;
            if (across.allFinite()) last.at += double(rest.across) * across;
            last.arc_m += double(rest.arc);
            last.time_s += double(rest.time);
        }
        last.speed_m_s = 0;
        last.velocity = Vec2::Zero();
    }

    Turf green_;
    GslOptions options_;
    gsl_odeiv2_system system_;
    GslDriver driver_;
    GslRoll result_;
    RollState state_{};
    double time_ = 0;
};

}  // namespace

GslRoll gsl_roll(const Surface& surface, double resistance, const Launch& launch,
                 const GslOptions& options) {
    return Integration(surface, resistance, launch, options).run();
}

}  // namespace dewtrail::oracle
