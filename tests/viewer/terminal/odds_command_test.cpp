#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>

#include "greens/input_error.hpp"
#include "tests/greens/temporary_folder.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/practise/player_fit.hpp"
#include "viewer/terminal/session.hpp"
#include "viewer/terminal/spread_options.hpp"

using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace dewtrail {
namespace {

struct Said {
    Exit exit;
    std::string out, err;
    Json json() const { return Json::parse(out); }
};

/// The command alone, so that the test does not wait for the whole program.
Said say(std::vector<std::string> arguments) {
    std::ostringstream out, err;
    std::istringstream in;
    Session session(out, err, in);
    CLI::App app;
    add_odds_command(app, session);
    std::reverse(arguments.begin(), arguments.end());
    app.parse(arguments);
    const Exit exit = session.run();
    return {exit, out.str(), err.str()};
}

const std::vector<std::string> twelve_feet{"odds", "12ft",    "--slope", "2%",     "--clock",
                                           "3",    "--stimp", "10",      "--past", "12in"};

std::vector<std::string> with(std::vector<std::string> arguments, std::vector<std::string> more) {
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

TEST_CASE("odds prints the finishes, the best choice and what the read costs", "[odds_command]") {
    const Said said = say(with(twelve_feet, {"--spread", "middle"}));
    CHECK(said.exit == Exit::done);
    for (const char* part : {"12 ft, 2 %, ball at 3:00, stimp 10, a foot past", "three-putt",
                             "12 in  ", "3 ft  ", "Fewest putts", "Most holed", "This read costs"})
        CHECK_THAT(said.out, Contains(part));
    CHECK_THAT(said.err, Contains("For practice and teaching"));
}

TEST_CASE("odds as JSON", "[odds_command]") {
    const Json json = say(with(twelve_feet, {"--spread", "tour", "--json"})).json();
    CHECK(json["finishes"].size() == 13);
    CHECK(json["spread"]["line_deg"] == 1.01);
    CHECK(json["fewest_putts"]["putts"].get<double>() <=
          json["plain"]["putts"].get<double>() + 1e-3);
    CHECK(json["fewest_putts"]["saves_putts"].get<double>() >= -1e-3);
    CHECK(json["most_holed"]["holed"].get<double>() >= json["plain"]["holed"].get<double>() - 1e-3);
    CHECK_THAT(json["plain"]["past_m"].get<double>(), WithinAbs(0.3048, 1e-12));
}

TEST_CASE("a spread is a preset and what differs from it", "[odds_command]") {
    const Spread spread = plan_spread(
        {.preset = "low", .line = "2deg", .pace = "20%", .pace_floor = {}, .slope_read = "1%"}, {});
    CHECK(spread.line_deg == 2);
    CHECK_THAT(spread.pace, WithinAbs(0.2, 1e-12));
    CHECK(spread.pace_floor_m == find_spread("low")->pace_floor_m);
    CHECK_THAT(spread.slope_read, WithinAbs(0.01, 1e-12));
    CHECK(plan_spread({}, {}).line_deg == Player().spread.line_deg);
}

TEST_CASE("a spread that is none is refused with what to do", "[odds_command]") {
    CHECK_THROWS_AS(plan_spread({.preset = "club"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.line = "30deg"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.line = "2ft"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.pace_floor = "3m"}, {}), InputError);
    CHECK_THROWS_AS(plan_spread({.slope_read = "9%"}, {}), InputError);
}

TEST_CASE("where nothing stops odds say why", "[odds_command]") {
    const Said said = say({"odds", "10ft", "--slope", "9%", "--clock", "3", "--stimp", "12",
                           "--hole-speed", "1.2m/s", "--json"});
    CHECK(said.exit == Exit::no_answer);
    CHECK(said.json()["error"]["kind"] == "nothing_stops");
}

TEST_CASE("no spread and a huge one have odds", "[odds_command]") {
    const Json none =
        say(with(twelve_feet, {"--line", "0deg", "--pace-spread", "0%", "--pace-floor", "0in",
                               "--slope-read", "0%", "--json"}))
            .json();
    CHECK_THAT(none["plain"]["holed"].get<double>(), WithinAbs(1, 1e-6));
    const Json huge =
        say(with(twelve_feet, {"--line", "20deg", "--pace-spread", "100%", "--json"})).json();
    CHECK(huge["plain"]["putts"].get<double>() > 2);
}

TEST_CASE("a map gives expected putts round the hole", "[odds_command]") {
    const Json json =
        say({"odds", "--map", "--slope", "2%", "--stimp", "10", "--spread", "low", "--json"})
            .json();
    CHECK(json["map"].size() == 33 * 33);  // half a metre apart, 8 m either way
    for (const Json& spot : json["map"]) REQUIRE(spot["putts"].get<double>() >= 1);
}

TEST_CASE("a map is drawn as a picture", "[odds_command]") {
    const TemporaryFolder folder;
    const std::string png = (folder.path() / "putts.png").string(),
                      svg = (folder.path() / "putts.svg").string();
    const std::vector<std::string> map{"odds", "--map", "--slope", "2%", "--stimp", "10"};
    const Said said = say(with(map, {"--png", png, "--svg", svg}));
    CHECK(said.exit == Exit::done);
    CHECK_THAT(said.out, Contains("picture") && Contains(png) && !Contains("x_m"));
    const auto bytes = [](const std::string& path) {
        std::ifstream in(path, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(in), {});
    };
    CHECK(bytes(png).substr(1, 3) == "PNG");
    CHECK_THAT(bytes(svg), Contains("<svg"));
    CHECK(say(with(map, {"--png", png, "--json"})).json()["png"] == png);
    CHECK_THROWS_AS(say(with(twelve_feet, {"--png", png})), InputError);
    CHECK_THROWS_AS(say(with(map, {"--png", folder.path().string()})), OutsideError);
}

std::string file_with(const std::string& text) {
    const auto path = std::filesystem::temp_directory_path() / "dewtrail-odds-command-test.csv";
    std::ofstream(path) << text;
    return path.string();
}

Json fit(const std::string& text) {
    std::ostringstream out, err;
    std::istringstream in;
    Session session(out, err, in);
    CLI::App app;
    session.add_common_options(app);
    app.parse("--json", false);
    run_player_fit(session, file_with(text));
    return Json::parse(out.str());
}

TEST_CASE("a spread is fitted to putts made and missed", "[player_fit]") {
    const Json table = fit(
        "# "
        "practice\ndistance_ft,tries,holed\n3,200,160\n5,200,104\n8,200,58\n15,200,22\n30,200,8\n");
    CHECK(table["found"] != "nothing");
    const double line = table["spread"]["line_deg"], error = table["line_error_deg"];
    CHECK((line > 0.8 && line < 3));
    CHECK((error > 0.01 && error < 0.6));
    // The same putts one by one, and in metres.
    std::string single = "distance_m,holed\n";
    for (int i = 0; i < 40; ++i) single += i % 2 ? "1.5,1\n" : "1.5,no\n";
    const Json rows = fit(single);
    CHECK(rows["rows"].size() == 1);
    CHECK(rows["rows"][0]["tries"] == 40);
    CHECK(rows["found"] == "line");  // one distance cannot tell the pace
    CHECK(fit("distance_m,holed\n1,1\n")["found"] == "nothing");
}

TEST_CASE("a bad row is named by line and column", "[player_fit]") {
    const auto where = [](const std::string& text) {
        try {
            fit(text);
        } catch (const InputError& e) {
            return std::pair(e.line(), e.column());
        }
        return std::pair(-1, -1);
    };
    CHECK(where("distance_ft,tries,holed\n5,10,4\n5,10,eleven\n") == std::pair(3, 6));
    CHECK(where("distance_ft,tries,holed\n5,10,11\n") == std::pair(2, 6));
    CHECK(where("distance_ft,holed\n900,1\n") == std::pair(2, 1));
    CHECK(where("distance_ft,holed\n9,1,1\n") == std::pair(2, 1));
    CHECK(where("distance_ft,holed\n9,perhaps\n") == std::pair(2, 3));
    CHECK(where("feet,in\n9,1\n").first == 1);
    CHECK(where("distance_ft,holed\n") == std::pair(0, 0));
}

}  // namespace
}  // namespace dewtrail
