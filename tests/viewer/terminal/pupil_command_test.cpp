#include <nlohmann/json.hpp>

#include <catch2/catch.hpp>

#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

TEST_CASE("two pupils never mix, nor with whoever coaches them", "[pupil]") {
    const CommandLine line;
    REQUIRE(line.run("pupil add Anna").exit == Exit::done);
    REQUIRE(line.run("pupil add Ben").exit == Exit::done);
    REQUIRE(line.run("log 12ft --holed --pupil Anna").exit == Exit::done);
    REQUIRE(line.run("log 20ft --holed").exit == Exit::done);
    REQUIRE(line.run("player set --stimp 9 --pupil Ben").exit == Exit::done);
    const auto putts = [&](const std::string& whose) {
        return line.run("log list --json" + whose).json()["putts"].size();
    };
    CHECK(putts(" --pupil Anna") == 1);
    CHECK(putts(" --pupil Ben") == 0);
    CHECK(putts("") == 1);
    const auto stimp = [&](const std::string& whose) {
        return line.run("player show --json" + whose).json()["player"]["stimp_ft"];
    };
    CHECK(stimp(" --pupil Ben") == 9);
    CHECK(stimp(" --pupil Anna").is_null());
    CHECK(stimp("").is_null());
    const Json list = line.run("pupil list --json").json()["pupils"];
    REQUIRE(list.size() == 2);
    CHECK(list[0]["name"] == "Anna");
    CHECK(list[0]["putts"] == 1);
}

TEST_CASE("a pupil goes into one file and comes back the same, under any name", "[pupil]") {
    const CommandLine line;
    REQUIRE(line.run("pupil add Anna").exit == Exit::done);
    REQUIRE(line.run("player set --stimp 11.5 --line 1.3deg --pupil Anna").exit == Exit::done);
    REQUIRE(line.run("log 12ft --missed low --side rl --pupil Anna").exit == Exit::done);
    const std::string file = line.path("anna.json");
    REQUIRE(line.run("pupil export Anna " + file).exit == Exit::done);
    CHECK(line.run("pupil export Anna " + file).exit == Exit::not_understood);  // it is there
    REQUIRE(line.run("pupil import " + file + " --as Copy").exit == Exit::done);
    CHECK(line.run("player show --json --pupil Copy").json()["player"] ==
          line.run("player show --json --pupil Anna").json()["player"]);
    CHECK(line.run("log export --pupil Copy").out == line.run("log export --pupil Anna").out);
    // Once more: nothing is there twice.
    CHECK(line.run("pupil import " + file + " --json").json()["putts"] == 0);
    REQUIRE(line.run("pupil rename Copy Clara").exit == Exit::done);
    CHECK(line.run("log list --pupil Copy").exit == Exit::not_understood);
    CHECK(line.run("log list --json --pupil Clara").json()["putts"].size() == 1);
}

TEST_CASE("what names no pupil is refused in words, and nothing is written", "[pupil]") {
    const CommandLine line;
    REQUIRE(line.run("pupil add Anna").exit == Exit::done);
    line.home().write("broken.json", "{\"dewtrail_pupil\": 1, \"name\": \"X\"}");
    line.home().write("newer.json", "{\"dewtrail_pupil\": 9}");
    line.home().write("deep.json", std::string(200'000, '['));
    const std::size_t before = line.home().count();
    for (const auto& [arguments, says] : std::vector<std::pair<std::string, std::string>>{
             {"read 12ft --pupil Ana", "Did you mean Anna?"},
             {"read 12ft --pupil Zoe", "pupil add"},
             {"read 12ft --pupil Anna --player x.toml", "two players"},
             {"log list --pupil Anna --data .", "two memories"},
             {"pupil add Anna", "already"},
             {"pupil add ../up", "pupil's name"},
             {"pupil add .hidden", "pupil's name"},
             {"pupil import " + line.path("broken.json"), "missing"},
             {"pupil import " + line.path("newer.json"), "newer"},
             {"pupil import " + line.path("deep.json"), "no pupil"},
             {"pupil", "one more word"}}) {
        INFO(arguments);
        const auto said = line.run(arguments);
        CHECK(said.exit == Exit::not_understood);
        CHECK_THAT(said.err, Contains(says));
    }
    CHECK(line.home().count() == before);
}
