#include <catch2/catch.hpp>
#include <cmath>

#include "window/driven_window.hpp"

using namespace dewtrail::driven;
using Catch::WithinAbs;

namespace {

constexpr double inch_m = 0.0254;

/// What is remembered, as the command line counts it.
int remembered(const DrivenWindow& window) {
    const Outcome outcome =
        run("XDG_DATA_HOME=" + window.folder() + " XDG_CONFIG_HOME=" + window.folder() +
            " " DEWTRAIL_PROGRAM " practise --progress --json 2>/dev/null");
    return Json::parse(outcome.written)["answers"];
}

}  // namespace

TEST_CASE("Practise by keyboard alone; what was answered survives a kill") {
    DrivenWindow window("--seed 7");
    window.key("2");
    CHECK(window.await("arrive")["mode"] == "Practise");
    window.key("Right Right Right shift+Left Up s");
    Json line = window.await("sure");
    CHECK_THAT(line["aim_m"].get<double>(), WithinAbs(2.75 * inch_m, 1e-9));
    window.key("Return");
    CHECK(window.await("answered")["stage"] == "rolling");
    window.key("Return");  // to the end of the roll
    CHECK(window.await("rested")["stage"] == "told");
    window.key("Return");
    line = window.await("putt");
    CHECK(line["number"] == 2);
    window.key("a");
    window.await("type");
    window.tool("type --delay 60 'two cups left'");
    window.key("Return");
    CHECK_THAT(window.await("typed-aim")["aim_m"].get<double>(), WithinAbs(-10.625 * inch_m, 1e-9));
    window.key("Return Return");
    CHECK(window.await("answered")["answers"] == 2);
    window.kill_it();
    CHECK(remembered(window) == 2);
}

TEST_CASE("Practise by mouse alone") {
    DrivenWindow window("--mode practise --seed 7");
    const Json start = window.last()["places"];
    const double pace_before = window.last()["level_putt_m"];
    window.drag(start["aim"], 0, -40);
    const double aim = window.await("drop")["aim_m"];
    CHECK(std::abs(aim) > inch_m);
    window.drag(start["pace"], 60, 0);
    const Json paced = window.await("drop");
    CHECK(paced["level_putt_m"] > pace_before);
    window.click(start["not-sure"][0], start["not-sure"][1]);
    window.await("sure");
    window.click(start["button"][0], start["button"][1]);
    window.await("rested");
    const Json told = window.last();
    CHECK(told["stage"] == "told");
    window.click(told["places"]["button"][0], told["places"]["button"][1]);
    CHECK(window.await("putt")["number"] == 2);
    CHECK(remembered(window) == 1);
}
