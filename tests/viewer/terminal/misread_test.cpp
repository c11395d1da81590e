// What a misread costs, as terminal and page tell it.

#include <catch2/catch.hpp>
#include <regex>

#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/paper/read_page.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/putt/solved.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

std::string one_spaced(const std::string& text) {
    return std::regex_replace(text, std::regex("\\s+"), " ");
}

/// The table's lines in the terminal.
std::string costs(const std::string& putt) {
    const std::string out = CommandLine().run("read " + putt).out;
    const auto at = out.find("A misread costs");
    return at == out.npos ? "" : one_spaced(out.substr(at));
}

}  // namespace

TEST_CASE("a misread costs aim and pace, both ways round", "[account]") {
    const std::string side_hill = costs("12ft --slope 2% --clock 3 --stimp 10");
    for (const char* part : {"½ % more slope: aim 19 in, play ", "½ % less slope: aim 11 in, play ",
                             "1 ft more stimp: aim 16 in, play ", "1 ft less stimp: aim 1"})
        CHECK_THAT(side_hill, Contains(part));
    const std::string straight = costs("12ft --slope 2% --clock 6 --stimp 10");
    CHECK_THAT(straight, Contains("½ % more slope: play ") && Contains("1 ft less stimp: play "));
    // On the level a slope may be seen that is not there: along the putt it costs pace.
    const std::string level = costs("12ft --stimp 10");
    CHECK_THAT(level, Contains("½ % more uphill: play ") && Contains("½ % more downhill: play ") &&
                          !Contains("stimp"));
    // Where a derivative says nothing, nobody tells it.
    const PuttRequest delicate{.distance = "45ft", .slope = "1.5%", .clock = "1:30", .stimp = "11"};
    const PlacedPutt plan = set_up(delicate, {});
    const Solved solved = solve(plan.setup, usual_past_m, Effort::settled);
    std::string page;
    for (const Shape& shape : read_page(plan.setup, solved, Paper::a4, {}))
        if (const auto* text = std::get_if<Text>(&shape)) page += text->words + " ";
    const std::string text = costs("45ft --slope 1.5% --clock 1:30 --stimp 11");
    CHECK_THAT(text, Contains("½ % more slope: play ") && Contains("1 ft more stimp: aim "));
    CHECK_THAT(page, Contains("½ % more slope play ") && Contains("1 ft more stimp aim "));
}

TEST_CASE("a misread across the fall line costs as well, in the player's words", "[account]") {
    // On a straight putt it is all aim, to either side as much.
    const std::string straight = costs("12ft --slope 2% --clock 6 --stimp 10");
    CHECK_THAT(straight, Contains("½ % more fall left: aim 2¾ in right, play ") &&
                             Contains("½ % more fall right: aim 2¾ in left, play "));
    // Where slope along the fall line moves the aim, that is told and no more; JSON has both.
    CHECK_THAT(costs("12ft --slope 2% --clock 3 --stimp 10"), !Contains("fall left"));
    CHECK_THAT(costs("12ft --stimp 10"),
               Contains("½ % more fall left: aim ") && Contains("½ % more fall right: aim "));
    const Json costs_of =
        CommandLine().run("read 12ft --slope 2% --clock 6 --json").json()["costs"];
    // Half a percent, and a percent.
    CHECK(costs_of["aim_m_per_cross_slope_percent"].get<double>() ==
          Approx(2 * 2.75 * metres_per_inch).epsilon(0.05));
    CHECK(std::abs(costs_of["level_putt_m_per_cross_slope_percent"].get<double>()) < 1e-3);
}
