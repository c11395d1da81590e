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

TEST_CASE("what was putted before there were pupils becomes one's, and nothing of it is lost",
          "[pupil]") {
    const CommandLine line;
    CHECK(line.run("pupil list --json").json()["own"].is_null());
    CHECK(line.run("pupil rename 'my own putts' Anna").exit == Exit::not_understood);
    REQUIRE(line.run("player set --stimp 9").exit == Exit::done);
    REQUIRE(line.run("log 12ft --holed").exit == Exit::done);
    REQUIRE(line.run("log 20ft --missed low").exit == Exit::done);
    const std::string putts = line.run("log export").out;
    const Said list = line.run("pupil list");
    CHECK_THAT(list.out, Contains("my own putts  0 putts practised  2 putts logged"));
    CHECK_THAT(list.out, Contains("dewtrail pupil rename 'my own putts' Anna"));
    CHECK(line.run("pupil list --json").json()["own"]["putts"] == 2);

    const Said named = line.run("pupil rename 'my own putts' Anna");
    INFO(named.err);
    REQUIRE(named.exit == Exit::done);
    CHECK_THAT(named.out, Contains("--pupil 'Anna'"));
    CHECK(line.run("log export --pupil Anna").out == putts);
    CHECK(line.run("player show --json --pupil Anna").json()["player"]["stimp_ft"] == 9);
    // What nobody is named for begins anew, and says so.
    const Said own = line.run("log list --json");
    CHECK(own.json()["putts"].empty());
    CHECK_THAT(own.err, Contains("your own putts") && Contains("--pupil Anna"));
    CHECK(line.run("player show --json").json()["player"]["stimp_ft"].is_null());
    CHECK_THAT(line.run("log list --pupil Anna").err, !Contains("own putts"));
    const Json now = line.run("pupil list --json").json();
    CHECK(now["pupils"].size() == 1);
    CHECK(now["own"].is_null());
}

TEST_CASE("a name that is taken leaves one's own putts as they are", "[pupil]") {
    const CommandLine line;
    REQUIRE(line.run("log 12ft --holed").exit == Exit::done);
    REQUIRE(line.run("pupil add Anna").exit == Exit::done);
    for (const std::string to : {"Anna", "a/b", "'My own putts'"}) {
        INFO(to);
        CHECK(line.run("pupil rename 'My own putts' " + to).exit == Exit::not_understood);
        CHECK(line.run("log list --json").json()["putts"].size() == 1);
    }
    // A memory that cannot be used stays where it is, too.
    std::ofstream(line.home().path() / "dewtrail/memory.sqlite") << "no memory at all";
    CHECK(line.run("pupil rename 'my own putts' Ben").exit == Exit::not_understood);
    CHECK(content_of(line.home().path() / "dewtrail/memory.sqlite") == "no memory at all");
    CHECK(line.run("log list --pupil Ben").exit == Exit::not_understood);
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
             {"pupil add 'My own putts'", "pupil's name"},
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
