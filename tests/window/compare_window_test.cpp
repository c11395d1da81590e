#include <catch2/catch.hpp>

#include "support/units.hpp"
#include "window/driven_window.hpp"

using namespace dewtrail;
using namespace dewtrail::driven;
using Catch::WithinAbs;
using oracle::inch;

TEST_CASE("Compare by keyboard alone: guess, roll and freeze, release, swap") {
    DrivenWindow window("--mode compare");
    window.key("Right Right Down Right");
    Json line = window.await("guess");
    window.key("space");
    const Json frozen = window.await("frozen");
    REQUIRE(frozen["frozen"] == true);
    CHECK_THAT(frozen["guess_m0"].get<double>(), WithinAbs(2 * inch, 1e-9));
    // The aims are those of the command line.
    const ShellOutcome told =
        run_in_shell(DEWTRAIL_PROGRAM " compare --show uphill --json 2>/dev/null");
    const Json putts = Json::parse(told.written)["putts"];
    CHECK_THAT(frozen["aim_m0"].get<double>(),
               WithinAbs(putts[0]["read"]["aim"]["offset_m"].get<double>(), 1e-9));
    window.key("space");
    CHECK(window.await("release")["step"] == 2);
    window.await("rolled");
    window.key("w");
    CHECK(window.await("swap")["swapped"] == true);
    window.key("bracketright");
    CHECK(window.await("clock")["show"] == "");
    window.key("ctrl+z");
    CHECK(window.await("undo")["show"] == "uphill");
}

TEST_CASE("Compare by mouse alone") {
    DrivenWindow window("--mode compare");
    const auto click = [&](const Json& places, const char* name) {
        window.click(places[name][0], places[name][1]);
    };
    const Json start = window.last()["places"];
    click(start, "putt1");
    CHECK(window.await("choose")["chosen"] == 1);
    window.drag(start["hole"], 30, 0);
    CHECK(window.await("drop")["guess_m1"].get<double>() > 0);
    click(start, "stretch");
    CHECK(window.await("stretch")["stretch"] == 4);
    click(window.last()["places"], "button");
    CHECK(window.await("roll")["step"] == 1);
    const Json frozen = window.await("frozen");
    click(frozen["places"], "button");
    window.await("rolled");
    click(window.last()["places"], "show1");
    CHECK(window.await("show")["show"] == "fast");
}
