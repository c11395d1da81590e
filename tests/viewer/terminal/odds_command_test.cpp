#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <catch2/catch.hpp>
#include <cmath>

#include "greens/input_error.hpp"
#include "physics/odds/odds.hpp"
#include "tests/support/putts.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/terminal/spread_options.hpp"

using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace dewtrail {
namespace {

const std::string twelve_feet = of_side_hill("odds", "--past 12in");

TEST_CASE("odds prints the finishes, the best choice and what the read costs", "[odds_command]") {
    const Said said = dewtrail_says(twelve_feet + " --spread middle");
    CHECK(said.exit == Exit::done);
    for (const char* part : {"12 ft, 2 %, ball at 3:00, stimp 10, a foot past", "three-putt",
                             "12 in  ", "3 ft  ", "Fewest putts", "Most holed", "This read costs"})
        CHECK_THAT(said.out, Contains(part));
    CHECK_THAT(said.err, Contains("For practice and teaching"));
}

TEST_CASE("odds as JSON", "[odds_command]") {
    const Json json = dewtrail_says(twelve_feet + " --spread tour --json").json();
    CHECK(json["finishes"].size() == 13);
    CHECK(json["spread"]["line_deg"] == find_spread("tour")->line_deg);
    CHECK(json["fewest_putts"]["putts"].get<double>() <=
          json["plain"]["putts"].get<double>() + 1e-3);
    CHECK(json["fewest_putts"]["saves_putts"].get<double>() >= -1e-3);
    CHECK(json["most_holed"]["holed"].get<double>() >= json["plain"]["holed"].get<double>() - 1e-3);
    CHECK_THAT(json["plain"]["past_m"].get<double>(), WithinAbs(0.3048, 1e-12));
}

TEST_CASE("a spread is a preset and what differs from it", "[odds_command]") {
    const Spread spread = plan_spread({.preset = "low",
                                       .line = "2deg",
                                       .pace = "20%",
                                       .pace_floor = {},
                                       .slope_read = "1%",
                                       .fall_read = "20"},
                                      {});
    CHECK(spread.line_deg == 2);
    CHECK_THAT(spread.pace, WithinAbs(0.2, 1e-12));
    CHECK(spread.pace_floor_m == find_spread("low")->pace_floor_m);
    CHECK_THAT(spread.slope_read, WithinAbs(0.01, 1e-12));
    CHECK(spread.fall_read_deg == 20);
    CHECK(plan_spread({}, {}).line_deg == Player().spread.line_deg);
}

TEST_CASE("a spread that is none is refused with what to do", "[odds_command]") {
    CHECK_THROWS_AS(plan_spread({.preset = "club"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.line = "30deg"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.line = "2ft"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.pace_floor = "3m"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.slope_read = "9%"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.fall_read = "50deg"}, {}), InputError);
}

TEST_CASE("where nothing stops odds say why", "[odds_command]") {
    const Said said =
        dewtrail_says("odds 10ft --slope 9% --clock 3 --stimp 12 --hole-speed 1.2m/s --json");
    CHECK(said.exit == Exit::no_answer);
    CHECK(said.json()["error"]["kind"] == "nothing_stops");
}

TEST_CASE("no spread and a huge one have odds", "[odds_command]") {
    const Json none =
        dewtrail_says(
            twelve_feet +
            " --line 0deg --pace-spread 0% --pace-floor 0in --slope-read 0% --fall-read 0 "
            "--json")
            .json();
    CHECK_THAT(none["plain"]["holed"].get<double>(), WithinAbs(1, 1e-6));
    const Json huge = dewtrail_says(twelve_feet + " --line 20deg --pace-spread 100% --json").json();
    CHECK(huge["plain"]["putts"].get<double>() > 2);
}

TEST_CASE("a map gives expected putts round the hole", "[odds_command]") {
    const Json json = dewtrail_says("odds --map --slope 2% --stimp 10 --spread low --json").json();
    CHECK(json["map"].size() == 33 * 33);  // half a metre apart, 8 m either way
    for (const Json& spot : json["map"]) REQUIRE(spot["putts"].get<double>() >= 1);
}

TEST_CASE("a map is drawn as a picture", "[odds_command]") {
    const CommandLine line;
    const std::string png = line.path("putts.png"), svg = line.path("putts.svg");
    const std::string map = "odds --map --slope 2% --stimp 10";
    const Said said = line.run(map + " --png " + png + " --svg " + svg);
    CHECK(said.exit == Exit::done);
    CHECK_THAT(said.out, Contains("picture") && Contains(png) && !Contains("x_m"));
    CHECK(content_of(png).substr(1, 3) == "PNG");
    CHECK_THAT(content_of(svg), Contains("<svg"));
    CHECK(line.run(map + " --png " + png + " --json").json()["png"] == png);
    CHECK(line.run(twelve_feet + " --png " + png).exit == Exit::not_understood);
    std::filesystem::create_directory(line.path("folder.png"));
    CHECK(line.run(map + " --png " + line.path("folder.png")).exit == Exit::outside_failed);
}

Said fit(const std::string& table) {
    const CommandLine line;
    line.home().write("putts.csv", table);
    return line.run("player fit " + line.path("putts.csv") + " --json");
}

/// Of 200 putts, how many a spread holes, a foot past: mean over the clock on 1.5 %, stimp 10.
int holed_of_200(double feet, const Spread& spread) {
    double sum = 0;
    for (const auto& [clock, share] :
         {std::pair(12.0, 0.125), {1.5, 0.25}, {3.0, 0.25}, {4.5, 0.25}, {6.0, 0.125}}) {
        const Putt putt = oracle::bare_putt(10, 0.015, feet, clock, oracle::inches_past(12));
        sum += share * stroke_odds_of(putt, oracle::read_of(putt), scatter_of(spread))->holed;
    }
    return static_cast<int>(std::lround(200 * sum));
}

TEST_CASE("a spread is fitted to putts made and missed", "[player_fit]") {
    const Spread middle = *find_spread("middle");
    std::string practice = "# practice\ndistance_ft,tries,holed\n";
    for (const double feet : {3.0, 5.0, 8.0, 15.0, 30.0})
        practice += fmt::format("{:.0f},200,{}\n", feet, holed_of_200(feet, middle));
    const Json table = fit(practice).json();
    CHECK(table["found"] != "nothing");
    const double error = table["line_error_deg"];
    CHECK(error < 0.2);  // some 10 % of the angle: 1000 putts, of which about a third dropped
    // Counts are whole: within one error of what they were made with.
    CHECK_THAT(table["spread"]["line_deg"].get<double>(), WithinAbs(middle.line_deg, error));
    CHECK_THAT(table["spread"]["slope_read"].get<double>() / middle.slope_read,
               WithinAbs(table["spread"]["line_deg"].get<double>() / middle.line_deg, 1e-9));
    for (const Json& row : table["rows"]) {
        const double tries = row["tries"], share = row["holed"].get<double>() / tries;
        const double deviation = std::sqrt(share * (1 - share) / tries);
        CHECK_THAT(row["expected"].get<double>(), WithinAbs(share, 3 * deviation));
    }
    // The same putts one by one, and in metres.
    std::string single = "distance_m,holed\n";
    for (int i = 0; i < 40; ++i) single += i % 2 ? "1.5,1\n" : "1.5,no\n";
    const Json rows = fit(single).json();
    CHECK(rows["rows"].size() == 1);
    CHECK(rows["rows"][0]["tries"] == 40);
    CHECK(rows["found"] == "line");  // one distance cannot tell the pace
    CHECK(fit("distance_m,holed\n1,1\n").json()["found"] == "nothing");
}

TEST_CASE("a bad row is named by line and column", "[player_fit]") {
    const auto refused_at = [](const std::string& table, const char* place) {
        const CommandLine line;
        line.home().write("putts.csv", table);
        const Said said = line.run("player fit " + line.path("putts.csv"));
        CHECK(said.exit == Exit::not_understood);
        CHECK_THAT(said.err, Contains(std::string("putts.csv") + place));
    };
    refused_at("distance_ft,tries,holed\n5,10,4\n5,10,eleven\n", ":3:6: ");
    refused_at("distance_ft,tries,holed\n5,10,11\n", ":2:6: ");
    refused_at("distance_ft,holed\n900,1\n", ":2:1: ");
    refused_at("distance_ft,holed\n9,1,1\n", ":2:5: ");
    refused_at("distance_ft,holed\n9,perhaps\n", ":2:3: ");
    refused_at("feet,in\n9,1\n", ":1:");
    refused_at("distance_ft,holed\n", ": ");  // the file as a whole
}

}  // namespace
}  // namespace dewtrail
