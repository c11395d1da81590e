#pragma once

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <limits>

#include "physics/roll/sensitive_roll.hpp"
#include "physics/roll/skidding_ball.hpp"

namespace dewtrail {

namespace odeint = boost::numeric::odeint;

/// The last piece of a roll, left to a formula instead of the integrator: so short that its change
/// of heading does not matter.
inline constexpr double closing_roll_m = 1e-12;

/// Below this a ball that friction cannot hold has run straight up the slope and starts back down.
inline constexpr double turning_speed_m_s = 1e-7;

inline constexpr double path_spacing_s = 0.03;

/// Near the edge of a green the path is sampled this finely.
inline constexpr double edge_spacing_m = 0.01;

/// Slip this small ends within 1e-11 m.
inline constexpr double closing_slip_m_s = 1e-11;

/// The roll so far; passed on when the skid becomes a roll.
struct RollLog {
    SensitiveRoll result;
    Vec2 from = Vec2::Zero();
    double line_bearing_rad = 0;
    std::optional<PathPoint> left_so_far, right_so_far;  ///< farthest from the ball-hole line
    double surely_on_until_m = 0;                        ///< arc that cannot reach the edge
};

/// Largest error of the ball's own states in units of the tolerance. The sensitivities ride along,
/// so a roll takes the same steps with and without them.
template <class Ball>
class BallError {
  public:
    explicit BallError(double tolerance = 1e-10) : tolerance_(tolerance) {}

    template <class Algebra, class State, class Derivative, class Error, class Time>
    double error(Algebra&, const State&, const Derivative&, Error& error, Time) const {
        double worst = 0;
        for (int i = 0; i < Ball::n; ++i) worst = std::max(worst, std::abs(error[i]));
        return worst / tolerance_;
    }

  private:
    double tolerance_;
};

/// Follows a ball step by step, looks for what happens inside each step on the dense output, and
/// writes it into the log. `Ball`: RollingBall or SkiddingBall.
template <class Ball>
class Following {
  public:
    using State = typename Ball::State;

    Following(const Ball& ball, double resistance, const RollOptions& options, RollLog& log)
        : ball_(ball),
          resistance_(resistance),
          options_(options),
          log_(log),
          stepper_(make_stepper(options.tolerance)) {}

    /// From `start` until the roll is over, or the skid is: then false.
    bool run(const State& start) {
        restart(start, 0);
        while (!take_step()) {
            if constexpr (Ball::skids)
                if (std::exp(y1_[7]) < closing_slip_m_s) return false;
        }
        return true;
    }

    const State& state() const { return y1_; }

  private:
    using Controlled = odeint::controlled_runge_kutta<
        odeint::runge_kutta_dopri5<State, double, State, double, odeint::array_algebra>,
        BallError<Ball>, odeint::default_step_adjuster<double, double>>;
    using Stepper = odeint::dense_output_runge_kutta<Controlled>;

    static Stepper make_stepper(double tolerance) {
        return Stepper(Controlled(BallError<Ball>(tolerance),
                                  odeint::default_step_adjuster<double, double>()));
    }

    void restart(const State& y, double sigma) {
        y1_ = y;
        sigma1_ = sigma;
        stepper_.initialize(y, sigma, 1e-2);
    }

    Roll& roll() { return log_.result.roll; }

    static PathPoint point(const State& y) {
        return {y[5], {y[0], y[1]}, y[2], std::exp(y[3]), y[4]};
    }

    static Sensitivities columns(const State& y) {
        Sensitivities s = Sensitivities::Zero();
        for (int column = 0; column < Ball::columns; ++column)
            for (int row = 0; row < Sensitivities::RowsAtCompileTime; ++row)
                s(row, column) = y[Ball::n + Ball::rows * column + row];
        return s;
    }

    State dense(double sigma) {
        State y;
        stepper_.calc_state(sigma, y);
        return y;
    }

    /// Root of f(state) between two path parameters of the last step where it changes sign.
    template <class F>
    double locate(F f, double a, double b) {
        const auto at = [&](double sigma) { return f(dense(sigma)); };
        const double fa = at(a), fb = at(b);
        if (fa == 0) return a;
        if (fb == 0 || (fa < 0) == (fb < 0)) return b;
        std::uintmax_t most = 60;
        const auto bracket = boost::math::tools::toms748_solve(
            at, a, b, fa, fb, boost::math::tools::eps_tolerance<double>(50), most);
        return 0.5 * (bracket.first + bracket.second);
    }

    bool finish(RollEnd end, const State& y) {
        if (!roll().pass) take_turns();
        roll().end = end;
        roll().last = point(y);
        log_.result.at_end = columns(y);
        return true;
    }

    /// One step and what happened in it; true when the roll is over.
    bool take_step() {
        if (roll().steps >= options_.most_steps) return finish(RollEnd::budget_used_up, y1_);
        y0_ = y1_;
        sigma0_ = sigma1_;
        sigma1_ = stepper_.do_step(ball_).second;
        y1_ = stepper_.current_state();
        ++roll().steps;
        if (!std::all_of(y1_.begin(), y1_.end(), [](double s) { return std::isfinite(s); }))
            return finish(RollEnd::budget_used_up, y0_);
        return look_for_hole() || look_for_edge() || look_for_end();
    }

    bool look_for_hole() {
        if (!options_.hole) {
            keep_path_to(sigma1_);
            return false;
        }
        const std::optional<double> pass = find_pass();
        if (const auto rim = find_rim(pass.value_or(sigma1_)); rim && options_.until_rim) {
            keep_path_to(*rim);
            return finish(RollEnd::at_rim, dense(*rim));
        }
        look_for_apex(sigma0_, pass.value_or(sigma1_));
        if (pass) {
            take_pass(dense(*pass));
            look_for_apex(*pass, sigma1_);
        }
        keep_path_to(sigma1_);
        return false;
    }

    void take_pass(const State& y) {
        const PathPoint here = point(y);
        if (roll().pass && (roll().pass->at - *options_.hole).norm() <= from_hole(y).norm()) return;
        roll().pass = here;
        take_turns();
        log_.result.at_pass = columns(y);
        if constexpr (Ball::columns > 0) {
            State rate;
            ball_(y, rate, 0);
            std::copy_n(rate.begin(), log_.result.rate_at_pass.size(),
                        log_.result.rate_at_pass.begin());
        }
    }

    Vec2 from_hole(const State& y) const { return Vec2(y[0], y[1]) - *options_.hole; }

    /// Negative while the ball comes nearer to the hole centre, positive once it goes away.
    double receding(const State& y) const { return from_hole(y).dot(along_bearing(y[2])); }

    std::optional<double> find_pass() {
        const double stride = (Vec2(y1_[0], y1_[1]) - Vec2(y0_[0], y0_[1])).norm();
        const double away = std::min(from_hole(y0_).norm(), from_hole(y1_).norm());
        // A step past the hole may approach and recede between its two ends.
        const int pieces = away < stride + 4 * hole_radius_m ? 6 : 1;
        double a = sigma0_, fa = receding(y0_);
        for (int i = 1; i <= pieces; ++i) {
            const double b = i == pieces ? sigma1_ : sigma0_ + (sigma1_ - sigma0_) * i / pieces;
            const double fb = receding(i == pieces ? y1_ : dense(b));
            if (fa < 0 && fb >= 0)
                return locate([this](const State& y) { return receding(y); }, a, b);
            a = b;
            fa = fb;
        }
        return std::nullopt;
    }

    std::optional<double> find_rim(double until) {
        if (roll().rim) return std::nullopt;
        const auto outside = [this](const State& y) { return from_hole(y).norm() - hole_radius_m; };
        if (!(outside(y0_) > 0 && outside(dense(until)) <= 0)) return std::nullopt;
        const double sigma = locate(outside, sigma0_, until);
        roll().rim = point(dense(sigma));
        return sigma;
    }

    void look_for_apex(double from, double until) {
        const auto across = [this](const State& y) {
            return std::sin(y[2] - log_.line_bearing_rad);
        };
        const State end = dense(until);
        if ((across(dense(from)) < 0) == (across(end) < 0)) return;
        const PathPoint here = point(dense(locate(across, from, until)));
        auto& farthest = right_of_line(here) < 0 ? log_.left_so_far : log_.right_so_far;
        if (!farthest || std::abs(right_of_line(here)) > std::abs(right_of_line(*farthest)))
            farthest = here;
    }

    void take_turns() {
        const auto &left = log_.left_so_far, &right = log_.right_so_far;
        roll().farthest_left = left;
        roll().farthest_right = right;
        const bool to_left = left && (!right || -right_of_line(*left) > right_of_line(*right));
        roll().apex = to_left ? left : right;
    }

    double right_of_line(const PathPoint& p) const {
        const Vec2 e = along_bearing(log_.line_bearing_rad), d = p.at - log_.from;
        return e.y() * d.x() - e.x() * d.y();
    }

    bool look_for_edge() {
        if (!options_.outline || y1_[4] < log_.surely_on_until_m) return false;
        const auto inside = [this](const State& y) {
            return options_.outline->inside_by({y[0], y[1]});
        };
        const auto still_on = [&](const State& y) { return inside(y) + options_.beyond_edge_m; };
        const int pieces =
            std::clamp(static_cast<int>(std::ceil((y1_[4] - y0_[4]) / edge_spacing_m)), 1, 500);
        double a = sigma0_;
        for (int i = 1; i <= pieces; ++i) {
            const double b = sigma0_ + (sigma1_ - sigma0_) * i / pieces;
            const State here = dense(b);
            if (here[4] < log_.surely_on_until_m) continue;
            const double left = inside(here);
            if (!roll().off_green && left < 0)
                roll().off_green = point(dense(locate(inside, a, b)));
            if (left + options_.beyond_edge_m < 0)
                return finish(RollEnd::left_the_green, dense(locate(still_on, a, b)));
            // The next edge to meet: the green's, and once off it, where the surface ends.
            log_.surely_on_until_m =
                here[4] + (roll().off_green ? left + options_.beyond_edge_m : left);
            a = b;
        }
        return false;
    }

    bool look_for_end() {
        const SurfaceJet jet = ball_.surface.at(y1_[0], y1_[1]);
        const PathPoint here = point(y1_);
        if (lifts_off(jet, here)) return finish(RollEnd::airborne, y1_);
        if (Ball::skids) return false;
        const double W2 = 1 + jet.gradient().squaredNorm();
        const Vec2 pull = pull_at(jet);
        const double grip = resting() - pull.norm();
        // The least that can slow it down from here on; the closing roll is at most this long.
        const double deceleration = rolling_share * gravity_m_s2 * grip / std::sqrt(W2);
        if (grip > 0 && here.speed_m_s * here.speed_m_s < 2 * deceleration * closing_roll_m)
            return finish(RollEnd::at_rest, come_to_rest(deceleration));
        if (grip <= 0 && here.speed_m_s < turning_speed_m_s) turn_back(pull);
        if (here.arc_m > options_.most_arc_m) return finish(RollEnd::keeps_rolling, y1_);
        return false;
    }

    static bool lifts_off(const SurfaceJet& jet, const PathPoint& here) {
        const Vec2 e = along_bearing(here.bearing_rad);
        const double p = e.dot(jet.gradient());
        const double w2 = here.speed_m_s * here.speed_m_s / (1 + p * p);
        const double bend =
            e.x() * e.x() * jet.hxx + 2 * e.x() * e.y() * jet.hxy + e.y() * e.y() * jet.hyy;
        return gravity_m_s2 + w2 * bend <= 0;
    }

    State come_to_rest(double deceleration) const {
        State y = y1_;
        const double v = std::exp(y[3]), left = v * v / (2 * deceleration);
        y[0] += left * std::sin(y[2]);
        y[1] += left * std::cos(y[2]);
        y[3] = -std::numeric_limits<double>::infinity();  // speed 0 exactly
        y[4] += left;
        y[5] += v / deceleration;
        return y;
    }

    /// What pulls on a ball at rest, as a slope, and how much of it friction holds.
    Vec2 pull_at(const SurfaceJet& jet) const {
        return ball_.forces ? ball_.forces->pull(jet, resistance_) : Vec2(-jet.gradient());
    }
    double resting() const {
        return ball_.forces ? ball_.forces->resting(resistance_) : resistance_;
    }

    void turn_back(const Vec2& pull) {
        State y = y1_;
        // Keep the bearing continuous: downhill is half a turn from the way it came.
        y[2] += std::remainder(bearing_of(pull) - y[2], 2 * M_PI);
        y[3] = std::log(turning_speed_m_s);
        const bool was_coming = options_.hole && receding(y1_) < 0;
        restart(y, sigma1_);
        if (was_coming && receding(y1_) >= 0) take_pass(y1_);
    }

    void keep_path_to(double sigma) {
        if (!options_.keep_path) return;
        const double elapsed = y1_[5] - y0_[5];
        const int pieces =
            std::clamp(static_cast<int>(std::ceil(elapsed / path_spacing_s)), 1, 200);
        for (int i = 1; i <= pieces; ++i)
            roll().path.push_back(point(dense(sigma0_ + (sigma - sigma0_) * i / pieces)));
    }

    Ball ball_;
    double resistance_;
    const RollOptions& options_;
    RollLog& log_;
    Stepper stepper_;
    State y0_{}, y1_{};
    double sigma0_ = 0, sigma1_ = 0;
};

}  // namespace dewtrail
