#include "physics/roll/lockstep_roll.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <stdexcept>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/closing_roll.hpp"

namespace dewtrail {
namespace {

namespace odeint = boost::numeric::odeint;

constexpr int lanes = lockstep_lanes;
using Lanes = Eigen::Array<double, lanes, 1>;
using Mask = Eigen::Array<bool, lanes, 1>;
/// Lanes that begin at 0: Odeint copies its steppers before they hold anything.
struct Zeroed : Lanes {
    Zeroed() : Lanes(Lanes::Zero()) {}
    using Lanes::operator=;
};
/// x, y and the velocity on the plan, each for all lanes.
using Balls = std::array<Zeroed, 4>;

constexpr double first_step = 1e-2;
constexpr double closing_roll_m = 1e-6;   ///< left to a straight line
constexpr double alone_below_m_s = 0.01;  ///< below it a ball that is not held goes to `roll`
constexpr int most_tries = 2000;

/// The equations of motion for all lanes, by dt = v dsigma: a ball put to speed 0 stays.
struct Motion {
    const Surface& surface;
    double resistance;
    const Forces* forces;  ///< none: the plain roll
    Lanes* pressed;        ///< of the last call; not above 0 where a ball leaves the ground

    void operator()(const Balls& s, Balls& rate, double) const {
        Slopes<Lanes> h;
        for (int i = 0; i < lanes; ++i) {
            const SurfaceJet jet = surface.at(s[0][i], s[1][i]);
            h.hx[i] = jet.hx;
            h.hy[i] = jet.hy;
            h.hxx[i] = jet.hxx;
            h.hxy[i] = jet.hxy;
            h.hyy[i] = jet.hyy;
        }
        const OnPlan<Lanes> w{s[2], s[3]};
        const Going<Lanes> go(h, w);
        const OnPlan<Lanes> push = rolling_push(forces, h, w, go, resistance);
        *pressed = go.pressed;
        rate[0] = go.v * w.x;
        rate[1] = go.v * w.y;
        rate[2] = push.x;
        rate[3] = push.y;
    }
};

/// The largest error of a ball that still rolls, in units of the tolerance.
class WorstLane {
  public:
    WorstLane(double tolerance, const Mask& rolling) : tolerance_(tolerance), rolling_(rolling) {}

    template <class Algebra, class State, class Derivative, class Error, class Time>
    double error(Algebra&, const State&, const Derivative&, Error& error, Time) const {
        const Lanes worst =
            error[0].abs().max(error[1].abs()).max(error[2].abs()).max(error[3].abs());
        return rolling_.select(worst, 0.0).maxCoeff() / tolerance_;
    }

  private:
    double tolerance_;
    const Mask& rolling_;
};

class Lockstep {
  public:
    Lockstep(const Surface& surface, double resistance, const Forces* forces,
             const RollOptions& options, std::span<const Launch> launches,
             std::span<PlainRoll> rolls)
        : surface_(surface),
          resistance_(resistance),
          options_(options),
          motion_{surface, resistance, forces, &pressed_},
          rolls_(rolls),
          stepper_(WorstLane(options.tolerance, rolling_),
                   odeint::default_step_adjuster<double, double>()) {
        for (int i = 0; i < lanes; ++i)
            place(i, launches[std::min<std::size_t>(i, launches.size() - 1)]);
        for (int i = static_cast<int>(launches.size()); i < lanes; ++i) halt(i);
    }

    void run() {
        motion_(ball_, rate_, 0);
        double sigma = 0, step = first_step;
        for (int i = 0; i < most_tries && rolling_.any(); ++i) {
            if (stepper_.try_step(motion_, ball_, rate_, sigma, next_, next_rate_, step) ==
                odeint::fail)
                continue;
            for (int lane = 0; lane < lanes; ++lane)
                if (rolling_[lane]) look(lane);
            ball_ = next_;
            rate_ = next_rate_;
        }
        for (int lane = 0; lane < lanes; ++lane)
            if (rolling_[lane]) hand_on(lane);
    }

  private:
    using Stepper = odeint::controlled_runge_kutta<
        odeint::runge_kutta_dopri5<Balls, double, Balls, double, odeint::array_algebra>, WorstLane,
        odeint::default_step_adjuster<double, double>>;

    void place(int lane, const Launch& launch) {
        const Vec2 e = along_bearing(launch.bearing_rad);
        const double p = e.dot(surface_.at(launch.from.x(), launch.from.y()).gradient());
        const double plan = launch.speed_m_s / std::sqrt(1 + p * p);
        ball_[0][lane] = launch.from.x();
        ball_[1][lane] = launch.from.y();
        ball_[2][lane] = plan * e.x();
        ball_[3][lane] = plan * e.y();
        inside_from_[lane] = launch.from;
        rolling_[lane] = true;
    }

    /// Takes a ball out: it stays where it is, and no longer influences the step.
    void halt(int lane) {
        rolling_[lane] = false;
        // Not where the last step took it: that may be nowhere.
        next_[0][lane] = ball_[0][lane];
        next_[1][lane] = ball_[1][lane];
        next_[2][lane] = next_[3][lane] = ball_[2][lane] = ball_[3][lane] = 0;
        for (int k = 0; k < 4; ++k) next_rate_[k][lane] = rate_[k][lane] = 0;
    }

    static Vec2 place_of(const Balls& s, int lane) { return {s[0][lane], s[1][lane]}; }

    Launch launch_of(const Balls& s, int lane) const {
        const Vec2 at = place_of(s, lane), w(s[2][lane], s[3][lane]);
        return {at, bearing_of(w), speed_along_surface(w, surface_.at(at.x(), at.y()))};
    }

    /// What the last step did to a ball.
    void look(int lane) {
        const Vec2 from = place_of(ball_, lane), to = place_of(next_, lane);
        const double stride = (to - from).norm();
        if (!std::isfinite(stride) || !(pressed_[lane] > 0) || near_edge(lane, to, stride))
            return hand_on(lane);
        if (near_hole(lane, from, stride) && look_for_rim(lane, stride)) return;
        const double speed2 = next_[2][lane] * next_[2][lane] + next_[3][lane] * next_[3][lane];
        if (speed2 < alone_below_m_s * alone_below_m_s) look_for_rest(lane, speed2);
    }

    /// Whether it may have come to the edge since it was last known to be on the green.
    bool near_edge(int lane, const Vec2& to, double stride) {
        if (!options_.outline) return false;
        const auto within = [&] {
            return (to - inside_from_[lane]).norm() + stride < inside_by_[lane];
        };
        if (within()) return false;
        inside_from_[lane] = to;
        inside_by_[lane] = options_.outline->inside_by(to);
        return !within();
    }

    bool near_hole(int lane, const Vec2& from, double stride) const {
        return options_.hole && !rolls_[lane].rim &&
               (*options_.hole - from).norm() < hole_radius_m + 1.1 * stride;
    }

    /// Rolls this step for one ball alone; true when its roll ends there.
    bool look_for_rim(int lane, double stride) {
        RollOptions options = options_;
        options.outline = nullptr;
        options.until_rim = true;
        options.most_arc_m = 1.1 * stride;
        const Roll here = roll(surface_, resistance_, launch_of(ball_, lane), options);
        rolls_[lane].rim = here.rim;
        if (!here.rim || !options_.until_rim) return false;
        end(lane, RollEnd::at_rim, here.last.at);
        return true;
    }

    void look_for_rest(int lane, double speed2) {
        const Vec2 at = place_of(next_, lane), w(next_[2][lane], next_[3][lane]);
        const Hold hold(surface_.at(at.x(), at.y()), resistance_, motion_.forces);
        if (hold.grip() <= 0) return hand_on(lane);
        const double left = speed2 / (2 * hold.slowing_m_s2());
        if (left < closing_roll_m) end(lane, RollEnd::at_rest, at + left / std::sqrt(speed2) * w);
    }

    void end(int lane, RollEnd how, const Vec2& at) {
        rolls_[lane].end = how;
        rolls_[lane].last = at;
        halt(lane);
    }

    /// From where it stood before the step.
    void hand_on(int lane) {
        RollOptions options = options_;
        if (rolls_[lane].rim) options.hole.reset();
        const Roll rest = roll(surface_, resistance_, launch_of(ball_, lane), options);
        if (const auto rim = rest.rim_on_green()) rolls_[lane].rim = rim;
        end(lane, rest.end, rest.last.at);
    }

    const Surface& surface_;
    double resistance_;
    const RollOptions& options_;
    Motion motion_;
    std::span<PlainRoll> rolls_;
    Mask rolling_ = Mask::Constant(false);
    Stepper stepper_;
    Balls ball_, rate_, next_, next_rate_;
    Lanes pressed_;
    std::array<Vec2, lanes> inside_from_;
    std::array<double, lanes> inside_by_{};  ///< there; 0 before it is known
};

void check(double resistance, std::span<const Launch> launches, const RollOptions& options,
           std::size_t rolls) {
    if (options.keep_path) throw std::invalid_argument("lockstep: rolls without path only");
    if (launches.size() != rolls)
        throw std::invalid_argument("lockstep: as many rolls as launches are needed");
    for (const Launch& launch : launches) check_roll(resistance, launch, options);
}

PlainRoll roll_alone(const Surface& surface, double resistance, const Launch& launch,
                     const RollOptions& options) {
    const Roll rolled = roll(surface, resistance, launch, options);
    return {rolled.end, rolled.last.at, rolled.rim_on_green()};
}

}  // namespace

void roll_in_lockstep(const Surface& surface, double resistance, std::span<const Launch> launches,
                      const RollOptions& options, std::span<PlainRoll> rolls) {
    check(resistance, launches, options, rolls.size());
    if (options.conditions.launch_spin) {
        for (std::size_t i = 0; i < launches.size(); ++i)
            rolls[i] = roll_alone(surface, resistance, launches[i], options);
        return;
    }
    const Forces forces(options.conditions);
    const Forces* acting = options.conditions.plain() ? nullptr : &forces;
    for (std::size_t first = 0; first < launches.size(); first += lanes) {
        const std::size_t count = std::min<std::size_t>(lanes, launches.size() - first);
        const auto mine = rolls.subspan(first, count);
        std::fill(mine.begin(), mine.end(), PlainRoll{});
        Lockstep(surface, resistance, acting, options, launches.subspan(first, count), mine).run();
    }
}

}  // namespace dewtrail
