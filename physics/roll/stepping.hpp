#pragma once

#include "physics/numbers/dormand_prince.hpp"
#include "physics/roll/closing_roll.hpp"
#include "physics/roll/patch_edge.hpp"
#include "physics/roll/skidding_ball.hpp"

namespace dewtrail {

/// By so much the estimate of a step's error exceeds the error: it is of order 5, the step of order
/// 8. Then place and time at rest err about as much as the tolerance.
inline constexpr double error_of_order_5 = 50;

/// Over a longer way the ground may do anything.
inline constexpr double longest_stride_m = 4;

/// A ball that is found in the air is followed in strides no longer than this.
inline constexpr double lifting_stride_m = 5e-3;

/// Takes a ball from step to step, each as long as the tolerance lets it be, and none across the
/// edge of a smooth patch of the ground. The sensitivities ride along, so a roll takes the same
/// steps with and without them.
template <class Ball>
class Stepping {
  public:
    using State = typename Ball::State;

    Stepping(const Ball& ball, double tolerance) : ball_(ball), tolerance_(tolerance) {}

    void start(const State& y) {
        stepper_.start(on_ground(y), y);
        step_ = (Ball::skids ? 0.1 : 8) * eighth_root(tolerance_) / (1 + std::hypot(y[2], y[3]));
        edge_.forget();
    }

    /// One step; false if there is none that keeps to the tolerance.
    bool advance() {
        constexpr int most_tries = 60;
        stepper_.go_on();
        const double allowed = error_of_order_5 * tolerance_;
        const auto weights = weights_for(allowed);
        const double reach = longest_stride_m / (rate_before()[Ball::time] * speed() + 1e-12);
        double edge = std::min(next_edge(), reach);
        bool refused = false;
        for (int i = 0; i < most_tries; ++i) {
            const double h = std::min(step_, edge);
            ball_.asked->lifted = false;
            bool astray = false;
            stepper_.attempt(Bounded{ball_, astray}, h);
            if (astray) {
                step_ = most_shrink * h;
                refused = true;
                continue;
            }
            if (ball_.asked->lifted && stride_m() > lifting_stride_m) {
                step_ = 0.5 * h;
                continue;
            }
            const double error = stepper_.error(weights) / allowed;
            const double fit = 0.9 / eighth_root(std::max(error, 1e-12));
            if (!(error <= 1)) {
                step_ = h * (fit > most_shrink ? fit : most_shrink);
                refused = true;
            } else if (const double share = edge_.share({state()[0], state()[1]}); share < 1) {
                edge = share * h;
            } else {
                stepper_.settle(on_ground(state()));
                const double next = h * std::min(fit, refused ? 1 : most_growth);
                step_ = std::min(h < step_ ? std::max(step_, next) : next, longest_);
                return true;
            }
        }
        stepper_.give_up();
        return false;
    }

    /// Holds steps to what is stable from here on.
    void hold_to(double longest) { longest_ = longest; }

    // The last step: its ends, what lies at a share of it, and its length.
    const State& before() const { return stepper_.before(); }
    const State& state() const { return stepper_.state(); }
    const State& rate_before() const { return stepper_.rate_before(); }
    const State& rate() const { return stepper_.rate(); }
    State within(double share) { return stepper_.within(ball_, share); }
    double length() const { return stepper_.length(); }
    const SurfaceJet& ground() const { return ground_; }  ///< where it led
    double stride_m() const {
        return std::hypot(state()[0] - before()[0], state()[1] - before()[1]);
    }

  private:
    /// The right-hand side while a step is tried: one far too long leads its stages out of all
    /// bounds, where the ground is not asked about.
    struct Bounded {
        const Ball& ball;
        bool& astray;

        void operator()(const State& y, State& rate) const {
            constexpr double bounds = 1e6;  // metres, metres a second
            astray = astray ||
                     !(std::abs(y[0]) + std::abs(y[1]) + std::abs(y[2]) + std::abs(y[3]) < bounds);
            if (astray)
                rate.fill(0);
            else
                ball(y, rate);
        }
    };

    /// The right-hand side where a step begins, with the ground there, which others ask for too.
    auto on_ground(const State& y) {
        ground_ = ball_.surface.at(y[0], y[1]);
        return [this](const State& at, State& rate) { ball_.rates(ground_, at, rate); };
    }

    static constexpr double most_growth = 6, most_shrink = 0.25;

    static double eighth_root(double x) { return std::sqrt(std::sqrt(std::sqrt(x))); }

    double speed() const { return std::hypot(before()[2], before()[3]); }

    /// What an error of the velocity costs at rest: of the place the more, the faster the ball and
    /// the less friction holds it; of the time always a little. It stays small beside the velocity
    /// itself.
    std::array<double, Ball::n> weights_for(double allowed) const {
        std::array<double, Ball::n> weights;
        weights.fill(1);
        if constexpr (!Ball::skids) {
            const Hold hold(ground_, ball_.resistance, ball_.forces);
            const double grip = std::max(std::abs(hold.grip()), 0.003 * hold.resting);
            const double slowing = rolling_share * gravity_m_s2 * grip;
            weights[2] = weights[3] = std::max(0.5 * std::max(speed(), 0.1) / slowing,
                                               allowed / (0.02 * speed() + 1e-12));
        }
        return weights;
    }

    /// Path parameter until the ball is across the edge of the smooth patch that it is on.
    double next_edge() {
        const State &y = before(), &rate = rate_before();
        const Vec2 w(y[2], y[3]), push(rate[2], rate[3]), going(rate[0], rate[1]);
        const double pace = rate[Ball::time], plan = w.norm();
        // What an edge inside a step costs at rest grows as the square of this and of the speed.
        const double slack_m = 100 * std::sqrt(tolerance_) * std::min(plan, 1 / (plan + 1e-100));
        constexpr double coarse_m = 0.1;  // steps so rough may as well straddle it
        if (!(plan > 0) || slack_m > coarse_m) {
            edge_.forget();
            return HUGE_VAL;
        }
        constexpr int paced = Ball::skids ? 4 : 2;  // the velocity whose size the pace is
        const Vec2 s(y[paced], y[paced + 1]), change(rate[paced], rate[paced + 1]);
        const Vec2 bend = pace * (push + s.dot(change) / s.squaredNorm() * w);
        return edge_.next(ball_.surface, {{y[0], y[1]}, going, bend}, length(), slack_m);
    }

    Ball ball_;
    double tolerance_;
    DormandPrince<State, Ball::n + Ball::n * Ball::columns> stepper_;
    PatchEdge edge_;
    SurfaceJet ground_{};
    double step_ = 0, longest_ = HUGE_VAL;
};

}  // namespace dewtrail
