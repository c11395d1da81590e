#pragma once

#include <functional>

#include "physics/hole/hole_contact.hpp"

/// The two kinds of stage a ball at the hole goes through: in touch with one ground, or in the air.
/// Each advances the state by one step and ends exactly on its event. Internal to hole.
namespace dewtrail::hole {

/// What ended a step in contact. `none`: the contact goes on.
enum class Event { none, leaves_ground, over_the_edge, down_the_wall, slips, slides, grips };

struct ContactStep {
    double dt;
    Event event;
};

/// Dormand-Prince 5(4) on one kind of contact, with error control and events located inside the
/// step.
class ContactStage {
  public:
    ContactStage(const Scene& scene, const HoleModel& model, Ground ground, Grip grip)
        : scene_(scene), model_(model), ground_(ground), grip_(grip), next_dt_(model.max_step_s) {}

    /// Whether the contact holds at all as the stage begins: rolling within friction, pressed on.
    Event at_start(const State& s) const;
    ContactStep advance(State& s);

  private:
    State rate(const State& s) const;
    State step(const State& s, const State& rate_now, double dt, State* error) const;
    /// Least of the quantities that must stay positive, and which one that is.
    std::pair<double, Event> margin(const State& s) const;
    double time_to_grip(const State& s) const;
    Event slip_event(const State& s) const;
    ContactStep end_on_event(const State& from, const State& rate_now, double dt, State& s) const;

    const Scene& scene_;
    const HoleModel& model_;
    Ground ground_;
    Grip grip_;
    double next_dt_;
};

/// Where a ball in the air after `dt` is.
State in_flight(const Scene& scene, const State& s, double dt);

struct FlightStep {
    double dt;
    bool lands;
};

/// Flies on, as far as is safe from overlooking a touch or until the ball touches something.
FlightStep fly_on(const Scene& scene, const HoleModel& model, State& s);

}  // namespace dewtrail::hole
