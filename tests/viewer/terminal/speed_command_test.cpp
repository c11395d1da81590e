#include <catch2/catch.hpp>

#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/green_speed.hpp"
#include "tests/support/tolerances.hpp"
#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;
using oracle::round_off;

TEST_CASE("speed from a stimpmeter both ways", "[speed]") {
    const CommandLine line;
    const auto told = line.run("speed --up 8ft --down 12ft --json");
    REQUIRE(told.exit == Exit::done);
    const Json speed = told.json()["speed"];
    REQUIRE_THAT(speed["stimp_ft"].get<double>(), WithinAbs(9.6, round_off));  // 2*8*12/20
    REQUIRE_THAT(speed["slope_over_resistance"].get<double>(), WithinAbs(0.2, round_off));
    const double slope = 0.2 * resistance_of_stimp(9.6 * metres_per_foot);
    REQUIRE_THAT(speed["slope"].get<double>(), WithinAbs(slope, round_off));
    REQUIRE(speed["method"] == "up_and_down");
    REQUIRE(speed["spread_ft"].is_null());
    REQUIRE(speed["readings"].size() == 2);

    const auto text = line.run("speed --up 8ft --down 12ft");
    REQUIRE_THAT(text.out, Catch::StartsWith("stimp 9½ (9 ft 7 in)\n"));
    REQUIRE_THAT(text.out, Contains("questionable"));  // 4 ft apart, the booklet allows 18 in
    REQUIRE(text.err.empty());
}

TEST_CASE("speed as published for one pair of readings", "[speed]") {
    // 981 and 185 cm give 10.21 ft (Woods 2021 after Brede 1990); given to 0.01 ft.
    const auto told = CommandLine().run("speed --up 185cm --down 981cm --json");
    REQUIRE_THAT(told.json()["speed"]["stimp_ft"].get<double>(), WithinAbs(10.21, 0.005));
    REQUIRE_THAT(told.json()["notes"].dump(), Contains("steep"));
}

TEST_CASE("speed averages repeated readings and tells their spread", "[speed]") {
    const CommandLine line;
    const auto told = line.run(
        {"speed", "--up", "9ft", "9ft4in", "--down", "10ft", "--down", "10ft4in", "--json"});
    const Json speed = told.json()["speed"];
    const double up = 9 + 2.0 / 12, down = 10 + 2.0 / 12;
    REQUIRE_THAT(speed["stimp_ft"].get<double>(), WithinAbs(2 * up * down / (up + down), 1e-9));
    REQUIRE_THAT(speed["lowest_ft"].get<double>(), WithinAbs(180.0 / 19, 1e-9));
    REQUIRE(speed["spread_ft"].get<double>() > 0.3);
    REQUIRE(told.json()["notes"].empty());

    const auto scattered = line.run("speed --up 9ft 10ft --down 10ft");
    REQUIRE_THAT(scattered.out, Contains("roll again"));
}

TEST_CASE("speed from timed rolls", "[speed]") {
    const auto told = CommandLine().run("speed --timed 12ft,3.1s 4m,3.4 --json");
    const Json speed = told.json()["speed"];
    const double first = stimp_from_timed_roll_m(12 * metres_per_foot, 3.1) / metres_per_foot;
    const double second = stimp_from_timed_roll_m(4, 3.4) / metres_per_foot;
    REQUIRE_THAT(speed["stimp_ft"].get<double>(), WithinAbs((first + second) / 2, round_off));
    REQUIRE_THAT(speed["spread_ft"].get<double>(), WithinAbs(std::abs(first - second), round_off));
    REQUIRE(speed["slope"].is_null());
}

TEST_CASE("speed from the same stroke both ways", "[speed]") {
    const auto told = CommandLine().run(
        {"speed", "--same-stroke", "7paces,9paces", "--usual", "8paces,10", "--json"});
    const Json speed = told.json()["speed"];
    // The stroke would roll 2*7*9/16 = 7.875 paces on the level here, 8 where the stimp is 10.
    REQUIRE_THAT(speed["stimp_ft"].get<double>(), WithinAbs(10 * 7.875 / 8, round_off));
    REQUIRE_THAT(speed["slope_over_resistance"].get<double>(), WithinAbs(0.125, round_off));
}

TEST_CASE("a speed out of range is told, with a note", "[speed]") {
    const auto told = CommandLine().run("speed --up 25ft --down 26ft --json");
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.json()["notes"].dump(), Contains("outside the 3-18 ft"));
}

TEST_CASE("speed in metres", "[speed]") {
    const auto text = CommandLine().run("speed --up 2.8 --down 3.2 --units metric");
    REQUIRE_THAT(text.out, Contains("(2.99 m)"));
}

TEST_CASE("speed refuses what it cannot understand", "[speed]") {
    const CommandLine line;
    const std::vector<std::string> bad{"speed",
                                       "speed --up 8ft",
                                       "speed --up 8ft --down 9ft --timed 12ft,3s",
                                       "speed --up 0ft --down 9ft",
                                       "speed --up 8s --down 9ft",
                                       "speed --timed 12ft",
                                       "speed --timed 12ft,0s",
                                       "speed --same-stroke 7paces,9paces",
                                       "speed --usual 8paces,10",
                                       "speed --same-stroke 7,9 --usual 8,40",
                                       "speed --sideways 3"};
    for (const auto& arguments : bad) {
        const auto told = line.run(arguments);
        INFO(told.err);
        REQUIRE(told.exit == Exit::not_understood);
        REQUIRE(told.out.empty());
        REQUIRE_FALSE(told.err.empty());
    }
    const auto told = line.run("speed --json");
    REQUIRE(told.exit == Exit::not_understood);
    REQUIRE(told.json()["error"]["kind"] == "not_understood");
}

TEST_CASE("speed help has worked examples", "[speed]") {
    const auto told = CommandLine().run("speed --help");
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.out, Contains("dewtrail speed --up"));
}
