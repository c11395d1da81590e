#include "greens/green_file.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "greens/input_error.hpp"
#include "tests/support/temporary_folder.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

const std::string head =
    "name = \"Try\"\n"
    "stimp = 10\n"
    "outline = [[0, 0], [10, 0], [10, 10], [0, 10]]\n"
    "[holes]\n"
    "front = [5, 5]\n";
const std::string plane = "[surface]\nkind = \"plane\"\nslope_percent = 2\nfalls_toward_deg = 90\n";

const std::string fitted = "[surface]\nkind = \"fitted\"\n";
const std::string three_levels =
    "x_m,y_m,slope_percent,falls_toward_deg\n1,1,2,90\n9,1,2,90\n5,9,2,90\n";

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    const std::size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), by);
}

TEST_CASE("a plane green", "[green_file]") {
    const TemporaryFolder folder;
    folder.write("try.toml", head + "[balls]\nleft = [1.5, 2]\n" + plane);
    const Green green = load_green(folder.path() / "try.toml");
    CHECK(green.name == "Try");
    CHECK(green.stimp_ft == 10);
    CHECK(green.outline.corners().size() == 4);
    CHECK(green.holes.at("front") == Vec2(5, 5));
    CHECK(green.balls.at("left") == Vec2(1.5, 2));
    CHECK_FALSE(green.fit);
    // 2 % falling east: down along +x.
    CHECK_THAT((green.surface->at(3, 4).gradient() - Vec2(-0.02, 0)).norm(), WithinAbs(0, 1e-16));
}

TEST_CASE("names in quotes and remarks are written in any language", "[green_file]") {
    const TemporaryFolder folder;
    folder.write("try.toml", replaced("\xEF\xBB\xBF# gr\u00FCn \" ' \"\"\"\n" + head, "front",
                                      "\"fr\u00F6nt \\\"#\"") +
                                 plane + "# \u6F22 'til the end");
    CHECK(load_green(folder.path() / "try.toml").holes.count("fr\u00F6nt \"#") == 1);
    folder.write("try.toml", replaced(head, "\"Try\"", "'''T\u00FCr 'y' '''") + plane);
    CHECK(load_green(folder.path() / "try.toml").name == "T\u00FCr 'y' ");
}

TEST_CASE("a fitted green keeps its survey and its fit", "[green_file]") {
    const TemporaryFolder folder;
    folder.write("l.csv", three_levels);
    folder.write("h.csv", "x_m,y_m,z_m\n2,2,0.5\n");
    folder.write("try.toml", head + fitted +
                                 "levels = \"l.csv\"\nheights = \"h.csv\"\nspacing_m = 2\n"
                                 "level_sd_percent = 0.3\nheight_sd_m = 0.01\n");
    const Green green = load_green(folder.path() / "try.toml");
    REQUIRE(green.fit);
    CHECK(green.survey->levels.size() == 3);
    CHECK_THAT(green.survey->levels[0].sd, WithinAbs(0.003, 1e-17));
    CHECK(green.survey->heights[0].sd_m == 0.01);
    CHECK(green.fit->surface->grid().spacing_m.x() == 2);
    CHECK_THAT((green.surface->at(5, 5).gradient() - Vec2(-0.02, 0)).norm(), WithinAbs(0, 1e-9));
    CHECK_THAT(green.surface->at(2, 2).h, WithinAbs(0.5, 1e-9));
}

struct BrokenGreen {
    std::string toml, place, problem;
};

/// The file, named as it was given, its place, and the start of what is wrong: one line.
void check_refused(const TemporaryFolder& folder, const BrokenGreen& broken) {
    CAPTURE(broken.toml);
    folder.write("try.toml", broken.toml);
    const std::size_t files = folder.count();
    const std::string path = (folder.path() / "try.toml").string();
    try {
        load_green(path);
        FAIL("not refused");
    } catch (const InputError& error) {
        const std::string line = error.what();
        CHECK_THAT(line, Catch::StartsWith(path + ":" + broken.place + ": " + broken.problem));
        CHECK(line.find('\n') == std::string::npos);
        CHECK_FALSE(error.remedy().empty());
        CHECK(error.remedy().find('\n') == std::string::npos);
    }
    CHECK(folder.count() == files);
}

TEST_CASE("broken green files name the place and the cause", "[green_file]") {
    const TemporaryFolder folder;
    folder.write("two.csv", "x_m,y_m,z_m\n0,0,1\n5,5,1\n");
    folder.write("line.csv", "x_m,y_m,z_m\n0,0,1\n5,5,1\n9,9,1\n");
    folder.write("cliff.csv", "x_m,y_m,z_m\n0,0,0\n5,5,9\n9,1,0\n1,9,0\n9,9,0\n");
    const std::string good = head + plane;
    const auto with = [&](const std::string& what, const std::string& by) {
        return replaced(good, what, by);
    };
    const std::string many_corners = [] {
        std::string list = "[[0, 0]";
        for (int i = 0; i < 1000; ++i) list += ", [" + std::to_string(i * 0.01) + ", 1]";
        return list + "]";
    }();
    const std::string square = "[[0, 0], [10, 0], [10, 10], [0, 10]]";
    const std::vector<BrokenGreen> cases{
        {with("stimp = 10", "stimp = = 10"), "2:9", ""},
        {with("stimp = 10", "stimp = [}"), "2:10", ""},
        {with("[holes]", "[[[holes]]]"), "4:3", ""},
        {with("stimp = 10", "stimp = " + std::string(5000, '[')), "2:265", ""},
        {with("stimp = 10", "stimp = 10\nstimp = 11"), "3:9", ""},
        {with("front", "fr\u00F6nt"), "5:3", ""},
        {with("stimp = 10", "stimp =\u00A010"), "2:8", ""},
        {with("name = \"Try\"", "name = 7"), "1:8", "name is not a text"},
        {with("name = \"Try\"\n", ""), "1:1", "the green has no 'name'"},
        {with("stimp = 10", "stimp = 25"), "2:9", "stimp 25 is outside 3 to 18"},
        {with("stimp = 10", "stimp = \"10ft\""), "2:9", "stimp is not a number"},
        {with("stimp = 10", "stimp = nan"), "2:9", "stimp is not a number"},
        {with("stimp = 10", "stmp = 10"), "2:1", "unknown key 'stmp' in the green"},
        {with("[10, 10]", "[10, 1000]"), "3:34", "outline corner 3 y 1000 is outside -200 to 200"},
        {with("[10, 10]", "[10, 10, 1]"), "3:29", "outline corner 3 is not a point"},
        {with("[10, 10]", "[10, inf]"), "3:34", "outline corner 3 y is not a number"},
        {with(square, "[[0, 0], [1, 1]]"), "3:11", "outline: needs at least three corners"},
        {with(square, "[[0, 0], [9, 9], [9, 0], [0, 9]]"), "3:11", "outline: its edges cross"},
        {with(square, "5"), "3:11", "outline is not a list of points"},
        {with(square, many_corners), "3:11", "outline has 1001 corners, the limit is 1000"},
        {with("[holes]\nfront = [5, 5]\n", ""), "1:1", "the green has no 'holes'"},
        {with("front = [5, 5]\n", ""), "4:1", "no hole is given"},
        {with("front = [5, 5]", "back = [5, 12]"), "5:8", "hole 'back' lies outside the outline"},
        {with("front = [5, 5]", "back = [5, 0.05]"), "5:8", "hole 'back' is 0.050 m from the edge"},
        {with("front = [5, 5]", "\"a\\nb\" = [5, 12]"), "5:10", "hole 'a b' lies outside"},
        {with("front = [5, 5]", "front = 5"), "5:9", "'front' is not a point"},
        {with("[surface]", "[balls]\nx = [-1, 5]\n[surface]"), "7:5", "ball 'x' lies outside"},
        {with("[holes]\nfront = [5, 5]", "holes = 3"), "4:9", "'holes' is not a table"},
        {head, "1:1", "the green has no 'surface'"},
        {with("kind = \"plane\"\n", ""), "6:1", "[surface] has no 'kind'"},
        {with("\"plane\"", "\"bowl\""), "7:8", "surface kind 'bowl' is not known"},
        {with("slope_percent = 2", "slope_percent = 25"), "8:17", "slope_percent 25 is outside"},
        {with("slope_percent = 2", "slope_percent = -1"), "8:17", "slope_percent -1 is outside"},
        {good + "levels = \"x.csv\"\n", "10:1", "unknown key 'levels' in [surface]"},
        {head + fitted, "7:8", "a fitted surface has neither levels nor heights"},
        {head + fitted + "levels = \"none.csv\"", "8:10", "levels 'none.csv' is not there"},
        {head + fitted + "heights = \"../x.csv\"", "8:11", "heights '../x.csv' leaves"},
        {head + fitted + "heights = \"/etc/hosts\"", "8:11", "heights '/etc/hosts' leaves"},
        {head + fitted + "heights = \"two.csv\"", "7:8", "a surface needs at least three readings"},
        {head + fitted + "heights = \"line.csv\"", "7:8", "all heights lie on one line"},
        {head + fitted + "heights = \"cliff.csv\"", "7:8", "the surface falls"},
        {head + fitted + "heights = \"cliff.csv\"\nspacing_m = 0.01", "9:13", "spacing_m 0.01 is"},
    };
    for (const BrokenGreen& broken : cases) check_refused(folder, broken);
}

TEST_CASE("a table that a link takes out of the folder is refused", "[green_file]") {
    const TemporaryFolder folder, elsewhere;
    elsewhere.write("l.csv", three_levels);
    std::filesystem::create_symlink(elsewhere.path() / "l.csv", folder.path() / "l.csv");
    check_refused(folder, {head + fitted + "levels = \"l.csv\"", "8:10", "levels 'l.csv' leaves"});
}

TEST_CASE("files that are none, or too large", "[green_file]") {
    const TemporaryFolder folder;
    const auto problem = [](const std::filesystem::path& path) {
        try {
            load_green(path);
        } catch (const InputError& error) {
            CHECK(error.line() == 0);
            CHECK(error.file() == path.string());
            return error.problem();
        }
        return std::string();
    };
    CHECK(problem(folder.path() / "none.toml") == "no such file");
    CHECK(problem(folder.path()) == "not a file");
    folder.write("big.toml", std::string((1 << 20) + 1, '#'));
    CHECK(problem(folder.path() / "big.toml") == "1048577 bytes, the limit is 1048576");
}

TEST_CASE("a green is found by its name", "[green_file]") {
    const TemporaryFolder first, second;
    first.write("try.toml", head + plane);
    second.write("try.toml", replaced(head, "Try", "Other") + plane);
    second.write("late.toml", head + plane);
    const std::vector<std::filesystem::path> folders{first.path(), first.path() / "none",
                                                     second.path()};
    CHECK(known_greens(folders) == std::vector<std::string>{"late", "try"});
    CHECK(load_green("try", folders).name == "Try");
    CHECK(load_green("try.toml", folders).name == "Try");
    CHECK(load_green("late", folders).file == second.path() / "late.toml");
    CHECK(load_green((second.path() / "try.toml").string(), folders).name == "Other");
    for (const std::string name : {"tri", "", "../try", "."}) {
        try {
            load_green(name, folders);
            FAIL("found " + name);
        } catch (const InputError& error) {
            CHECK(std::string(error.what()) == "no green '" + name + "'");
            CHECK(error.remedy() == "greens there are: late, try");
        }
    }
}

}  // namespace
}  // namespace dewtrail
