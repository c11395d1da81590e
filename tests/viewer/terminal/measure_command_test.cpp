#include <nlohmann/json.hpp>

#include <catch2/catch.hpp>

#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

TEST_CASE("ten balls are called, typed and remembered one by one", "[measure]") {
    const CommandLine line;
    std::string typed;
    for (int i = 0; i < 9; ++i) typed += i % 2 ? "10in short\n" : "6in long\n";
    const auto said = line.run("measure pace --seed 3", typed + "nowhere\n12ft\nq\n");
    REQUIRE(said.exit == Exit::done);
    CHECK_THAT(said.out, Contains("1 of 20: ") && Contains("'nowhere' is not understood") &&
                             Contains("Pace, by 10 balls"));
    const Json found = line.run("measure show --json").json();
    CHECK(found["pace"]["balls"] == 10);
    CHECK(found["line"].is_null());
    // Two balls more, another day, and all twelve count.
    REQUIRE(line.run("measure pace --balls 2", "7ft\n20in long\n").exit == Exit::done);
    CHECK(line.run("measure show --json").json()["pace"]["balls"] == 12);
}

TEST_CASE("what was measured becomes the player's spread, and odds follow", "[measure]") {
    const CommandLine line;
    CHECK(line.run("measure take").exit == Exit::not_understood);
    // Hardly ever through: a player whose lines scatter far more than the preset's.
    std::string typed;
    for (int i = 0; i < 20; ++i) typed += i % 5 == 0 ? "t\n" : i % 2 ? "l\n" : "r\n";
    REQUIRE(line.run("measure line", typed).exit == Exit::done);
    const auto holed = [&] {
        return line.run("odds 8ft --slope 1% --clock 3 --json")
            .json()["plain"]["holed"]
            .get<double>();
    };
    const double before = holed();
    const double measured =
        line.run("measure show --json").json()["line"]["spread_deg"]["mean"].get<double>();
    REQUIRE(line.run("measure take").exit == Exit::done);
    CHECK(std::abs(line.run("player show --json").json()["player"]["line_deg"].get<double>() -
                   measured) < 0.006);
    CHECK(measured > 2.2);
    CHECK(holed() < before - 0.03);
}

TEST_CASE("a short mat is timed, and needs its speed", "[measure]") {
    const CommandLine line;
    CHECK(line.run("measure pace --line 2m", "2s\n").exit == Exit::not_understood);
    const auto said =
        line.run("measure pace --line 2m --stimp 12 --balls 1 --units metric", "90\n1.2s\n");
    CHECK(said.exit == Exit::done);
    CHECK_THAT(said.out, Contains("does not get to the line") && Contains("Seconds to the line"));
}

TEST_CASE("a mat's speed comes from the stroke table, or from a ball on it", "[measure]") {
    const CommandLine line;
    CHECK(line.run("measure pace --line 2m --stimp \"4ft back 6in\"", "1s\n").exit ==
          Exit::not_understood);  // no table yet
    REQUIRE(line.run("player set --stimp 10 --stroke 10cm,1m 20cm,4m").exit == Exit::done);
    const auto told = line.run("measure pace --units metric --balls 6",
                               "1.2m back 10cm\n4.8m back 20cm\n1.2m back 10cm\n3m\n3m\n3m\n");
    INFO(told.out << told.err);
    CHECK_THAT(told.out, Contains("By your stroke table this floor is stimp 12 ("));
    CHECK_THAT(line.run("measure pace --line 2m", "").err, Contains("back 6in"));
    const auto marks = line.run(
        "measure pace --units metric --line 1m,2m --balls 1 --stimp 12 "
        "--json",
        "0.6\n");
    REQUIRE(marks.exit == Exit::done);
    CHECK(marks.json()["floor_stimp_ft"].is_null());
    CHECK_THAT(
        line.run("measure pace --units metric --line 1m,2m --balls 1 --stimp 12", "0.6\n").out,
        Contains("Seconds between the marks") && Contains("a film times it finer"));
}
