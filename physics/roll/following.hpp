#pragma once

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>

#include "physics/roll/path_sensitivities.hpp"
#include "physics/roll/stepping.hpp"

namespace dewtrail {

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
    Vec2 line = Vec2(0, 1);                              ///< from ball to hole, unit
    std::optional<PathPoint> left_so_far, right_so_far;  ///< farthest from the ball-hole line
    double surely_on_until_m = 0;                        ///< arc that cannot reach the edge
    double bearing_rad = 0;                              ///< of a little while ago
    Vec2 heading = Vec2(0, 1);                           ///< and that as a vector
};

/// Follows a ball step by step, looks for what happens inside each step on the dense output, and
/// writes it into the log. `Ball`: RollingBall or SkiddingBall.
template <class Ball>
class Following {
  public:
    using State = typename Ball::State;

    Following(const Ball& ball, const RollOptions& options, RollLog& log)
        : ball_(ball), options_(options), log_(log), steps_(ball, options.tolerance) {}

    /// From `start` until the roll is over, or the skid is: then false.
    bool run(const State& start) {
        if constexpr (Ball::skids)
            steps_.hold_to(1 / (ball_.forces->sliding_friction * gravity_m_s2));
        steps_.start(start);
        while (!take_step())
            if constexpr (Ball::skids)
                if (std::hypot(state()[4], state()[5]) < closing_slip_m_s) return false;
        return true;
    }

    const State& state() const { return steps_.state(); }

    PathPoint point(const State& y) const {
        const Vec2 at(y[0], y[1]), w(y[2], y[3]);
        return {y[Ball::time], at, bearing_near(bearing_of(w)), speed_along_surface(w, ground(y)),
                y[Ball::arc]};
    }

  private:
    Roll& roll() { return log_.result.roll; }
    const State& before() const { return steps_.before(); }
    State within(double share) { return steps_.within(share); }
    SurfaceJet ground(const State& y) const { return ball_.surface.at(y[0], y[1]); }

    /// The bearing that is nearest to that of a while ago, so that bearings do not jump.
    double bearing_near(double bearing) const {
        return log_.bearing_rad + std::remainder(bearing - log_.bearing_rad, 2 * M_PI);
    }
    void keep_bearing() {
        const Vec2 w(state()[2], state()[3]);
        const double along = w.dot(log_.heading);
        if (along > 0 && along * along > 0.5 * w.squaredNorm()) return;
        if (!(w.squaredNorm() > 0)) return;
        log_.bearing_rad = bearing_near(bearing_of(w));
        log_.heading = w.normalized();
    }

    /// Root of f(state) between two shares of the last step where it changes sign.
    template <class F>
    double locate(F f, double a, double b) {
        const auto at = [&](double share) { return f(within(share)); };
        const double fa = at(a), fb = at(b);
        if (fa == 0) return a;
        if (fb == 0 || (fa < 0) == (fb < 0)) return b;
        std::uintmax_t most = 60;
        const auto bracket = boost::math::tools::toms748_solve(
            at, a, b, fa, fb, boost::math::tools::eps_tolerance<double>(50), most);
        return 0.5 * (bracket.first + bracket.second);
    }

    bool finish(RollEnd end, const State& y) { return finish(end, point(y), y); }
    /// `y`: the state there, or before the last piece.
    bool finish(RollEnd end, const PathPoint& last, const State& y) {
        if (!roll().pass) take_turns();
        roll().end = end;
        roll().last = last;
        if constexpr (Ball::columns > 0) log_.result.at_end = path_sensitivities(ball_, y);
        return true;
    }

    /// One step and what happened in it; true when the roll is over.
    bool take_step() {
        if (roll().steps >= options_.most_steps || !steps_.advance())
            return finish(RollEnd::budget_used_up, state());
        ++roll().steps;
        keep_bearing();
        return look_for_hole() || look_for_edge() || look_for_end();
    }

    bool look_for_hole() {
        if (!options_.hole) {
            keep_path_to(1);
            return false;
        }
        const std::optional<double> pass = find_pass();
        if (const auto rim = find_rim(pass.value_or(1)); rim && options_.until_rim) {
            keep_path_to(*rim);
            return finish(RollEnd::at_rim, within(*rim));
        }
        const double end = pass.value_or(1), dip = dips();
        if (dip > 0 && dip < end) look_for_apex(0, dip);
        look_for_apex(dip < end ? dip : 0, end);
        if (pass) {
            const State there = within(*pass);
            take_pass(point(there), there);
            look_for_apex(*pass, 1);
        }
        keep_path_to(1);
        return false;
    }

    /// `y`: the state there, or shortly before where the closed form found it.
    void take_pass(const PathPoint& here, const State& y) {
        const auto away = [&](const PathPoint& p) { return (p.at - *options_.hole).norm(); };
        if (roll().pass && away(*roll().pass) <= away(here)) return;
        roll().pass = here;
        take_turns();
        if constexpr (Ball::columns > 0) {
            log_.result.at_pass = path_sensitivities(ball_, y);
            log_.result.rate_at_pass = path_rates(ball_, y);
        }
    }

    Vec2 from_hole(const State& y) const { return Vec2(y[0], y[1]) - *options_.hole; }

    /// Negative while the ball comes nearer to the hole centre, positive once it goes away.
    double receding(const State& y) const { return from_hole(y).dot({y[2], y[3]}); }

    std::optional<double> find_pass() {
        const double away = std::min(from_hole(before()).norm(), from_hole(state()).norm());
        // A step past the hole may approach and recede between its two ends.
        const int pieces = away < steps_.stride_m() + 4 * hole_radius_m ? 6 : 1;
        double a = 0, fa = receding(before());
        for (int i = 1; i <= pieces; ++i) {
            const double b = double(i) / pieces;
            const double fb = receding(within(b));
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
        if (!(outside(before()) > 0 && outside(within(until)) <= 0)) return std::nullopt;
        const double share = locate(outside, 0, until);
        roll().rim = point(within(share));
        return share;
    }

    /// The velocity's part across the ball-hole line, right positive.
    double across(const State& y) const { return right_of_line({y[2], y[3]}); }

    void look_for_apex(double from, double until) {
        const auto side = [this](const State& y) { return across(y); };
        if ((side(within(from)) < 0) == (side(within(until)) < 0)) return;
        take_turn(point(within(locate(side, from, until))));
    }

    /// Where in a long step the ball may move along the line twice, its velocity across being of
    /// one sign at both ends; else 0.
    double dips() const {
        const double a = across(before()), b = across(state()), h = steps_.length();
        const double down = across(steps_.rate_before()), up = across(steps_.rate());
        if (a * b <= 0 || a * down >= 0 || b * up <= 0) return 0;
        const double lowest = down / (down - up);
        return a * (a + h * lowest * down) < 0 ? lowest : 0;  // never below its tangent
    }

    void take_turn(const PathPoint& here) {
        const double off = right_of_line(here.at - log_.from);
        auto& farthest = off < 0 ? log_.left_so_far : log_.right_so_far;
        if (!farthest || std::abs(off) > std::abs(right_of_line(farthest->at - log_.from)))
            farthest = here;
    }

    void take_turns() {
        const auto off = [&](const PathPoint& p) { return right_of_line(p.at - log_.from); };
        const auto &left = log_.left_so_far, &right = log_.right_so_far;
        roll().farthest_left = left;
        roll().farthest_right = right;
        const bool to_left = left && (!right || -off(*left) > off(*right));
        roll().apex = to_left ? left : right;
    }

    double right_of_line(const Vec2& d) const {
        return log_.line.y() * d.x() - log_.line.x() * d.y();
    }

    bool look_for_edge() {
        if (!options_.outline || state()[Ball::arc] < log_.surely_on_until_m) return false;
        const auto inside = [this](const State& y) {
            return options_.outline->inside_by({y[0], y[1]});
        };
        const auto still_on = [&](const State& y) { return inside(y) + options_.beyond_edge_m; };
        const int pieces =
            std::clamp(static_cast<int>(
                           std::ceil((state()[Ball::arc] - before()[Ball::arc]) / edge_spacing_m)),
                       1, 500);
        double a = 0;
        for (int i = 0; state()[Ball::arc] >= log_.surely_on_until_m && i < pieces;) {
            i = piece_to_look_at(i + 1, pieces);
            const double b = double(i) / pieces;
            const State here = within(b);
            const double left = inside(here);
            if (!roll().off_green && left < 0)
                roll().off_green = point(within(locate(inside, a, b)));
            if (left + options_.beyond_edge_m < 0)
                return finish(RollEnd::left_the_green, within(locate(still_on, a, b)));
            // The next edge to meet: the green's, and once off it, where the surface ends.
            log_.surely_on_until_m =
                here[Ball::arc] + (roll().off_green ? left + options_.beyond_edge_m : left);
            a = b;
        }
        return false;
    }

    /// The first of the step's pieces, from this one on, that may reach the edge.
    int piece_to_look_at(int from, int pieces) {
        for (int last = pieces; from < last;) {
            const int middle = (from + last) / 2;
            const bool sure = within(double(middle) / pieces)[Ball::arc] < log_.surely_on_until_m;
            (sure ? from : last) = sure ? middle + 1 : middle;
        }
        return from;
    }

    bool look_for_end() {
        if (ball_.asked->lifted) return finish(RollEnd::airborne, state());
        if constexpr (Ball::skids) {
            return false;
        } else {
            const double v2 = steps_.rate()[Ball::arc];
            if (v2 < 2 * rolling_share * gravity_m_s2 * resting() * longest_closing_roll_m &&
                look_for_rest(std::sqrt(v2)))
                return true;
            return state()[Ball::arc] > options_.most_arc_m &&
                   finish(RollEnd::keeps_rolling, state());
        }
    }

    bool look_for_rest(double speed) {
        const Hold hold(steps_.ground(), ball_.resistance, ball_.forces);
        // So slow a ball changes by factors in a step: held to what is stable.
        steps_.hold_to(4 * hold.W /
                       (rolling_share * gravity_m_s2 * (hold.resting + hold.pull.norm())));
        if (hold.grip() <= 0) {
            if (speed < turning_speed_m_s) turn_back(hold.pull);
            return false;
        }
        return closes(hold, speed) && come_to_rest(hold);
    }

    /// Whether the closed form errs by less than the integration would. Over what is left the
    /// ground's slope changes by `bend` of the grip, and of that the place at rest errs by a
    /// fortieth at most, the time by a thirtieth (tests/physics/roll/closing_roll_test.cpp); wind,
    /// and resistance that depends on speed, are not halved so.
    bool closes(const Hold& hold, double speed) const {
        const double slowing = hold.slowing_m_s2(), left = speed * speed / (2 * slowing);
        if (left > longest_closing_roll_m) return false;
        const SurfaceJet& jet = steps_.ground();
        const double bend =
            std::hypot(jet.hxx, std::sqrt(2.0) * jet.hxy, jet.hyy) * left / hold.grip();
        const double off = bend / 40 + change_of_forces(speed, hold);
        return off * left < options_.tolerance && off * speed / slowing < 50 * options_.tolerance;
    }

    /// Under conditions the pull is not quite that of a plane either.
    double change_of_forces(double speed, const Hold& hold) const {
        if (!ball_.forces) return 0;
        const Forces& f = *ball_.forces;
        return speed * f.growth + 2 * speed * f.drag * f.wind.norm() / hold.slowing_m_s2() +
               hold.pull.squaredNorm() + (hold.W * hold.W - 1);
    }

    bool come_to_rest(const Hold& hold) {
        const State& y = state();
        const Vec2 w(y[2], y[3]);
        const Vec2 heading = w.squaredNorm() > 0 ? w.normalized() : log_.heading;
        const ClosingRoll closing(ball_.surface, ball_.resistance, ball_.forces, hold, point(y),
                                  heading);
        if (options_.hole && look_for_hole(closing)) return true;
        const PathPoint rest = closing.rest();
        if (options_.outline && !roll().off_green && options_.outline->inside_by(rest.at) < 0)
            roll().off_green = rest;
        if (options_.keep_path) keep_path(closing);
        finish(RollEnd::at_rest, rest, y);
        if constexpr (Ball::columns > 0) log_.result.at_end += closing_sensitivities(ball_, y);
        return true;
    }

    /// What happens in the last piece; true when the roll is over there.
    bool look_for_hole(const ClosingRoll& closing) {
        const State& y = state();
        const PathPoint rest = closing.rest();
        const Vec2 off = rest.at - *options_.hole, heading = along_bearing(rest.bearing_rad);
        const double to_rim = from_hole(y).norm() - hole_radius_m;
        if (!roll().rim && to_rim > 0 && to_rim < rest.arc_m - y[Ball::arc]) {
            roll().rim = closing.rim(*options_.hole);
            if (roll().rim && options_.until_rim) return finish(RollEnd::at_rim, *roll().rim, y);
        }
        if (right_of_line(heading) * across(y) < 0)
            if (const auto turn = closing.along(log_.line)) take_turn(*turn);
        // So near the hole it may pass and turn back to it.
        const bool near = from_hole(y).norm() < 2 * (rest.arc_m - y[Ball::arc]);
        if (receding(y) < 0 && (near || off.dot(heading) >= 0))
            if (const auto pass = closing.pass(*options_.hole)) take_pass(*pass, y);
        return false;
    }

    void keep_path(const ClosingRoll& closing) {
        const double left_s = closing.rest().time_s - state()[Ball::time];
        const int pieces = 2 * static_cast<int>(std::ceil(left_s / path_spacing_s));
        for (int i = 1; i < pieces; ++i)
            roll().path.push_back(closing.at_share(double(i) / pieces));
    }

    double resting() const {
        return ball_.forces ? ball_.forces->resting(ball_.resistance) : ball_.resistance;
    }

    void turn_back(const Vec2& pull) {
        State y = state();
        const double p = pull.normalized().dot(steps_.ground().gradient());
        const Vec2 w = turning_speed_m_s / std::sqrt(1 + p * p) * pull.normalized();
        const bool was_coming = options_.hole && receding(y) < 0;
        y[2] = w.x();
        y[3] = w.y();
        steps_.start(y);
        keep_bearing();
        if (was_coming && receding(y) >= 0) take_pass(point(y), y);
    }

    void keep_path_to(double share) {
        if (!options_.keep_path) return;
        const double most_s = share * steps_.length() *
                              std::max(steps_.rate_before()[Ball::time], steps_.rate()[Ball::time]);
        const int pieces = std::clamp(static_cast<int>(std::ceil(most_s / path_spacing_s)), 1, 200);
        for (int i = 1; i <= pieces; ++i) roll().path.push_back(point(within(share * i / pieces)));
    }

    Ball ball_;
    const RollOptions& options_;
    RollLog& log_;
    Stepping<Ball> steps_;
};

}  // namespace dewtrail
