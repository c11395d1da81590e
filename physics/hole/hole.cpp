#include "physics/hole/hole.hpp"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "physics/hole/hole_stages.hpp"

namespace dewtrail {

namespace {

using namespace hole;
using How = HoleOutcome::How;
using std::numbers::pi;

constexpr int phase_limit = 400;
constexpr std::size_t usual_path = 64;    // points of a passage
constexpr int step_limit = 20000;         // thirty times what the longest passage seen takes
constexpr double over_the_rim_m = 1e-12;  // so that the passage starts strictly inside the rim
constexpr double no_heading_m_s = 1e-6;
constexpr double quarter_rad = pi / 2;

void require(bool holds, const char* name, double value, const char* rule) {
    if (!holds)
        throw std::invalid_argument(std::string(name) + " = " + std::to_string(value) + ": " +
                                    rule);
}

void check(const RimArrival& a, const HoleModel& m) {
    require(a.speed_m_s > 0 && a.speed_m_s <= 20, "speed_m_s", a.speed_m_s, "must be in (0, 20]");
    require(std::isfinite(a.offset_m), "offset_m", a.offset_m, "must be finite");
    require(std::abs(a.slope_along) <= 1, "slope_along", a.slope_along, "must be in [-1, 1]");
    require(std::abs(a.slope_right) <= 1, "slope_right", a.slope_right, "must be in [-1, 1]");
    require(m.ball_radius_m > 0 && m.ball_radius_m < m.hole_radius_m, "ball_radius_m",
            m.ball_radius_m, "must be positive and less than the hole's");
    require(m.inertia_ratio > 0 && m.inertia_ratio < 1, "inertia_ratio", m.inertia_ratio,
            "must be in (0, 1)");
    require(m.friction >= 0, "friction", m.friction, "must not be negative");
    require(m.hole_depth_m > 2 * m.ball_radius_m, "hole_depth_m", m.hole_depth_m,
            "must be more than the ball's diameter");
    require(m.max_step_s > 0 && m.tolerance > 0 && m.time_limit_s > 0, "max_step_s", m.max_step_s,
            "steps, tolerance and time limit must be positive");
}

double angle_from(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
    return std::atan2(a.y() * b.x() - a.x() * b.y(), a.dot(b));  // to the right positive
}

/// One ball at one hole: a chain of stages, and the record kept along it.
class Passage {
  public:
    Passage(const RimArrival& arrival, const HoleModel& model)
        : scene_(arrival, model), model_(model) {
        const double q_along = std::sqrt((scene_.R - std::abs(arrival.offset_m)) *
                                         (scene_.R + std::abs(arrival.offset_m)));
        state_.setZero();
        centre(state_) = Vec3(arrival.offset_m, -q_along + over_the_rim_m, scene_.r);
        velocity(state_) = Vec3(0, arrival.speed_m_s, 0);
        spin(state_) = Vec3::UnitZ().cross(Vec3(velocity(state_)));
        out_.touched_m = centre(state_).head<2>();
        out_.lowest_centre_m = scene_.r;
        keep();
    }

    HoleOutcome run() {
        while (!done_ && !spent()) {
            ++out_.phases;
            energy_ = scene_.energy(state_);
            in_air_ ? fly() : stay_in_touch();
        }
        if (!done_) finish(How::budget, centre(state_).z() < 0);
        return out_;
    }

  private:
    bool spent() const {
        return out_.phases > phase_limit || steps_ > step_limit ||
               out_.time_s >= model_.time_limit_s;
    }

    void stay_in_touch() {
        ContactStage stage(scene_, model_, ground_, grip_);
        Event event = stage.at_start(state_);
        while (event == Event::none && !done_ && !spent()) {
            const State before = state_;
            const ContactStep step = stage.advance(state_);
            event = step.event;
            record(before, step.dt);
            if (ground_ == Ground::green && moving_out()) leave();
        }
        if (event == Event::none || done_) return;
        settle(scene_, ground_, state_);
        change_over(event);
    }

    void change_over(Event event) {
        if (event == Event::leaves_ground) {
            in_air_ = true;
            took_off_ = true;
        } else if (event == Event::slips) {
            grip_ = Grip::slipping;
        } else if (event == Event::slides) {
            grip_ = Grip::sliding;
        } else if (event == Event::grips) {
            stop_slip();
        } else {
            cross_edge(event);
        }
    }

    void cross_edge(Event event) {
        if (event == Event::down_the_wall) {
            if (ground_ == Ground::wall) return finish(how_it_fell(), true);
            ground_ = Ground::wall;
        } else if (ground_ == Ground::rim) {
            ground_ = Ground::green;
            leave();
        } else {
            ground_ = Ground::rim;
        }
    }

    void stop_slip() {
        const Touch t = touch(scene_, ground_, state_);
        rub(scene_, t, impulse_to_stick(scene_, t, state_), state_);
        grip_ = Grip::rolling;
    }

    void fly() {
        while (!spent()) {
            const State before = state_;
            const FlightStep step = fly_on(scene_, model_, state_);
            record(before, step.dt);
            if (step.lands) return land();
        }
    }

    void land() {
        ground_ = nearest_ground(scene_, centre(state_));
        if (ground_ == Ground::floor) return finish(how_it_fell(), true);
        settle_position();
        const State before = state_;
        grip_ = impact(scene_, touch(scene_, ground_, state_), state_);
        in_air_ = false;
        record(before, 0);
        if (ground_ == Ground::green && moving_out()) leave();
    }

    void settle_position() {
        const Vec3 v = velocity(state_);
        settle(scene_, ground_, state_);
        velocity(state_) = v;
    }

    bool moving_out() const {
        return centre(state_).head<2>().dot(velocity(state_).head<2>()) >= 0;
    }

    /// Back on the green for good: friction removes what slip is left.
    void leave() {
        stop_slip();
        const bool far_half = centre(state_).y() > 0;
        out_.exit_position_m = centre(state_).head<2>();
        out_.exit_speed_m_s = velocity(state_).head<2>().norm();
        follow_heading();
        finish(took_off_ && far_half ? How::hops_over : How::lips_out, false);
    }

    How how_it_fell() const {
        if (std::abs(out_.round_rim_rad) > quarter_rad) return How::rides_the_rim_and_drops;
        const double from_back = std::abs(std::atan2(out_.touched_m.x(), out_.touched_m.y()));
        if (from_back < pi / 4) return How::drops_off_the_back;
        return from_back < 3 * pi / 4 ? How::drops_off_the_side : How::drops;
    }

    void finish(How how, bool holed) {
        out_.how = how;
        out_.holed = holed;
        done_ = true;
    }

    void record(const State& before, double dt) {
        ++steps_;
        out_.time_s += dt;
        out_.lowest_centre_m = std::min(out_.lowest_centre_m, centre(state_).z());
        const double energy = scene_.energy(state_);
        out_.energy_rise_J_kg = std::max(out_.energy_rise_J_kg, energy - energy_);
        energy_ = std::min(energy_, energy);
        if (!in_air_) follow_round(before);
        follow_heading();
        keep();
    }

    void follow_round(const State& before) {
        const Eigen::Vector2d here = centre(state_).head<2>();
        const double swept = angle_from(centre(before).head<2>(), here);
        if (ground_ == Ground::rim) {
            out_.round_rim_rad += swept;
            out_.touched_m = here;
        } else if (ground_ == Ground::wall) {
            out_.round_wall_rad += swept;
        }
    }

    void follow_heading() {
        const Eigen::Vector2d v = velocity(state_).head<2>();
        if (v.norm() < no_heading_m_s) return;
        out_.turn_rad += angle_from(heading_, v);
        heading_ = v;
    }

    void keep() {
        if (!model_.keep_path) return;
        if (out_.path.empty()) out_.path.reserve(usual_path);
        out_.path.push_back({out_.time_s, centre(state_), velocity(state_)});
    }

    Scene scene_;
    const HoleModel& model_;
    State state_;
    Ground ground_ = Ground::rim;
    Grip grip_ = Grip::rolling;
    bool in_air_ = false, took_off_ = false, done_ = false;
    int steps_ = 0;
    double energy_ = 0;
    Eigen::Vector2d heading_ = Eigen::Vector2d::UnitY();
    HoleOutcome out_;
};

}  // namespace

HoleOutcome roll_into_hole(const RimArrival& arrival, const HoleModel& model) {
    check(arrival, model);
    if (std::abs(arrival.offset_m) >= model.hole_radius_m) return {};
    return Passage(arrival, model).run();
}

const char* to_string(How how) {
    switch (how) {
        case How::drops:
            return "drops";
        case How::drops_off_the_back:
            return "drops off the back";
        case How::drops_off_the_side:
            return "drops off the side";
        case How::rides_the_rim_and_drops:
            return "rides the rim and drops";
        case How::lips_out:
            return "lips out";
        case How::hops_over:
            return "hops over";
        case How::passes:
            return "passes";
        case How::budget:
            return "undecided";
    }
    return "";
}

}  // namespace dewtrail
