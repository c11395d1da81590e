#include "viewer/putt/trail.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/putts.hpp"
#include "support/tolerances.hpp"
#include "viewer/putt/solved_putt.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using oracle::round_off_of_thousands;

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

TEST_CASE("the trail follows the solver's path and ends in the hole") {
    const Solved s = solved_putt(12, 0.02, 3);
    const Trail trail(*s.read);
    REQUIRE(trail.holed());
    const double rim_s = s.read->entry.time_s;
    for (const PathPoint& p : s.read->roll.path)
        if (p.time_s < rim_s)
            REQUIRE_THAT((trail.at(p.time_s).at - p.at).norm(),
                         WithinAbs(0, round_off_of_thousands));
    REQUIRE_THAT((trail.at(rim_s).at - s.putt.hole).norm(), WithinAbs(hole_radius_m, 1e-5));
    REQUIRE(trail.half_seconds().size() == 5);  // 2.7 s
}

TEST_CASE("a ball that stops has no trail beyond its end") {
    const Trail trail(*solved_putt(12, 0.02, 3).read);
    CHECK(trail.tail(trail.end_s(), 100).empty());
    CHECK(trail.runs_off_from_s() == trail.end_s());
}

TEST_CASE("an eased trail lies between both and takes the new one's time") {
    Setup setup;
    const Solved a = solve(setup, usual_past_m, Effort::live);
    setup.stimp_ft = 12;
    const Solved b = solve(setup, usual_past_m, Effort::live);
    const Trail from(*a.read), to(*b.read), half = Trail::between(from, to, 0.5);
    CHECK(half.end_s() == to.end_s());
    const Vec2 middle = (from.at(from.end_s() / 2).at + to.at(to.end_s() / 2).at) / 2;
    // Between the points of the eased trail a cubic: a tenth of a millimetre over 4 m.
    CHECK_THAT((half.at(half.end_s() / 2).at - middle).norm(), WithinAbs(0, 1e-4));
    const Trail whole = Trail::between(from, to, 1);
    CHECK_THAT((whole.at(1.234).at - to.at(1.234).at).norm(), WithinAbs(0, 1e-4));
}

TEST_CASE("halfway the ball has shown a sixth of its break, a yard short about half is to come") {
    const Solved s = solved_putt(12, 0.02, 3);
    const auto marks = break_marks(s.putt, *s.read, Trail(*s.read), {});
    REQUIRE(marks.size() == 2);
    REQUIRE(marks[0].words == "half of the break");
    REQUIRE(marks[1].words == "a sixth of the break");
    // 17 % and 45 % by the numbers of the design, which came from another integration.
    REQUIRE_THAT(marks[1].shown, WithinAbs(0.17, 0.01));
    REQUIRE_THAT(marks[0].shown, WithinAbs(0.45, 0.01));
}

TEST_CASE("in metres the last metre is marked, and makes more of the break than the last yard") {
    const Solved s = solved_putt(12, 0.02, 3);
    const Trail trail(*s.read);
    const auto yard = break_marks(s.putt, *s.read, trail, {}),
               metre = break_marks(s.putt, *s.read, trail, {.metric = true});
    REQUIRE(metre.size() == 2);
    CHECK(yard[0].name == "last yard");
    CHECK(metre[0].name == "last metre");
    CHECK_THAT(in_player_frame(s.putt, trail.at(metre[0].time_s).at).along_m,
               WithinAbs(s.putt.distance_m() - 1, 1e-3));  // a frame, straight between
    CHECK(metre[0].shown < yard[0].shown);
}
