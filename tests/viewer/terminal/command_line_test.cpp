// Every command line: help, exit codes, and thirty and more ways to get it wrong.

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;

TEST_CASE("Help everywhere, with examples, exit 0") {
    CHECK_THAT(dewtrail_says("").out, Contains("Examples:"));
    for (const std::string command : {"read", "ring", "roll", "speed", "green", "player"}) {
        INFO(command);
        const Said help = dewtrail_says(command + " --help");
        CHECK(help.exit == Exit::done);
        CHECK_THAT(help.out, Contains("xamples:"));
        CHECK(help.err.empty());
    }
}

TEST_CASE("Bad command lines: exit 2, one line that names the value, one that says what to do") {
    struct Bad {
        std::string arguments;
        const char* says;
    };
    const std::vector<Bad> cases = {
        {"reed", "reed"},
        {"read", "no distance"},
        {"read 12ft --slop 2%", "--slop"},
        {"read 12ft 13ft", "13ft"},
        {"read '10 6'", "10 6"},
        {"read -12ft", "-1"},
        {"read twelve", "twelve"},
        {"read 12%", "12"},
        {"read 0.1ft", "0.1"},
        {"read 200ft", "200"},
        {"read 12ft --slope 2%", "direction"},
        {"read 12ft --slope 25% --clock 3", "25 %"},
        {"read 12ft --slope nan --clock 3", "nan"},
        {"read 12ft --slope 2% --clock 13", "13"},
        {"read 12ft --slope 2% --clock 3:75", "3:75"},
        {"read 12ft --slope 2% --clock noon", "noon"},
        {"read 12ft --stimp 30", "30"},
        {"read 12ft --stimp 2", "2"},
        {"read 12ft --stimp 3 --wet", "wet"},
        {"read 12ft --stimp quickish", "quickish"},
        {"read 12ft --past 4m", "4"},
        {"read 12ft --past -3in", "-3"},
        {"read 12ft --hole-speed 9m/s", "9"},
        {"read 12ft --past 12in --die", "finish"},
        {"read 12ft --up 1% --down 1%", "contradict"},
        {"read 12ft --up 1% --slope 2% --clock 3", "both give the slope"},
        {"read 12ft --up 1% --clock 3", "clock"},
        {"read 12ft --reading '0,sideways 2%'", "sideways"},
        {"read 12ft --reading 'hole,up 1%' --reading '3ft,up 1%'", "not beyond"},
        {"read 12ft --rise 10ft", "20 %"},
        {"read 12ft --step-at 3ft", "--step-at"},
        {"read 20ft --rise 2in --step-at 25ft", "between ball and hole"},
        {"read 20ft --rise 10in --step-at 12ft", "0-20 %"},
        {"compare --show uphill --stimp 12", "its own putts"},
        {"read 12ft --ball left", "--green"},
        {"read --green no-such-green", "no-such-green"},
        {"read --green meadow --hole moon", "moon"},
        {"read --green meadow --hole 900,900", "900"},
        {"read 12ft --units cubits", "cubits"},
        {"read 12ft --player /no/such/player.toml", "player.toml"},
        {"read 12ft --slope-sure 40%", "40"},
        {"roll 12ft --aim '2 cups'", "2 cups"},
        {"roll 12ft --aim centre --angle 3", "more than one line"},
        {"roll 12ft --speed 0", "not move"},
        {"ring --slope 2%", "no distance"},
        {"speed", ""},
        {"player set", ""},
    };
    CHECK(cases.size() >= 30);
    for (const Bad& bad : cases) {
        INFO(bad.arguments);
        const Said said = dewtrail_says(bad.arguments);
        INFO(said.err);
        CHECK(said.exit == Exit::not_understood);
        CHECK(said.out.empty());
        CHECK_THAT(said.err, Contains(bad.says));
        CHECK(lines_in(said.err) >= 1);
        CHECK(lines_in(said.err) <= 2);
        const Said json = dewtrail_says(bad.arguments + " --json");
        CHECK(json.exit == Exit::not_understood);
        CHECK(json.json()["error"]["kind"] == "not_understood");
        CHECK(json.err.empty());
    }
}
