#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

std::string answers(int putts, const std::string& aim = "3 cups right",
                    const std::string& pace = "12ft") {
    std::string typed;
    for (int i = 0; i < putts; ++i) typed += aim + "\n" + pace + "\ny\n";
    return typed;
}

}  // namespace

TEST_CASE("practise deals, marks, remembers and sums up", "[practise_command]") {
    const CommandLine line;
    const auto told = line.run("practise --putts 3 --seed 7", answers(3));
    INFO(told.out << told.err);
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.out, Contains("Putt 1 of 3") && Contains("Putt 3 of 3"));
    REQUIRE_THAT(told.out, Contains("yours") && Contains("strokes") && Contains(" of 10: "));
    REQUIRE_THAT(told.out, Contains("3 putts, ") && Contains("--save-set FILE"));
    REQUIRE_THAT(told.out, Contains("Aim cost ") && Contains("Next: dewtrail practise --drill "));
    REQUIRE(told.out.find('!') == std::string::npos);

    const auto again = line.run("practise --putts 3 --seed 7 --json", answers(3));
    REQUIRE(again.exit == Exit::done);
    const Json json = again.json();
    REQUIRE(json["putts"].size() == 3);
    REQUIRE(json["putts"][0]["id"] == 4);
    REQUIRE(json["seed"] == "7");
    for (const Json& putt : json["putts"]) {
        REQUIRE(putt["score"].get<double>() >= 0);
        REQUIRE(putt["score"].get<double>() <= 10);
        REQUIRE(putt["lost_putts"].get<double>() >= 0);
        const double parts =
            putt["aim_lost_putts"].get<double>() + putt["pace_lost_putts"].get<double>();
        REQUIRE_THAT(parts, Catch::WithinAbs(putt["lost_putts"].get<double>(), 1e-12));
    }
    REQUIRE(json["break"]["share"].is_null() == (json["putts"].size() + 3 < 6));
}

TEST_CASE("on a green practise tells the readings along the line, in words", "[practise_command]") {
    const CommandLine line;
    const auto told = line.run("practise --putts 1 --seed 4 --green meadow", answers(1));
    INFO(told.out);
    REQUIRE_THAT(told.out, Contains("At the ball ") && Contains("Halfway ") &&
                               Contains("At the hole ") && Contains(" on Meadow"));
    REQUIRE(told.out.find(" m\n") == std::string::npos);
    REQUIRE_THAT(told.out,
                 Contains("Next: dewtrail practise --drill read --putts 10 --green meadow"));
}

TEST_CASE("the putt of the day counts once", "[practise_command]") {
    const CommandLine line;
    const std::vector<std::string> day{"practise", "--day", "--date", "2026-05-01"};
    REQUIRE(line.run(day, answers(1)).out.find("counted") == std::string::npos);
    REQUIRE_THAT(line.run(day, answers(1)).out, Contains("it has counted already"));
    REQUIRE(line.run("practise --progress --json").json()["answers"] == 1);
}

TEST_CASE("practise asks again for what it does not understand", "[practise_command]") {
    const CommandLine line;
    const auto told =
        line.run("practise --putts 1 --seed 3", "sideways\n3 cups right\n12ft\nperhaps\nn\n");
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.out, Contains("aim 'sideways'") && Contains("type y or n"));
    REQUIRE_THAT(told.out, Contains("1 putt, "));
}

TEST_CASE("practise ends where the answers end, and keeps what was said", "[practise_command]") {
    const CommandLine line;
    const auto told = line.run("practise --seed 3", answers(2) + "q\n");
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.out, Contains("2 putts, "));
    REQUIRE(line.run("practise --progress --json").json()["answers"] == 2);
    REQUIRE_THAT(line.run("practise --seed 3").out, Contains("No putt was answered"));
}

TEST_CASE("the drills ask for their part only", "[practise_command]") {
    const CommandLine line;
    const auto by_line = line.run("practise --drill line --putts 1 --seed 5", "1 cup left\ny\n");
    REQUIRE_THAT(by_line.out, Contains("Pace: play it as") && Contains("1 putt, "));
    const auto by_pace = line.run("practise --drill pace --putts 1 --seed 5", "20ft\ny\n");
    REQUIRE_THAT(by_pace.out, Contains("Line: ") && Contains("1 putt, "));
    const auto by_slope = line.run("practise --drill slope --putts 1", "1.4%\n3\n2%\n3:30\n");
    REQUIRE_THAT(by_slope.out, Contains("You feel 1.4 % where it is 2.0 %; the fall is 15° off."));
    REQUIRE(line.run("practise --drill dance").exit == Exit::not_understood);
}

TEST_CASE("the weekly test tells every putt, and is told by week", "[practise_command]") {
    const CommandLine line;
    const auto told = line.run("practise --week --date 2026-05-01", answers(10));
    INFO(told.out);
    REQUIRE(told.exit == Exit::done);
    int tables = 0;
    for (auto at = told.out.find("yours "); at != std::string::npos; ++tables)
        at = told.out.find("yours ", at + 1);
    REQUIRE(tables == 10);
    REQUIRE_THAT(told.out, Contains(" of 100"));
    const auto progress = line.run("practise --progress --json").json();
    REQUIRE(progress["weekly_tests"].size() == 1);
    REQUIRE(progress["weekly_tests"][0]["week"] == "2026-W18");
    REQUIRE(progress["weekly_tests"][0]["putts"] == 10);
    REQUIRE_THAT(line.run("practise --progress").out, Contains("2026-W18"));
}

TEST_CASE("the next drill is the same at the end, in progress and as JSON", "[practise_command]") {
    const CommandLine line;
    const std::string end = line.run("practise --seed 3", answers(10)).out;
    const auto next = line.run("practise --progress --json").json()["next"];
    const std::string command =
        fmt::format("dewtrail practise --drill {} --putts {}", next["drill"].get<std::string>(),
                    next["putts"].get<int>());
    CHECK_THAT(end, Contains("Next: " + command));
    const std::string progress = line.run("practise --progress").out;
    CHECK_THAT(progress, Contains("It begins with: " + command));
    // In words, and then the command: what is next is said once.
    CHECK(progress.find("Next: ") == progress.rfind("Next: "));
}

TEST_CASE("one kind of putt can be asked for, by the name that JSON gives it",
          "[practise_command]") {
    const CommandLine line;
    const auto json = line.run({"practise", "--putts", "4", "--seed", "5", "--json", "--kind",
                                "left-to-right downhill short"},
                               answers(4))
                          .json();
    REQUIRE(json["putts"].size() == 4);
    for (const auto& putt : json["putts"]) CHECK(putt["kind"] == "left-to-right downhill short");
    const auto refused = line.run({"practise", "--kind", "steep"});
    CHECK(refused.exit == Exit::not_understood);
    CHECK_THAT(refused.err, Contains("kind 'steep' is not known"));
}

TEST_CASE("a set is kept and played again", "[practise_command]") {
    const CommandLine line;
    const std::string set = line.path("set.toml");
    const auto first = line.run(
        {"practise", "--putts", "2", "--seed", "9", "--save-set", set, "--json"}, answers(2));
    REQUIRE(first.exit == Exit::done);
    const auto again = line.run("practise --set " + set + " --json", answers(2));
    REQUIRE(again.json()["putts"].size() == 2);
    REQUIRE(again.json()["putts"][1]["putt"]["distance_m"] ==
            first.json()["putts"][1]["putt"]["distance_m"]);
}

TEST_CASE("practice moves to another machine as CSV", "[practise_command]") {
    const CommandLine line;
    line.run("practise --putts 2 --seed 9", answers(2));
    const std::string csv = line.path("answers.csv");
    REQUIRE_THAT(line.run("practise --export " + csv).out, Contains("2 answers are in"));
    const std::string other = line.path("other");
    REQUIRE_THAT(line.run("practise --import " + csv + " --data " + other).out,
                 Contains("2 answers added, 0 were"));
    REQUIRE_THAT(line.run("practise --import " + csv + " --data " + other).out,
                 Contains("0 answers added, 2 were"));
}

TEST_CASE("a damaged memory is one line and exit 2", "[practise_command]") {
    const CommandLine line;
    const std::string other = line.path("other");
    std::filesystem::create_directories(other);
    line.home().write("other/memory.sqlite", std::string(3000, 'x'));
    const auto told = line.run("log 12ft --holed --data " + other);
    REQUIRE(told.exit == Exit::not_understood);
    REQUIRE_THAT(told.err, Contains("is damaged; it is left as it is"));
    line.home().write("file", "");
    const auto blocked = line.run("log 12ft --holed --data " + line.path("file/below"));
    REQUIRE(blocked.exit == Exit::outside_failed);
}

TEST_CASE("the progress goes onto a page, and a file that is there stays", "[practise_command]") {
    const CommandLine line;
    line.run("practise --putts 3 --seed 7", answers(3));
    const std::string page = line.path("progress.svg");
    const auto printed = line.run("practise --progress --out " + page);
    INFO(printed.err);
    REQUIRE(printed.exit == Exit::done);
    std::ifstream file(page);
    const std::string svg((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    CHECK(svg.find("<svg") != std::string::npos);
    CHECK(line.run("practise --progress --out " + page).exit == Exit::not_understood);
    CHECK(line.run("practise --progress --out " + page + " --force").exit == Exit::done);
}

TEST_CASE("the swell is written as a sound", "[rehearse_command]") {
    const CommandLine line;
    const std::string file = line.path("swell.wav");
    const auto told = line.run("rehearse --swell " + file + " --json");
    INFO(told.err);
    REQUIRE(told.exit == Exit::done);
    CHECK(told.json()["swing_s"] == Approx(1.2));
    CHECK(told.json()["from_stroke_table"] == false);
    CHECK(std::filesystem::file_size(file) > 100000);
    CHECK(line.run("rehearse --swell " + file).exit == Exit::not_understood);
    CHECK(line.run("rehearse --swell " + line.path("swell.mp3")).exit == Exit::not_understood);
}

TEST_CASE("practise ends with the drill at home, and the command that begins it",
          "[practise_command]") {
    const CommandLine line;
    std::string balls;
    for (int i = 0; i < 20; ++i) balls += i % 2 == 0 ? "2ft long\n" : "2ft6in long\n";
    REQUIRE(line.run("measure pace --seed 3", balls).exit == Exit::done);
    const auto told = line.run("practise --putts 2 --seed 7", answers(2));
    INFO(told.out);
    CHECK_THAT(told.out, Contains("At home: ten balls of ") &&
                             Contains("where yours stop long. dewtrail measure pace --drill"));
    CHECK_THAT(line.run("practise --progress").out, Contains("dewtrail measure pace --drill"));
    const Json home = line.run("practise --progress --json").json()["at_home"];
    CHECK(home["test"] == "pace");
    CHECK_THAT(told.out, Contains(home["words"].get<std::string>()));
    CHECK(line.run("practise --putts 2 --seed 8 --json", answers(2)).json()["at_home"] == home);
    CHECK(line.run("measure pace --drill --balls 1", "9ft\n").exit == Exit::done);
}
