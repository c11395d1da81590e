#include <catch2/catch.hpp>
#include <fstream>

#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

TEST_CASE("log remembers quickly and fully, and lists", "[log_command]") {
    const CommandLine line;
    const auto quick = line.run("log 12ft --side rl --grade down --missed 'long low'");
    INFO(quick.err);
    REQUIRE(quick.exit == Exit::done);
    REQUIRE_THAT(quick.out, Contains("Remembered as putt 1: 12 ft, right-to-left, downhill: missed "
                                     "low long."));
    REQUIRE_THAT(quick.out, Contains("Next: dewtrail"));
    const auto full = line.run(
        "log 3.6m --slope 2% --clock 3 --aim '15in right' --pace 12ft --left '2ft past 6in left' "
        "--green Larch --hole 7 --json");
    REQUIRE(full.json()["id"] == 2);
    REQUIRE(full.json()["side"] == "right-to-left");
    REQUIRE(full.json()["past_m"].get<double>() > 0.6);
    line.run("log 4ft --holed");
    REQUIRE(line.run("log list --json").json()["putts"].size() == 3);
    REQUIRE_THAT(line.run("log list --last 1").out, Contains("4 ft: holed"));
    REQUIRE_THAT(line.run("log list").out, Contains("Misses by a side: 1 of 1 low."));
}

TEST_CASE("log asks for five putts of a round", "[log_command]") {
    const CommandLine line;
    const auto told = line.run(
        "log --round", "12ft\nsideways\nrl\ndown\nlow short\n4ft\nstraight\nup\nholed\nq\n");
    INFO(told.out);
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.out, Contains("side 'sideways' is not known"));
    REQUIRE_THAT(told.out,
                 Contains("Remembered as putt 2.") && Contains("Next: dewtrail log list"));
    const auto putts = line.run("log list --json").json()["putts"];
    REQUIRE(putts.size() == 2);
    REQUIRE(putts[0]["missed"] == "low short");
    REQUIRE(putts[1]["holed"] == true);
}

TEST_CASE("log says what is missing or contradicts itself", "[log_command]") {
    const CommandLine line;
    for (const char* arguments : {"log --holed", "log 12ft", "log 12ft --holed --missed low",
                                  "log 12ft --missed sideways", "log 500ft --holed"}) {
        const auto told = line.run(arguments);
        INFO(told.out << told.err);
        REQUIRE(told.exit == Exit::not_understood);
        REQUIRE(told.err.find('\n') + 1 < told.err.size());  // what is wrong, and what to do
    }
    REQUIRE_THAT(line.run("log list").out, Contains("No putt is logged yet"));
}

TEST_CASE("log goes to CSV and back", "[log_command]") {
    const CommandLine line;
    line.run("log 12ft --side rl --missed low");
    line.run("log 8ft --holed");
    const std::string csv = line.path("putts.csv");
    REQUIRE_THAT(line.run("log export " + csv).out, Contains("2 putts are in"));
    REQUIRE_THAT(
        line.run("log export").out,
        Contains("date,green,hole,distance,slope,clock,stimp,aim,pace,result,left,missed"));
    REQUIRE_THAT(line.run("log import " + csv).out, Contains("0 putts added, 2 were"));
    const std::string other = line.path("other");
    REQUIRE(line.run("log import " + csv + " --data " + other + " --json").json()["added"] == 2);
    line.home().write("bad.csv", "distance,result\n12ft,perhaps\n");
    const auto bad = line.run("log import " + line.path("bad.csv"));
    REQUIRE(bad.exit == Exit::not_understood);
    REQUIRE_THAT(bad.err, Contains("bad.csv:2:6: result 'perhaps'"));
}

TEST_CASE("review names the stroke and what went wrong", "[review_command]") {
    const CommandLine line;
    const auto told =
        line.run("review 12ft --slope 2% --clock 3 --stimp 10 --left '4ft past 2in left'");
    INFO(told.out << told.err);
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.out, Contains("Meant") && Contains("Struck"));
    REQUIRE_THAT(told.out, Contains("Most likely ") && Contains("Then "));
    const auto json =
        line.run("review 12ft --slope 2% --clock 3 --stimp 10 --left '4ft past 2in left' --json")
            .json();
    REQUIRE(json["check"]["rest_error_m"].get<double>() < 1e-3);
    double chances = 0;
    for (const Json& part : json["split"]["parts"]) chances += part["chance"].get<double>();
    REQUIRE_THAT(chances, Catch::WithinAbs(1, 1e-9));
    REQUIRE(line.run("review 12ft").exit == Exit::not_understood);
    REQUIRE(line.run("review 12ft --holed").exit == Exit::no_answer);
    const auto words = line.run("review 12ft --slope 2% --clock 3 --missed low");
    REQUIRE_THAT(words.out, Contains("Most likely"));
    REQUIRE(words.out.find("Struck") == std::string::npos);
}

TEST_CASE("review takes logged putts together", "[review_command]") {
    const CommandLine line;
    for (const std::string clock : {"3", "9", "2", "10"})
        line.run("log 12ft --slope 2% --clock " + clock + " --left '3ft past'");
    line.run("log 12ft --missed low");
    const auto told = line.run("review --last 5 --json");
    REQUIRE(told.json()["putts"] == 4);
    REQUIRE(told.json()["left_out"] == 1);
    REQUIRE_THAT(line.run("review --last 5").out, Contains("4 putts together."));
    REQUIRE(line.run("review --putt 2 --json").json()["putts"] == 1);
    REQUIRE(line.run("review --putt 77").exit == Exit::not_understood);
    REQUIRE(line.run("review --putt 5").exit == Exit::no_answer);
}

TEST_CASE("rehearse turns a putt into one on a mat", "[rehearse_command]") {
    const CommandLine line;
    const auto json =
        line.run("rehearse --level-putt 11ft --stimp 10 --mat-stimp 12 --mat 9ft --json").json();
    REQUIRE_THAT(json["level_roll_m"].get<double>(), Catch::WithinAbs(12 * 0.3048 * 1.2, 1e-12));
    REQUIRE(json["mat_end_time_s"].get<double>() > 0);
    REQUIRE(json["backswing_m"].is_null());
    REQUIRE_THAT(
        line.run("rehearse 12ft --mat-stimp 12").out,
        Contains("On the mat") && Contains("No stroke table yet. Next: dewtrail player set"));
    line.run("player set --stroke 20cm,3m 30cm,6.75m");
    REQUIRE_THAT(line.run("rehearse 12ft --mat-stimp 12").out, Contains("Backswing"));
    REQUIRE(line.run("rehearse 12ft").exit == Exit::not_understood);
}

TEST_CASE("player fit reads the log", "[player_command]") {
    const CommandLine line;
    REQUIRE(line.run("player fit --from-log").exit == Exit::not_understood);
    REQUIRE(line.run("player fit").exit == Exit::not_understood);
    std::string csv = "distance,result,side,missed\n";
    for (int i = 0; i < 20; ++i)
        csv += std::string("5ft,") + (i % 2 ? "holed,," : "missed,right-to-left,low") + '\n' +
               std::string("10ft,") + (i % 4 ? "missed,left-to-right,low" : "holed,,") + '\n';
    line.home().write("putts.csv", csv);
    // The rows repeat: an import adds each putt that it does not know yet.
    line.run("log import " + line.path("putts.csv"));
    const auto json = line.run("player fit --from-log --json").json();
    REQUIRE(json["rows"].size() == 2);
    REQUIRE(json["rows"][0]["tries"] == 20);
    REQUIRE(json["misses"]["low"] == 25);
    REQUIRE(json["break_on_course"]["mean"].get<double>() < 0.8);
    REQUIRE_THAT(line.run("player fit --from-log").out, Contains("by a side, 25 of 25 low"));
}

TEST_CASE("log refuses what cannot be", "[log_command]") {
    const CommandLine line;
    const auto refused = [&](const std::string& putt, const char* why) {
        const auto told = line.run("log 12ft " + putt);
        INFO(told.out + told.err);
        CHECK(told.exit == Exit::not_understood);
        CHECK_THAT(told.err, Contains(why));
    };
    refused("--slope 2% --clock 3 --side left-to-right --missed low",
            "contradicts the ball's clock: there it is right-to-left");
    refused("--slope 2% --clock 12 --grade uphill --missed short", "there it is downhill");
    refused("--left 0ft", "was not left 0 from the hole");
    refused("--date 2999-01-01 --missed low", "is still to come");
    CHECK(line.run("log list --json").json()["putts"].empty());
}

TEST_CASE("review tells what to give, and a slope that cannot be flatter than level",
          "[review_command]") {
    const CommandLine line;
    const auto nothing = line.run("review");
    CHECK(nothing.exit == Exit::not_understood);
    CHECK_THAT(nothing.err, Contains("which putt?") && Contains("--last 5"));
    // Started at its apex: the plan is named before anything that may have happened to it.
    const auto low =
        line.run("review 12ft --slope 2% --clock 3 --aim '8in right' --left '1ft past 10in left'");
    const auto plan = low.out.find("The plan itself was"), likely = low.out.find("Most likely");
    REQUIRE(plan != std::string::npos);
    CHECK((likely == std::string::npos || plan < likely));
    const auto wild = line.run("review 12ft --slope 1% --clock 3 --left '1ft past 8ft right'");
    CHECK(wild.out.find(" flatter than read") == std::string::npos);
}
