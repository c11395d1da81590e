#include <catch2/catch.hpp>
#include <filesystem>

#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/putt/presets.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

TEST_CASE("player show tells the defaults and where the file would be", "[player_command]") {
    const CommandLine line;
    const auto told = line.run("player show --json");
    REQUIRE(told.exit == Exit::done);
    const Json json = told.json();
    REQUIRE(json["saved"] == false);
    REQUIRE(json["file"] == line.path("dewtrail/player.toml"));
    REQUIRE(json["player"]["units"] == "imperial");
    REQUIRE(json["player"]["pace"] == 0.14);
    REQUIRE(json["player"]["stimp_ft"].is_null());
    REQUIRE(json["defaults"].size() == json["player"].size());

    const auto text = line.run("player show");
    REQUIRE_THAT(text.out, Contains("not there yet"));
    REQUIRE_THAT(text.out, Contains("1.65°  (default)"));
    REQUIRE(line.home().count() == 0);  // showing writes nothing
}

TEST_CASE("player set remembers everything that is given", "[player_command]") {
    const CommandLine line;
    const auto set = line.run(
        "player set --system metric --pace 0.85m --past 40 --stimp 10.5 --line 1.2deg "
        "--pace-spread 9% --pace-floor 6cm --slope-read 0.4% --fall-read 7deg --handicap +2 "
        "--stroke 40cm,7m "
        "20cm,3m");
    INFO(set.err);
    REQUIRE(set.exit == Exit::done);
    REQUIRE_THAT(set.out, Contains("20 cm back rolls 3.00 m"));

    const Json player = line.run("player show --json").json()["player"];
    REQUIRE(player["units"] == "metric");
    REQUIRE(player["pace_m"] == 0.85);
    REQUIRE(player["usual_past_m"] == 0.4);  // a bare 40 is in the system just chosen
    REQUIRE(player["stimp_ft"] == 10.5);
    REQUIRE(player["line_deg"] == 1.2);
    REQUIRE_THAT(player["pace"].get<double>(), WithinAbs(0.09, 1e-15));
    REQUIRE_THAT(player["pace_floor_m"].get<double>(), WithinAbs(0.06, 1e-15));
    REQUIRE_THAT(player["slope_read"].get<double>(), WithinAbs(0.004, 1e-15));
    REQUIRE(player["fall_read_deg"] == 7);
    REQUIRE(player["handicap"] == -2);
    REQUIRE(player["strokes"].size() == 2);
    REQUIRE(player["strokes"][0]["backswing_m"] == 0.2);
}

TEST_CASE("A handicap chooses the spread, a spread set by hand stays") {
    const CommandLine line;
    const auto line_deg = [&] {
        return line.run("player show --json").json()["player"]["line_deg"].get<double>();
    };
    REQUIRE(line.run("player set --handicap +2").exit == Exit::done);
    REQUIRE(line_deg() == find_spread("tour")->line_deg);
    REQUIRE(line.run("player set --handicap 36").exit == Exit::done);
    REQUIRE(line_deg() == find_spread("high")->line_deg);
    REQUIRE(line.run("player set --line 1.2deg").exit == Exit::done);
    REQUIRE(line.run("player set --handicap 18").exit == Exit::done);
    REQUIRE(line_deg() == 1.2);
}

TEST_CASE("player set leaves the rest as it was", "[player_command]") {
    const CommandLine line;
    REQUIRE(line.run("player set --stimp 11").exit == Exit::done);
    REQUIRE(line.run("player set --handicap 18").exit == Exit::done);
    const Json player = line.run("player show --json").json()["player"];
    REQUIRE(player["stimp_ft"] == 11);
    REQUIRE(player["handicap"] == 18);
}

TEST_CASE("Option --units is remembered by set, and only by set", "[player_command]") {
    const CommandLine line;
    REQUIRE(line.run("player set --units metric").exit == Exit::done);
    REQUIRE(line.run("player show --units imperial").exit == Exit::done);
    REQUIRE(line.run("player show --json").json()["player"]["units"] == "metric");
}

TEST_CASE("player set makes a file that was named and is not there", "[player_command]") {
    const CommandLine line;
    const std::string file = line.path("anna.toml");
    REQUIRE(line.run("player show --player " + file).exit == Exit::not_understood);
    REQUIRE(line.run("player set --player " + file + " --stimp 9").exit == Exit::done);
    REQUIRE(line.run("player show --player " + file).exit == Exit::done);
}

TEST_CASE("player set refuses what it cannot use, and changes nothing", "[player_command]") {
    const CommandLine line;
    const std::vector<std::string> bad{"player set",
                                       "player set --system furlongs",
                                       "player set --units furlongs",
                                       "player set --units metric --system imperial",
                                       "player set --pace 9m",
                                       "player set --past 20ft",
                                       "player set --stimp 25",
                                       "player set --line 30deg",
                                       "player set --line -1",
                                       "player set --pace-spread 140%",
                                       "player set --pace-floor 5ft",
                                       "player set --slope-read 9%",
                                       "player set --handicap 90",
                                       "player set --stroke 20cm",
                                       "player set --stroke 20cm,3m 30cm,2m",
                                       "player set --stroke 0cm,3m",
                                       "player",
                                       "player forget"};
    for (const auto& arguments : bad) {
        const auto told = line.run(arguments);
        INFO(arguments << ": " << told.err);
        REQUIRE(told.exit == Exit::not_understood);
        REQUIRE(told.out.empty());
        REQUIRE_FALSE(told.err.empty());
    }
    REQUIRE(line.home().count() == 0);
    REQUIRE_THAT(line.run("player set").err, Contains("--pace-spread"));
}

TEST_CASE("a player file that cannot be written is an outside failure", "[player_command]") {
    const CommandLine line;
    line.home().write("file", "");
    const auto told = line.run(
        {"player", "set", "--player", line.path("file/player.toml"), "--stimp", "9", "--json"});
    REQUIRE(told.exit == Exit::outside_failed);
    REQUIRE(told.json()["error"]["kind"] == "outside_failed");
}
