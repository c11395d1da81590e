#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>

#include "window/driven_window.hpp"

using namespace dewtrail;
using namespace dewtrail::driven;
using Catch::WithinAbs;

namespace {

std::string typed(const std::string& words) {
    return "type --delay 25 '" + words + "'";
}

}  // namespace

TEST_CASE("Green by keyboard alone: three readings, saved, used, read by the command line") {
    DrivenWindow window("--mode green");
    for (const auto& [place, reading] :
         {std::pair("3m right, 0", "2% 180"), std::pair("3m left, 0", "2% 180"),
          std::pair("0, 4m up", "up 1.5deg/-0.5deg")}) {
        window.key("a");
        window.await("type");
        window.tool(typed(reading));
        window.key("Return");
        window.await("typed");
        window.key("w");
        window.await("type");
        window.key("ctrl+a");
        window.tool(typed(place));
        window.key("Return");
        window.await("typed");
    }
    CHECK(window.last()["fitted"] == true);
    window.key("g");
    window.await("type");
    window.key("ctrl+a");
    window.tool(typed("Test yard"));
    window.key("Return");
    CHECK(window.await("typed")["name"] == "Test yard");
    window.key("ctrl+s");
    CHECK(window.await("saved")["unsaved"] == false);
    window.key("Return");
    CHECK(window.await("arrive")["mode"] == "Read");

    const std::string file = window.folder() + "/dewtrail/greens/test-yard.toml";
    REQUIRE(std::filesystem::exists(file));
    const ShellOutcome shown =
        run_in_shell(DEWTRAIL_PROGRAM " green show " + file + " --json 2>/dev/null");
    REQUIRE(shown.code == 0);
    const Json hole = Json::parse(shown.written)["holes"][0];
    CHECK_THAT(hole["slope"].get<double>(), WithinAbs(0.019, 0.002));
}

TEST_CASE("Green by mouse alone: a spot and its fall are dragged, and the green is used") {
    DrivenWindow window("--mode green --green meadow --hole flag --ball left");
    const Json start = window.last();
    CHECK(start["spots"] == 22);
    window.drag(start["places"]["spot-11"], 40, -25);
    const Json moved = window.await("drop");
    CHECK(moved["spot"] == 11);
    CHECK(moved["undo"].get<double>() == start["undo"].get<double>() + 1);
    const Json& places = moved["places"];
    const double slope = moved["slope"];
    const double along_x = places["drop"][0].get<double>() - places["spot-11"][0].get<double>(),
                 along_y = places["drop"][1].get<double>() - places["spot-11"][1].get<double>();
    const double length = std::hypot(along_x, along_y);
    window.drag(places["drop"], 28 * along_x / length, 28 * along_y / length);
    CHECK_THAT(window.await("drop")["slope"].get<double>() - slope, WithinAbs(0.02, 0.003));
    const Json at = window.last()["places"];
    window.click(at["button"][0], at["button"][1]);
    CHECK(window.await("arrive")["mode"] == "Read");
}

TEST_CASE("A survey that was not saved outlives a power cut") {
    DrivenWindow window("--mode green");
    window.key("a");
    window.await("type");
    window.tool(typed("2% 180"));
    window.key("Return");
    window.await("typed");
    window.kill_it();
    bool found = false;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(window.folder()))
        found = found || entry.path().filename() == "survey.toml";
    CHECK(found);
}
