#include <catch2/catch.hpp>

#include "window/driven_window.hpp"

using namespace dewtrail;
using namespace dewtrail::driven;

namespace {

/// How many answers are remembered of somebody, as the command line counts them.
int answers_of(const DrivenWindow& window, const std::string& whose = "") {
    const ShellOutcome outcome =
        run_in_shell("XDG_DATA_HOME=" + window.folder() + " XDG_CONFIG_HOME=" + window.folder() +
                     " " DEWTRAIL_PROGRAM " practise --progress --json " +
                     (whose.empty() ? "" : "--pupil " + whose) + " 2>/dev/null");
    return Json::parse(outcome.written)["answers"];
}

/// `ups`: so often Up leads from the one whose window it is over the top to the last row.
void add_pupil(DrivenWindow& window, const std::string& name, int ups = 1) {
    window.key("ctrl+u");
    window.await("pupils");
    for (int i = 0; i < ups; ++i) window.key("Up");
    window.key("Return");
    window.await("type");
    window.tool("type --delay 60 '" + name + "'");
    window.key("Return");
}

/// With putts answered it is asked first; the first row goes on with them.
void leave_session(DrivenWindow& window) {
    window.await("unfinished");
    window.key("Down Return");
}

void answer_a_putt(DrivenWindow& window) {
    window.key("Return Return");
    window.await("rested");
}

}  // namespace

TEST_CASE("Pupils are added and chosen, and what each putts is theirs alone") {
    DrivenWindow window("--mode practise --seed 7");
    CHECK(window.last()["pupil"] == "");
    answer_a_putt(window);
    add_pupil(window, "Anna");
    leave_session(window);
    Json line = window.await("arrive");
    CHECK(line["pupil"] == "Anna");
    CHECK(line["stage"] == "asking");
    answer_a_putt(window);
    window.key("Return");
    window.await("putt");
    answer_a_putt(window);
    add_pupil(window, "Ben", 2);
    leave_session(window);
    CHECK(window.await("arrive")["pupil"] == "Ben");
    // The mouse goes to the name in the corner, and to the first row: nobody.
    const Json name = window.last()["places"]["pupils"];
    window.click(name[0], name[1]);
    const Json row = window.await("pupils")["places"]["page0"];
    window.click(row[0], row[1]);
    CHECK(window.await("arrive")["pupil"] == "");
    window.end_it();
    CHECK(window.exit_code() == 0);
    CHECK(answers_of(window) == 1);
    CHECK(answers_of(window, "Anna") == 2);
    CHECK(answers_of(window, "Ben") == 0);
}

TEST_CASE("Putts of nobody's get a name while the window has them open, and go on under it") {
    DrivenWindow window("--mode practise --seed 7");
    answer_a_putt(window);
    add_pupil(window, "Anna", 2);  // the row above the one that adds
    leave_session(window);
    CHECK(window.await("arrive")["pupil"] == "Anna");
    answer_a_putt(window);
    window.kill_it();
    CHECK(answers_of(window, "Anna") == 2);
    CHECK(answers_of(window) == 0);
}

TEST_CASE("A name that cannot be is said, and the window stays whose it was") {
    DrivenWindow window("--mode practise --seed 7");
    add_pupil(window, "Anna");
    CHECK(window.await("arrive")["pupil"] == "Anna");
    add_pupil(window, "Anna", 2);
    CHECK(window.await("message")["pupil"] == "Anna");
}
