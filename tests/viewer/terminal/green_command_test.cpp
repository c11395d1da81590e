#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "greens/green_file.hpp"
#include "tests/support/putts.hpp"
#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

constexpr const char* plane_green =
    "name = \"Test\"\nstimp = 10\noutline = [[0, 0], [12, 0], [12, 9], [0, 9]]\n"
    "[holes]\nfront = [6, 3]\n[balls]\nleft = [2, 3]\n"
    "[surface]\nkind = \"plane\"\nslope_percent = 2\nfalls_toward_deg = 90\n";

// Levels of a plane that falls 2 % toward bearing 90, but for the fifth.
constexpr const char* levels =
    "x_m,y_m,slope_percent,falls_toward_deg\n0,0,2,90\n6,0,2,90\n6,6,2,90\n0,6,2,90\n3,3,3.5,90\n"
    "3,0,2,90\n6,3,2,90\n3,6,2,90\n0,3,2,90\n";

/// Columns of a line of UTF-8.
std::size_t columns(const std::string& line) {
    std::size_t count = 0;
    for (const char c : line) count += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return count;
}

}  // namespace

TEST_CASE("green check says of each file whether it can be used", "[green_command]") {
    const CommandLine line;
    line.home().write("good.toml", plane_green);
    line.home().write("bad.toml", "name = \"Bad\"\nstimp = 99\n");
    const std::string good = line.path("good.toml"), bad = line.path("bad.toml");

    const auto fine = line.run("green check " + good + " meadow");
    REQUIRE(fine.exit == Exit::done);
    REQUIRE(fine.out == good + ": ok, 1 hole, 1 ball, a plane\n" +
                            "meadow: ok, 3 holes, 5 balls, 22 levels and 6 heights\n");

    const auto mixed = line.run("green check " + bad + " " + good + " nowhere.toml");
    REQUIRE(mixed.exit == Exit::not_understood);
    REQUIRE_THAT(mixed.out, Contains("bad.toml:2:9: "));
    REQUIRE_THAT(mixed.out, Contains(good + ": ok"));
    REQUIRE_THAT(mixed.out, Contains("nowhere.toml"));

    const auto json = line.run("green check " + bad + " " + good + " --json");
    REQUIRE(json.exit == Exit::not_understood);
    REQUIRE(json.json()["greens"][0]["ok"] == false);
    REQUIRE(json.json()["greens"][0]["error"]["line"] == 2);
    REQUIRE(json.json()["greens"][1]["holes"] == 1);
}

TEST_CASE("every shipped green passes its check", "[green_command]") {
    std::string check = "green check";
    int files = 0;
    for (const auto& entry : fs::directory_iterator(oracle::greens_folder()))
        if (entry.path().extension() == ".toml") {
            check += " " + entry.path().string();
            ++files;
        }
    REQUIRE(files == 5);
    REQUIRE(dewtrail_says(check).exit == Exit::done);
}

TEST_CASE("green show tells a plane exactly", "[green_command]") {
    const CommandLine line;
    line.home().write("test.toml", plane_green);
    const auto told = line.run("green show " + line.path("test.toml") + " --json");
    REQUIRE(told.exit == Exit::done);
    const Json json = told.json();
    REQUIRE(json["green"]["size_x_m"] == 12);
    REQUIRE(json["fit"].is_null());
    REQUIRE_THAT(json["holes"][0]["slope"].get<double>(), WithinAbs(0.02, 1e-15));
    REQUIRE_THAT(json["holes"][0]["falls_toward_deg"].get<double>(), WithinAbs(90, 1e-9));
    // Four metres up the fall line of 2 % from the hole.
    REQUIRE_THAT(json["balls"][0]["height_m"].get<double>(), WithinAbs(0.08, 1e-12));
    REQUIRE_THAT(told.err, Contains("practice"));

    const auto text = line.run("green show " + line.path("test.toml") + " --units metric");
    REQUIRE_THAT(text.out, Contains("12.00 m by 9.00 m"));
    REQUIRE_THAT(text.out, Contains("hole  front  2 %"));
    REQUIRE_THAT(text.out, Contains("+8 cm"));
}

TEST_CASE("green show tells how well a fitted green is known", "[green_command]") {
    const auto told = dewtrail_says("green show meadow --json");
    const Json fit = told.json()["fit"];
    REQUIRE(fit["levels"] == 22);
    REQUIRE(fit["level_rms"].get<double>() > 0);
    REQUIRE(fit["slope_sd_worst"].get<double>() >= fit["slope_sd_median"].get<double>());
    const Json holes = told.json()["holes"];
    for (const Json& hole : holes) REQUIRE(hole["slope_sd"].get<double>() > 0);
}

TEST_CASE("contours in letters fit a terminal", "[green_command]") {
    for (const std::string green : {"bench", "meadow", "saddle", "stairs", "turtle"}) {
        const auto told = dewtrail_says("green show " + green + " --contours");
        REQUIRE(told.exit == Exit::done);
        std::istringstream lines(told.out);
        for (std::string line; std::getline(lines, line);) {
            INFO(line);
            REQUIRE(columns(line) <= 78);
        }
        REQUIRE_THAT(told.out, Contains("A line every"));
        REQUIRE_THAT(told.out, Contains("O "));
    }
}

TEST_CASE("contours as points lie at their height", "[green_command]") {
    const CommandLine line;
    line.home().write("test.toml", plane_green);
    const auto told = line.run("green show " + line.path("test.toml") + " --contours --json");
    REQUIRE(told.json()["contours"].size() > 3);
    const Json contours = told.json()["contours"];
    for (const Json& contour : contours)
        for (const Json& point : contour["points_m"])
            REQUIRE_THAT(-0.02 * (point[0].get<double>() - 6),
                         WithinAbs(contour["height_m"].get<double>(), 1e-6));
}

TEST_CASE("green show draws pictures", "[green_command]") {
    const CommandLine line;
    const std::string png = line.path("green.png"), svg = line.path("green.svg");
    REQUIRE(line.run("green show meadow --png " + png + " --svg " + svg).exit == Exit::done);
    const std::string bytes = content_of(png);
    REQUIRE(bytes.substr(1, 3) == "PNG");
    REQUIRE(static_cast<unsigned char>(bytes[18]) * 256 + static_cast<unsigned char>(bytes[19]) ==
            2560);  // the width in the header, two pixels to a unit
    REQUIRE_THAT(content_of(svg), Contains("<svg") && Catch::EndsWith("</svg>\n"));
    REQUIRE(line.home().count() == 2);  // and nothing beside them

    // The same green gives the same picture.
    REQUIRE(line.run("green show meadow --png " + line.path("again.png")).exit == Exit::done);
    REQUIRE(content_of(line.path("again.png")) == bytes);
}

TEST_CASE("a picture that cannot be written fails outside and leaves nothing", "[green_command]") {
    const CommandLine line;
    line.home().write("file", "kept");
    const auto told = line.run("green show bench --png " + line.path("file/a.png"));
    REQUIRE(told.exit == Exit::outside_failed);
    REQUIRE(told.out.empty());
    fs::create_directory(line.path("folder.png"));
    const auto folder = line.run("green show bench --png " + line.path("folder.png"));
    REQUIRE(folder.exit == Exit::outside_failed);
    REQUIRE(line.run("green show bench --png /dev/null").exit == Exit::not_understood);
    REQUIRE(line.home().count() == 2);
    REQUIRE(content_of(line.path("file")) == "kept");
}

TEST_CASE("green show refuses an unknown green or hole", "[green_command]") {
    const CommandLine line;
    const auto green = line.run("green show moonbase");
    REQUIRE(green.exit == Exit::not_understood);
    REQUIRE_THAT(green.err, Contains("meadow"));  // says which there are
    const auto hole = line.run("green show meadow --hole nineteenth");
    REQUIRE(hole.exit == Exit::not_understood);
    REQUIRE_THAT(hole.err, Contains("flag"));
}

TEST_CASE("green fit puts the reading that disagrees most first", "[green_command]") {
    const CommandLine line;
    line.home().write("levels.csv", levels);
    const auto told = line.run("green fit --levels " + line.path("levels.csv") + " --json");
    INFO(told.out << told.err);
    REQUIRE(told.exit == Exit::done);
    const Json json = told.json();
    REQUIRE(json["residuals"].size() == 9);
    REQUIRE(json["residuals"][0]["number"] == 5);
    REQUIRE(json["residuals"][0]["doubtful"] == true);
    REQUIRE(json["fit"]["slope_sd_median"].get<double>() > 0);
    REQUIRE(json["file"].is_null());
    REQUIRE(line.home().count() == 1);  // nothing is written without --out

    const auto text = line.run("green fit --levels " + line.path("levels.csv"));
    REQUIRE_THAT(text.out, Contains("level 5"));
    REQUIRE_THAT(text.out, Contains("read it again"));
}

TEST_CASE("green fit says how well a putt is known and where to read next", "[green_command]") {
    const CommandLine line;
    line.home().write("levels.csv", levels);
    const std::string fit =
        "green fit --levels " + line.path("levels.csv") + " --hole h=5,5 --ball b=1,1";
    const Json lines = line.run(fit + " --json").json()["lines"];
    REQUIRE(lines.size() == 1);
    REQUIRE(lines[0]["across_sd"].get<double>() > 0);
    const Json& next = lines[0]["next"];
    REQUIRE(next["along_sd"].get<double>() <= lines[0]["along_sd"].get<double>());
    REQUIRE(next["across_sd"].get<double>() < lines[0]["across_sd"].get<double>());

    // A level laid down there does what was said, give or take the scatter that it brings.
    line.home().write("more.csv", std::string(levels) + next["x_m"].dump() + "," +
                                      next["y_m"].dump() + ",2,90\n");
    const auto again = line.run("green fit --levels " + line.path("more.csv") +
                                " --hole h=5,5 --ball b=1,1 --json");
    REQUIRE(again.json()["lines"][0]["across_sd"].get<double>() <
            lines[0]["across_sd"].get<double>());
    REQUIRE_THAT(line.run(fit).out, Contains("b to h") && Contains("read next at ("));
}

TEST_CASE("a walk with a level that is off writes a green with the length of its pace",
          "[green_command]") {
    const CommandLine line;
    line.home().write("walk.csv",
                      "paces,walked_deg,up_percent,falls_left_percent\n"
                      "0,0,2deg/-1deg,0\n6,90,0,1.5deg\n6,180,-2deg/1deg,0\n6,270,0,-1.5deg\n");
    const auto told = line.run("green fit --levels " + line.path("walk.csv") + " --out " +
                               line.path("walk.toml"));
    INFO(told.out << told.err);
    REQUIRE(told.exit == Exit::done);
    REQUIRE_THAT(told.out, Contains("level's own error"));
    const Green green = load_green(line.path("walk.toml"));
    REQUIRE_THAT((green.survey->levels.at(2).at - Vec2(5.4, -5.4)).norm(), WithinAbs(0, 1e-9));
    REQUIRE_THAT(content_of(line.path("walk.toml")), Contains("pace_m = 0.9"));
}

TEST_CASE("green fit writes a green that reads back as it was fitted", "[green_command]") {
    const CommandLine line;
    line.home().write("levels.csv", levels);
    const std::string out = line.path("new.toml");
    const std::string fit = "green fit --levels " + line.path("levels.csv") +
                            " --spacing 1.5m --name 'A \"quoted\" name' --stimp 11"
                            " --hole front=2,1.5 --out " +
                            out;
    const auto told = line.run(fit + " --json");
    INFO(told.out << told.err);
    REQUIRE(told.exit == Exit::done);
    const Green green = load_green(out);
    REQUIRE(green.name == "A \"quoted\" name");
    REQUIRE(green.stimp_ft == 11);
    REQUIRE(green.holes.at("front") == Vec2(2, 1.5));
    REQUIRE(green.fit->lambda == told.json()["fit"]["lambda"].get<double>());
    REQUIRE(line.home().count() == 2);

    const std::string before = content_of(out);
    const auto again = line.run(fit);
    REQUIRE(again.exit == Exit::not_understood);
    REQUIRE_THAT(again.err, Contains("--force"));
    REQUIRE(content_of(out) == before);
    REQUIRE(line.run(fit + " --force").exit == Exit::done);
}

TEST_CASE("green fit never writes a green that could not be read", "[green_command]") {
    const CommandLine line;
    fs::create_directory(line.home().path() / "tables");
    fs::create_directory(line.home().path() / "tables/other");
    line.home().write("tables/levels.csv", levels);
    const auto apart = line.run("green fit --levels " + line.path("tables/levels.csv") + " --out " +
                                line.path("tables/other/new.toml"));
    REQUIRE(apart.exit == Exit::not_understood);
    REQUIRE_THAT(apart.err, Contains("beside its tables"));

    // Heights of a wall: the fit is steeper than any green may be.
    line.home().write("wall.csv", "x_m,y_m,z_m\n0,0,0\n6,0,3\n6,6,3\n0,6,0\n3,3,1.5\n");
    line.home().write("wall.toml.draft", "mine");
    const auto steep = line.run(
        {"green", "fit", "--heights", line.path("wall.csv"), "--out", line.path("wall.toml")});
    REQUIRE(steep.exit == Exit::not_understood);
    REQUIRE_THAT(steep.err, Contains("was not written"));
    REQUIRE_FALSE(fs::exists(line.path("wall.toml")));
    REQUIRE(content_of(line.path("wall.toml.draft")) == "mine");
    REQUIRE(line.home().count() == 3);
}

TEST_CASE("green fit refuses what it cannot use", "[green_command]") {
    const CommandLine line;
    line.home().write("levels.csv", levels);
    line.home().write("words.csv", "x_m,y_m,slope_percent,falls_toward_deg\n0,0,flat,90\n");
    line.home().write("row.csv", "x_m,y_m,z_m\n0,0,0\n1,0,0\n2,0,0\n3,0,0\n");
    const std::string table = line.path("levels.csv");
    const std::vector<std::string> bad{"green fit",
                                       "green fit --levels " + line.path("none.csv"),
                                       "green fit --levels " + line.path("words.csv"),
                                       "green fit --levels " + table + " --spacing 20m",
                                       "green fit --levels " + table + " --margin 0",
                                       "green fit --levels " + table + " --hole front",
                                       "green fit --levels " + table + " --hole front=1",
                                       "green fit --levels " + table + " --hole front=90,90",
                                       "green fit --levels " + table + " --hole a=1,1 a=2,2",
                                       "green fit --levels " + table + " --ball b=90,90",
                                       "green fit --levels " + table + " --hole a=1,1 --ball b=1,1",
                                       "green fit --levels " + table + " --stimp 40",
                                       "green"};
    for (const auto& arguments : bad) {
        const auto told = line.run(arguments);
        INFO(arguments << ": " << told.err);
        REQUIRE(told.exit == Exit::not_understood);
        REQUIRE(told.out.empty());
    }
    // Understood, but the readings do not answer it.
    const auto row = line.run("green fit --heights " + line.path("row.csv") + " --json");
    REQUIRE(row.exit == Exit::no_answer);
    REQUIRE(row.json()["error"]["kind"] == "no_fit");
}

TEST_CASE("names from a file cannot write to the terminal", "[green_command]") {
    const CommandLine line;
    line.home().write(
        "odd.toml",
        "name = \"Esc\\u001b[31m\"\nstimp = 10\n"
        "outline = [[0, 0], [40, 0], [40, 3], [0, 3]]\n[holes]\n\"a\\u0007b\" = [39, 1]\n"
        "[surface]\nkind = \"plane\"\nslope_percent = 0\nfalls_toward_deg = 0\n");
    const auto told = line.run(
        {"green", "show", line.path("odd.toml"), "--contours", "--svg", line.path("odd.svg")});
    REQUIRE(told.exit == Exit::done);
    REQUIRE(told.out.find('\x1b') == std::string::npos);
    REQUIRE(told.out.find('\a') == std::string::npos);
    REQUIRE_THAT(told.out, Contains("No contours: level within"));
}
