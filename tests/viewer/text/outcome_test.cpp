/// How a stroke ended, and on which side of the hole.

#include "viewer/text/outcome.hpp"

#include <catch2/catch.hpp>

#include "support/putts.hpp"

namespace dewtrail {
namespace {

TEST_CASE("The low side is the one toward which the ground falls") {
    CHECK(side_of(0.1, -0.02) == HoleSide::low);
    CHECK(side_of(0.1, 0.02) == HoleSide::high);
    CHECK(side_of(-0.1, 0.02) == HoleSide::low);
    CHECK(side_of(0.1, 0.0005) == HoleSide::right);
    CHECK(side_of(-0.1, -0.0005) == HoleSide::left);
    CHECK(side_words(HoleSide::low) == "low side");
    CHECK(side_words(HoleSide::left) == "left");
}

TEST_CASE("A ball that turns back below the hole and rolls on for ever was short") {
    // Straight up a slope that holds no ball: stimp 10 holds up to 7.8 %.
    const Putt putt = oracle::bare_putt(10, 0.12, 12, 6, oracle::inches_past(12));
    const Read rolled = describe_stroke(putt, {0, 1.5}, {.room = false, .costs = false});
    REQUIRE(rolled.roll.end == RollEnd::keeps_rolling);
    const Outcome outcome = outcome_of(putt, rolled);
    CHECK(outcome.short_of);
    CHECK(outcome.before_m > 2);
    CHECK(outcome_words(outcome, Units{}) == "short");
}

}  // namespace
}  // namespace dewtrail
