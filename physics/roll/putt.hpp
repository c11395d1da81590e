#pragma once

#include <memory>

#include "physics/roll/roll.hpp"

namespace dewtrail {

/// What the ball is meant to do: run a distance past the hole, or be at a speed at the hole centre.
struct Finish {
    enum class Kind { past, hole_speed };
    Kind kind = Kind::past;
    double value = 0;  ///< metres along the surface, or m/s

    static Finish past(double metres) { return {Kind::past, metres}; }
    static Finish hole_speed(double m_s) { return {Kind::hole_speed, m_s}; }

    /// Dying at the hole centre, asked for either way.
    bool dead_weight() const { return value == 0; }
};

/// A start line and a pace: what the player commits to.
struct Stroke {
    double angle_rad = 0;  ///< plan angle from the ball-hole line, right positive, in (-pi, pi]
    double speed_m_s = 0;  ///< launch speed along the surface
};

/// A putt to be read. Green frame, SI.
struct Putt {
    std::shared_ptr<const Surface> surface;
    std::shared_ptr<const Outline> outline;  ///< null: no edge
    double resistance = 0;  ///< rolling-resistance coefficient, see green_speed.hpp
    Vec2 ball = Vec2::Zero();
    Vec2 hole = Vec2::Zero();
    Finish finish;
    Conditions conditions{};  ///< wind, grain, skid and so on; none: the plain roll

    Vec2 line() const { return hole - ball; }
    double distance_m() const { return line().norm(); }
    /// Of the ground at the hole, green frame.
    Vec2 gradient_at_hole() const { return surface->at(hole.x(), hole.y()).gradient(); }
    /// Rise over run there.
    double slope_at_hole() const { return gradient_at_hole().norm(); }
    /// What pulls on a ball at rest there, as a slope, green frame: downhill, downwind and down the
    /// grain; and the slope that resistance holds.
    Vec2 pull_at(const Vec2& place) const;
    double holding() const { return resistance * conditions.slow_share; }
    /// The least of resistance over pull along the ball-hole line: on a plane friction over slope.
    double least_friction_over_pull() const;
    /// A miss comes to rest round the hole.
    bool holds_a_ball() const { return pull_at(hole).norm() < holding(); }
    /// Inside the outline, if there is one.
    bool ball_on_green() const { return !outline || outline->inside_by(ball) >= 0; }
    /// Mean grade from ball to hole, uphill positive.
    double mean_rise() const {
        return (surface->at(hole.x(), hole.y()).h - surface->at(ball.x(), ball.y()).h) /
               distance_m();
    }
    Launch launch(const Stroke& stroke) const {
        return {ball, bearing_of(line()) + stroke.angle_rad, stroke.speed_m_s};
    }
};

/// The player's frame: origin at the ball, looking at the hole; right is positive.
struct PlayerPoint {
    double along_m = 0;
    double offset_m = 0;
};
PlayerPoint in_player_frame(const Putt& putt, const Vec2& green);
Vec2 on_green(const Putt& putt, const PlayerPoint& player);

/// Flatter than this, rise over run, the ground has no up, no clock and no low side.
inline constexpr double least_told_slope = 1e-3;

/// Unit vector up the slope at the hole; none where the slope there is under 0.1 %.
std::optional<Vec2> uphill_at_hole(const Putt& putt);

/// How the ground at the hole rises across the line, to the player's right: rise over run.
double rises_right_at_hole(const Putt& putt);

}  // namespace dewtrail
