#include <catch2/catch.hpp>
#include <cmath>

#include "support/units.hpp"
#include "window/driven_window.hpp"

using namespace dewtrail;
using namespace dewtrail::driven;
using Catch::WithinAbs;
using oracle::inch;

namespace {

/// What is remembered, as the command line counts it.
int remembered(const DrivenWindow& window) {
    const ShellOutcome outcome =
        run_in_shell("XDG_DATA_HOME=" + window.folder() + " XDG_CONFIG_HOME=" + window.folder() +
                     " " DEWTRAIL_PROGRAM " practise --progress --json 2>/dev/null");
    return Json::parse(outcome.written)["answers"];
}

}  // namespace

TEST_CASE("Practise by keyboard alone; what was answered survives a kill") {
    DrivenWindow window("--seed 7");
    window.key("ctrl+3");
    CHECK(window.await("arrive")["mode"] == "Practise");
    window.key("Right Right Right shift+Left Up s");
    Json line = window.await("sure");
    CHECK_THAT(line["aim_m"].get<double>(), WithinAbs(2.75 * inch, 1e-9));
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
    CHECK_THAT(window.await("typed-aim")["aim_m"].get<double>(), WithinAbs(-10.625 * inch, 1e-9));
    window.key("Return Return");
    CHECK(window.await("answered")["answers"] == 2);
    window.kill_it();
    CHECK(remembered(window) == 2);
}

TEST_CASE("A lesson is chosen, shown in Compare, kept and printed") {
    DrivenWindow window("--mode practise --seed 7");
    window.key("t");
    CHECK(window.await("lesson")["view"] == "lesson");
    window.key("n");
    window.await("lessons");
    window.key("Up Up Up Return");
    Json line = window.await("lesson");
    CHECK(line["lesson"] == "low");
    window.click(line["places"]["lesson32"][0], line["places"]["lesson32"][1]);
    window.await("lesson");
    CHECK(run_in_shell("cat " + window.folder() + "/dewtrail/lessons/*-low.toml")
              .written.find("theme = \"low\"") != std::string::npos);
    window.click(line["places"]["lesson33"][0], line["places"]["lesson33"][1]);
    window.await("print");
    CHECK(run_in_shell("cd " + window.folder() + " && cmp lesson.toml dewtrail/lessons/*-low.toml")
              .code == 0);
    CHECK(content_of(window.folder() + "/lesson.pdf").starts_with("%PDF"));
    window.key("Return");
    CHECK(window.await("arrive")["mode"] == "Compare");
    CHECK(window.await("show")["show"] == "low");
    window.key("ctrl+3");
    line = window.await("arrive");
    CHECK(line["view"] == "lesson");
    window.click(line["places"]["lesson1"][0], line["places"]["lesson1"][1]);
    CHECK(window.await("putt")["stage"] == "asking");
}

TEST_CASE("Practise by mouse alone") {
    DrivenWindow window("--mode practise --seed 7");
    const Json start = window.last()["places"];
    const double pace_before = window.last()["level_putt_m"];
    window.drag(start["aim"], -40, 0);  // by eye the rail lies across
    const double aim = window.await("drop")["aim_m"];
    CHECK(std::abs(aim) > inch);
    window.drag(start["pace"], 60, 0);
    const Json paced = window.await("drop");
    CHECK(paced["level_putt_m"] > pace_before);
    // A longer answer takes more lines: what is below has moved.
    const Json sure = paced["places"]["not-sure"];
    window.click(sure[0], sure[1]);
    const Json button = window.await("sure")["places"]["button"];
    window.click(button[0], button[1]);
    window.await("rested");
    const Json told = window.last();
    CHECK(told["stage"] == "told");
    window.click(told["places"]["button"][0], told["places"]["button"][1]);
    CHECK(window.await("putt")["number"] == 2);
    CHECK(remembered(window) == 1);
}

TEST_CASE("Review by keyboard alone, and what was logged is there") {
    DrivenWindow window("--mode review");
    window.key("w");
    window.await("type");
    window.tool("type --delay 60 '14in past 10in left'");
    window.key("Return");
    const Json typed = window.await("end");
    CHECK_THAT(typed["past_m"].get<double>(), WithinAbs(14 * inch, 1e-9));
    CHECK_THAT(typed["right_m"].get<double>(), WithinAbs(-10 * inch, 1e-9));
    CHECK(typed.contains("first"));
    window.key("Up shift+Left ctrl+z");
    CHECK_THAT(window.await("undo")["past_m"].get<double>(), WithinAbs(15 * inch, 1e-9));
    window.key("Return");
    CHECK(window.await("kept")["kept"] == 1);
    const ShellOutcome log =
        run_in_shell("XDG_DATA_HOME=" + window.folder() + " XDG_CONFIG_HOME=" + window.folder() +
                     " " DEWTRAIL_PROGRAM " log list --json 2>/dev/null");
    const Json putts = Json::parse(log.written)["putts"];
    REQUIRE(putts.size() == 1);
    CHECK_THAT(putts[0]["past_m"].get<double>(), WithinAbs(15 * inch, 1e-9));
}

TEST_CASE("Review by mouse alone, on the putt that Read brings along") {
    DrivenWindow window("8ft --slope 1% --clock 9");
    const Json places = window.last()["places"];
    window.click(places["mode3"][0], places["mode3"][1]);
    const Json there = window.await("arrive");
    CHECK(there["mode"] == "Review");
    CHECK_THAT(there["distance_m"].get<double>(), WithinAbs(8 * 12 * inch, 1e-9));
    window.drag(there["places"]["hole"], 50, 40);
    const Json dropped = window.await("drop");
    CHECK(dropped["has_end"] == true);
    CHECK(dropped["undo"] == 2);  // the putt that was brought, and the drag
    window.click(dropped["places"]["holed"][0], dropped["places"]["holed"][1]);
    CHECK(window.await("holed")["holed"] == true);
    window.click(dropped["places"]["button"][0], dropped["places"]["button"][1]);
    window.await("kept");
}
