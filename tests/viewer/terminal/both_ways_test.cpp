// A putt that breaks both ways, as terminal, page, note and JSON tell it.

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/solved.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/words.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

// Over the saddle's pass: out to the left, back over the line, in from its right.
const std::vector<std::string> over_the_pass{"--green", "saddle", "--hole",
                                             "seat",    "--ball", "12.09,3.17"};

std::vector<std::string> typed(const std::string& command, std::vector<std::string> more = {}) {
    std::vector<std::string> words{command};
    words.insert(words.end(), over_the_pass.begin(), over_the_pass.end());
    words.insert(words.end(), more.begin(), more.end());
    return words;
}

}  // namespace

TEST_CASE("words of both ways name both sides, turns and the dearer half", "[words]") {
    CHECK(both_ways_words(-0.1, 0.02) ==
          "Breaks both ways: left to right, then right to left, uphill");
    CHECK(both_ways_words(0.1, 0.001) == "Breaks both ways: right to left, then left to right");
    CHECK(turn_words({2, -0.0762}, 6, {}) == "3 in left a third of the way");
    CHECK(turn_words({5.5, 0.1}, 6, {.metric = true}) == "10 cm right near the hole");
    CHECK(turn_words({1, 0.001}, 6, {}) == "just right near the ball");
    CHECK(half_costs_words(0.1016, 0.0381, {}) ==
          "the first half costs most: 4 in of aim for ½ % misread, the second 1½ in");
    CHECK(half_costs_words(-0.03, -0.09, {.metric = true}) ==
          "the second half costs most: 9 cm of aim for ½ % misread, the first 3 cm");
    CHECK(half_costs_words(0.1, 0.09, {.metric = true}) ==
          "both halves cost alike: 10 cm of aim for ½ % misread");
    CHECK(half_costs_words(NAN, 0.1, {}).empty());
}

TEST_CASE("a putt that breaks both ways is told so everywhere", "[account][turns]") {
    const auto said = CommandLine().run(typed("read"));
    INFO(said.out << said.err);
    const std::string heading = "Breaks both ways: left to right, then right to left";
    CHECK_THAT(said.out, Contains(heading));
    CHECK_THAT(said.out, Contains("Turns") && Contains(" left ") && Contains(", then ") &&
                             Contains("of aim for ½ % misread"));
    CHECK_THAT(said.out, !Contains("Apex"));

    const Json json = CommandLine().run(typed("read", {"--json"})).json();
    const Json& turns = json["turns"];
    REQUIRE(turns.is_object());
    CHECK(turns["first_offset_m"].get<double>() < -0.0127);
    CHECK(turns["second_offset_m"].get<double>() > 0.0127);
    CHECK(turns["first_along_m"].get<double>() < turns["bends_back_m"].get<double>());
    CHECK(turns["bends_back_m"].get<double>() < turns["second_along_m"].get<double>());
    CHECK(turns["first_aim_m_per_slope_percent"].get<double>() > 0);
    CHECK(CommandLine().run("read 12ft --slope 2% --clock 3 --json").json()["turns"].is_null());

    PuttRequest request;
    request.green = "saddle";
    request.hole = "seat";
    request.ball = "12.09,3.17";
    const PlacedPutt plan = set_up(request, {.green_folders = {DEWTRAIL_SOURCE_DIR "/greens"}});
    const Solved solved = solve(plan.setup, usual_past_m, Effort::settled);
    REQUIRE(solved.read);
    REQUIRE(solved.read->turns);
    CHECK_THAT(read_as_text(plan.setup, solved, {}),
               Contains(heading) && Contains("Turns ") && !Contains("Apex"));
    CHECK(break_marks(solved.putt, *solved.read, Trail(*solved.read), {}).empty());
}

TEST_CASE("a ball that starts on one side and comes in from the other is told so", "[turns]") {
    // Falls left at first, then right: aimed right of the hole, it runs along the left.
    const std::string putt =
        " 20ft --reading '0,left 2%' --reading '10ft,left 0%' --reading 'hole,right 2%'";
    const CommandLine line;
    const auto said = line.run("read" + putt);
    CHECK_THAT(said.out, Contains("Breaks both ways: right to left, then left to right"));
    CHECK_THAT(said.out, Contains(" right ") && Contains(", then 4 in left") && !Contains("Apex") &&
                             Contains("costs"));
    const Json json = line.run("read --json" + putt).json();
    CHECK(json["turns"]["first_offset_m"].get<double>() > 0);
    CHECK(json["turns"]["first_offset_m"].get<double>() < 0.0127);
    CHECK(json["turns"]["second_offset_m"].get<double>() < -0.0127);
}
