// What a misread costs, as terminal and page tell it.

#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "physics/roll/green_speed.hpp"
#include "support/random.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/paper/read_page.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/putt/solved.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

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
    // A third of a long putt's aim, on the page as well.
    const PuttRequest delicate{.distance = "45ft", .slope = "1.5%", .clock = "1:30", .stimp = "11"};
    const PlacedPutt plan = set_up(delicate, {});
    const Solved solved = solve(plan.setup, usual_past_m, Effort::settled);
    std::string page;
    for (const Shape& shape : read_page(plan.setup, solved, Paper::a4, {}))
        if (const auto* text = std::get_if<Text>(&shape)) page += text->words + " ";
    const std::string text = costs("45ft --slope 1.5% --clock 1:30 --stimp 11");
    CHECK_THAT(text, Contains("½ % more slope: aim 5½ ft, play ") &&
                         Contains("½ % less slope: aim 28 in, play ") &&
                         Contains("1 ft more stimp: aim "));
    CHECK_THAT(page,
               Contains("½ % more slope aim 5½ ft, play ") && Contains("1 ft more stimp aim "));
    // Where the steeper green would hardly hold a ball a derivative says nothing, and nobody tells
    // it.
    CHECK_THAT(costs("40ft --slope 5.5% --clock 1 --stimp 12"), !Contains("more slope: aim"));
}

TEST_CASE("what a misread is said to cost the aim is what the misread green asks for",
          "[account]") {
    const CommandLine line;
    oracle::Random random(29);
    const auto read_on = [&](double feet, double slope, double clock, double stimp) {
        return line
            .run(fmt::format("read {:.3f}ft --slope {:.4f}% --clock {} --stimp {:.2f} --json", feet,
                             slope, clock, stimp))
            .json();
    };
    int told = 0;
    while (told < 60) {
        const double feet = random.between(10, 80), stimp = random.between(8, 13);
        // No steeper than what holds a ball well with half a percent more.
        const double holds = 100 * resistance_of_stimp(stimp * metres_per_foot) / 1.3 - 0.5;
        const double slope = random.between(0.6, std::min(holds, 4.0));
        const double clock = 1.0 + static_cast<double>(random.below(12));
        const Json read = read_on(feet, slope, clock, stimp);
        if (read["aim"].is_null() || read["costs"]["aim_m_per_slope_percent"].is_null()) continue;
        const double aim = read["aim"]["offset_m"],
                     change = read["costs"]["aim_m_per_slope_percent"];
        for (const double more : {0.5, -0.5}) {
            const Json anew = read_on(feet, slope + more, clock, stimp);
            if (anew["aim"].is_null()) continue;
            const double asked = anew["aim"]["offset_m"];
            INFO(feet << " ft, " << slope << " %, " << clock << " h, stimp " << stimp);
            CHECK(std::abs(aim + more * change - asked) < 0.05 + std::abs(asked) / 7);
            ++told;
        }
    }
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
