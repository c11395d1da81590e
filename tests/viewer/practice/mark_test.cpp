#include "viewer/practice/habits/mark.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/roll/green_speed.hpp"
#include "tests/support/random.hpp"
#include "viewer/practice/drill/dealt_putt.hpp"
#include "viewer/practice/habits/practice_words.hpp"

using namespace dewtrail;

namespace {

constexpr double foot = metres_per_foot;

PlacedPutt side_hill() {
    Greenkeeper keeper;
    return keeper.set_up(plane_putt(12 * foot, 0, 0.02, 10, 12 * metres_per_inch));
}

Mark marked(const Putt& putt, double aim_m, double level_putt_m) {
    const auto found = mark(putt, aim_m, level_putt_m, Spread{}, usual_past_m);
    REQUIRE(found);
    return *found;
}

}  // namespace

TEST_CASE("The line that fits a pace passes over the hole's centre", "[mark]") {
    oracle::Random random(5);
    Greenkeeper keeper;
    int reached = 0;
    for (int i = 0; i < 200; ++i) {
        const double up = random.between(-0.03, 0.03), left = random.between(-0.03, 0.03);
        const PlacedPutt plan =
            keeper.set_up(plane_putt(random.between(3, 40) * foot, up, left, 10, 0.3));
        const auto best = plain_read(plan.putt, 0);
        REQUIRE(best);
        const double level = best->level_roll_m * random.between(0.7, 1.6);
        const auto line = line_for_pace(plan.putt, level);
        REQUIRE(line);
        if (!line->reaches) continue;
        ++reached;
        RollOptions options;
        options.hole = plan.putt.hole;
        const Stroke stroke{line->angle_rad, speed_of_level_roll_m_s(level, plan.putt.resistance)};
        const Roll rolled =
            roll(*plan.putt.surface, plan.putt.resistance, plan.putt.launch(stroke), options);
        REQUIRE(rolled.pass);
        // 1e-7 m of level roll, times at most some metres of path per metre of level roll.
        REQUIRE((rolled.pass->at - plan.putt.hole).norm() < 1e-5);
    }
    REQUIRE(reached > 100);
}

TEST_CASE("The read itself scores ten and loses next to nothing", "[mark]") {
    const PlacedPutt plan = side_hill();
    const auto best = plain_read(plan.putt, usual_past_m);
    const Mark exact = marked(plan.putt, *best->aim_offset_m, best->level_putt_m);
    REQUIRE(exact.score == 10);
    REQUIRE(exact.lost < 0.03);  // a foot past is not quite the fewest putts
    REQUIRE(exact.lost >= 0);
    REQUIRE_THAT(*exact.break_share, Catch::WithinAbs(1, 1e-6));  // the line is found to 1e-7 m
    REQUIRE_THAT(exact.pace_share, Catch::WithinAbs(1, 1e-12));
    REQUIRE(exact.outcome == ReadOutcome::holed);
    REQUIRE(cause_words(plan.putt, exact, *best->aim_offset_m, Units{}) == "Line and pace fit.");
}

TEST_CASE("A known part of the break and of the pace comes out as that", "[mark]") {
    const PlacedPutt plan = side_hill();
    const auto best = plain_read(plan.putt, usual_past_m);
    for (const double pace : {0.9, 1.0, 1.15}) {
        for (const double part : {0.5, 0.8, 1.2}) {
            const double level = pace * best->level_roll_m;
            const auto line = line_for_pace(plan.putt, level);
            const double aim = part * 12 * foot * std::tan(line->angle_rad);
            const Mark m = marked(plan.putt, aim, level - usual_past_m);
            REQUIRE_THAT(*m.break_share, Catch::WithinAbs(part, 1e-6));
            REQUIRE_THAT(m.pace_share, Catch::WithinAbs(pace, 1e-12));
            REQUIRE(m.lost > 0);
        }
    }
}

TEST_CASE("Half the break at the read's pace misses low, and that is the cause", "[mark]") {
    const PlacedPutt plan = side_hill();
    const auto best = plain_read(plan.putt, usual_past_m);
    const double aim = 0.6 * *best->aim_offset_m;
    const Mark low = marked(plan.putt, aim, best->level_putt_m);
    REQUIRE(low.outcome == ReadOutcome::low);
    REQUIRE(low.line_lost > low.pace_lost);
    REQUIRE(low.score < 7);
    REQUIRE(cause_words(plan.putt, low, aim, Units{}) ==
            "You played 60 % of the break at your pace.");

    REQUIRE(cause_words(plan.putt, low, aim, Units{}, Drill::pace) == "The pace fits.");
    const Mark wrong = marked(plan.putt, -aim, best->level_putt_m);
    REQUIRE(cause_words(plan.putt, wrong, -aim, Units{}) == "Wrong side: it breaks right to left.");

    const double firm = 1.9 * best->level_roll_m;
    const double fitting = 12 * foot * std::tan(line_for_pace(plan.putt, firm)->angle_rad);
    const Mark fast = marked(plan.putt, fitting, firm - usual_past_m);
    REQUIRE(fast.pace_lost > fast.line_lost);
    REQUIRE(cause_words(plan.putt, fast, fitting, Units{}) == "Right line, 90 % too firm.");
    REQUIRE(fast.outcome == ReadOutcome::past_hole);

    const Mark weak = marked(plan.putt, *best->aim_offset_m, 8 * foot);
    REQUIRE(weak.outcome == ReadOutcome::short_of_hole);
}

TEST_CASE("Low is where the ground falls, from either side", "[mark]") {
    Greenkeeper keeper;
    const auto from_right = keeper.set_up(plane_putt(3, 0, 0.02, 10, 0.3));  // falls left
    const auto from_left = keeper.set_up(plane_putt(3, 0, -0.02, 10, 0.3));  // falls right
    const auto level = keeper.set_up(plane_putt(3, 0, 0, 10, 0.3));
    REQUIRE(miss_side(from_right.putt, -0.1) == "low");
    REQUIRE(miss_side(from_right.putt, 0.1) == "high");
    REQUIRE(miss_side(from_left.putt, 0.1) == "low");
    REQUIRE(miss_side(level.putt, 0.1) == "right");
}
