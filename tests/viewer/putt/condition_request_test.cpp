/// Skid, wind, grain and resistance at low speed as a person types them.

#include "viewer/putt/condition_request.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/putt/putt_request.hpp"

using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace dewtrail {
namespace {

PuttRequest side_hill() {
    PuttRequest request;
    request.distance = "12ft";
    request.slope = "2%";
    request.clock = "3";
    return request;
}

Conditions planned(const ConditionRequest& conditions) {
    PuttRequest request = side_hill();
    request.conditions = conditions;
    return set_up(request, {}).putt.conditions;
}

// The ball lies right of the hole, so the player looks to -x: left is -y, right is +y.

TEST_CASE("Wind is told by where it comes from and where it was read") {
    const Conditions c = planned({.wind = "4m/s", .wind_from = "left", .wind_at = "ball"});
    CHECK_THAT(c.wind_m_s.x(), WithinAbs(0, 1e-12));
    CHECK_THAT(c.wind_m_s.y(), WithinAbs(4, 1e-12));
    const Conditions behind = planned({.wind = "10mph", .wind_from = "ball"});
    CHECK_THAT(behind.wind_m_s.x(), WithinAbs(-wind_at_ball_m_s(4.4704, 2), 1e-12));
    const Conditions north = planned({.wind = "18km/h", .wind_from = "0deg", .wind_at = "10m"});
    CHECK_THAT(north.wind_m_s.y(), WithinAbs(-wind_at_ball_m_s(5, 10), 1e-12));
}

TEST_CASE("Grain gives the stimp too") {
    PuttRequest request = side_hill();
    request.conditions = {.grain = "11ft/9ft", .grain_toward = "hole"};
    const PlacedPutt plan = set_up(request, {});
    CHECK_THAT(plan.setup.stimp_ft, WithinAbs(9.9, 1e-12));  // harmonic mean
    CHECK_THAT(plan.putt.conditions.grain.x(), WithinAbs(-0.1, 1e-12));
    CHECK_THAT(plan.putt.conditions.grain.y(), WithinAbs(0, 1e-12));
}

TEST_CASE("Spin off the face and resistance near rest") {
    CHECK(planned({.launch_spin = "0"}).launch_spin == 0.0);
    CHECK(planned({.launch_spin = "-0.3"}).launch_spin == -0.3);
    CHECK(planned({.launch_spin = "20%"}).launch_spin == 0.2);
    CHECK(planned({.slow_share = "75%"}).slow_share == 0.75);
    CHECK(planned({}).plain());
}

TEST_CASE("Conditions that cannot be understood are refused by name") {
    const auto refused = [](const ConditionRequest& request, const char* word) {
        INFO(word);
        try {
            planned(request);
            FAIL("was taken");
        } catch (const InputError& error) {
            CHECK_THAT(error.what(), Contains(word));
        }
    };
    refused({.launch_spin = "3"}, "launch spin");
    refused({.launch_spin = "backspin"}, "launch spin");
    refused({.wind = "4m/s"}, "direction");
    refused({.wind_from = "left"}, "speed");
    refused({.wind = "90m/s", .wind_from = "left"}, "wind");
    refused({.wind = "4m/s", .wind_from = "nowhere"}, "wind-from");
    refused({.wind = "4m/s", .wind_from = "left", .wind_at = "90m"}, "wind-at");
    refused({.grain = "11ft"}, "grain");
    refused({.grain = "9ft/11ft", .grain_toward = "left"}, "slower down");
    refused({.grain = "11ft/9ft"}, "direction");
    refused({.grain_toward = "left"}, "strength");
    refused({.slow_share = "20%"}, "slow-share");
    PuttRequest both = side_hill();
    both.stimp = "10";
    both.conditions = {.grain = "11ft/9ft", .grain_toward = "left"};
    CHECK_THROWS_AS(set_up(both, {}), InputError);
}

}  // namespace
}  // namespace dewtrail
