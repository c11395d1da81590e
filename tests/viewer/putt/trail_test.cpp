#include "viewer/putt/trail.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/putts.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

Read rolled(double angle_deg, double speed_m_s) {
    const Putt putt = oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12));
    ReadOptions options = oracle::line_only();
    options.keep_path = options.open_hole = true;
    return describe_stroke(putt, {angle_deg * M_PI / 180, speed_m_s}, options);
}

Read own_read() {
    const Putt putt = oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12));
    ReadOptions options = oracle::line_only();
    options.keep_path = options.open_hole = true;
    return oracle::read_of(putt, options);
}

const double pace_m_s =
    speed_of_level_roll_m_s(13 * metres_per_foot, oracle::resistance(10));  // a level 12-footer's

}  // namespace

TEST_CASE("a ball that drops sinks into the hole, and the trail ends there") {
    const Read read = own_read();
    const Trail trail(read);
    REQUIRE(trail.holed());
    const double rim_s = read.entry.time_s;
    CHECK(trail.end_s() > rim_s);
    CHECK(trail.end_s() < rim_s + 0.5);
    CHECK(trail.sunk(rim_s - 0.01) == 0);
    CHECK_THAT(trail.sunk(trail.end_s()), WithinAbs(1, 1e-12));
    double before = 0;
    for (double t = rim_s; t <= trail.end_s(); t += 0.005) {
        CHECK(trail.sunk(t) >= before);
        before = trail.sunk(t);
        CHECK(trail.at(t).at.norm() <= hole_radius_m + 1e-6);
    }
}

TEST_CASE("a ball that lips out rides the rim and rolls on to where it rests") {
    const Read read = rolled(5.1, pace_m_s);
    const HoleMeeting& meeting = read.open->meetings.front();
    REQUIRE(meeting.outcome.how == HoleOutcome::How::lips_out);
    const Trail trail(read);
    CHECK_FALSE(trail.holed());
    CHECK(trail.end() == RollEnd::at_rest);
    CHECK_THAT((trail.at(trail.end_s()).at - read.open->last.at).norm(), WithinAbs(0, 1e-9));
    const double rim_s = meeting.rim.time_s, exit_s = rim_s + meeting.outcome.time_s;
    // On the rim the centre is never farther from the hole's axis than the rim.
    for (double t = rim_s; t < exit_s; t += 0.002)
        CHECK(trail.at(t).at.norm() <= hole_radius_m + 1e-6);
    CHECK(trail.at(exit_s + 0.1).at.norm() > hole_radius_m);
    CHECK(trail.sunk(exit_s + 0.1) == 0);
    CHECK(trail.end_s() > exit_s + 0.5);
}

TEST_CASE("a ball that misses is followed as before") {
    const Read read = rolled(1, 2.0);
    const Trail trail(read);
    CHECK(read.open->meetings.empty());
    CHECK_FALSE(trail.holed());
    CHECK_THAT((trail.at(trail.end_s()).at - read.roll.last.at).norm(), WithinAbs(0, 1e-9));
}
