#include "greens/survey_csv.hpp"

#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <numbers>
#include <string>

#include "greens/green_writer.hpp"
#include "greens/input_error.hpp"
#include "tests/support/temporary_folder.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

const std::string levels_header = "x_m,y_m,slope_percent,falls_toward_deg\n";
const std::string along_header = "x_m,y_m,up_percent,falls_left_percent\n";
const std::string walk_header = "paces,walked_deg,slope_percent,falls_toward_deg\n";
const std::string heights_header = "x_m,y_m,z_m\n";

TEST_CASE("levels become gradients", "[survey_csv]") {
    const TemporaryFolder folder;
    folder.write("l.csv", levels_header + "1.5,-2,3,90\n0,0,0,12\n");
    const auto levels = read_levels_csv(folder.path() / "l.csv", 0.002, 0.9).readings;
    REQUIRE(levels.size() == 2);
    CHECK(levels[0].at == Vec2(1.5, -2));
    CHECK_THAT((levels[0].gradient - Vec2(-0.03, 0)).norm(), WithinAbs(0, 1e-17));
    CHECK(levels[0].sd == 0.002);
    CHECK(levels[1].gradient.norm() == 0);
}

/// One table after another, read from a file.
LevelTable levels_of(const std::string& text) {
    const TemporaryFolder folder;
    folder.write("l.csv", text);
    return read_levels_csv(folder.path() / "l.csv", 0.002, 0.8);
}

void check_same(const LevelReading& a, const Vec2& at, const Vec2& gradient) {
    CHECK_THAT((a.at - at).norm(), WithinAbs(0, 1e-12));
    CHECK_THAT((a.gradient - gradient).norm(), WithinAbs(0, 1e-12));
}

TEST_CASE("a level is read along and across, in any unit, turned end for end", "[survey_csv]") {
    const LevelTable along = levels_of(along_header + "1,2,-1.5,2\n0,0,1deg,-6mm/60cm\n");
    check_same(along.readings.at(0), {1, 2}, {0.02, -0.015});  // falls to the west and the south
    CHECK_FALSE(along.on_foot);
    CHECK(along.instrument_errors.empty());
    const double degree = std::tan(std::numbers::pi / 180);
    check_same(levels_of(along_header + "0,0,1deg,0\n").readings.at(0), {0, 0}, {0, degree});

    // 1.6 and -0.9 degrees: the ground has 1.25, the level shows 0.35 too much.
    const LevelTable pair = levels_of(levels_header + "0,0,1.6deg/-0.9deg,90\n1,1,6mm/60cm,0\n");
    check_same(pair.readings.at(0), {0, 0}, {-std::tan(1.25 * std::numbers::pi / 180), 0});
    check_same(pair.readings.at(1), {1, 1}, {0, -0.01});
    REQUIRE(pair.instrument_errors.size() == 1);
    CHECK_THAT(pair.instrument_errors[0],
               WithinAbs(std::tan(0.35 * std::numbers::pi / 180), 1e-12));
}

TEST_CASE("spots are walked from one to the next, and read the way one walks", "[survey_csv]") {
    const LevelTable walk = levels_of(walk_header + "0,0,2,180\n5,90,1,90\n10,180,1,90\n");
    CHECK(walk.on_foot);
    check_same(walk.readings.at(0), {0, 0}, {0, 0.02});
    check_same(walk.readings.at(1), {4, 0}, {-0.01, 0});
    check_same(walk.readings.at(2), {4, -8}, {-0.01, 0});
    // Walking east it rises ahead and falls to the left, which is north.
    const LevelTable read = levels_of("paces,walked_deg,up_percent,falls_left_percent\n5,90,1,2\n");
    check_same(read.readings.at(0), {4, 0}, {0.01, -0.02});
}

TEST_CASE("what is written as a table reads back as it was", "[survey_csv]") {
    const std::vector<LevelReading> levels{level_reading({1.234, -5}, 0.0213, 4.1),
                                           level_reading({0, 0}, 0, 0)};
    const auto back = levels_of(levels_text(levels)).readings;
    REQUIRE(back.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(back[i].at == levels[i].at);
        CHECK_THAT((back[i].gradient - levels[i].gradient).norm(), WithinAbs(0, 1e-5));
    }
}

TEST_CASE("comments, blank lines, spaces, CRLF and a byte order mark are fine", "[survey_csv]") {
    const TemporaryFolder folder;
    folder.write("h.csv",
                 "\xEF\xBB\xBF# by hand\r\n\r\n x_m , y_m,z_m\r\n 1, 2 ,0.25\r\n#no\r\n3,4,-1e-1");
    const auto heights = read_heights_csv(folder.path() / "h.csv", 0.003);
    REQUIRE(heights.size() == 2);
    CHECK(heights[0].at == Vec2(1, 2));
    CHECK(heights[0].height_m == 0.25);
    CHECK(heights[1].height_m == -0.1);
    CHECK(heights[1].sd_m == 0.003);
}

TEST_CASE("numbers are read alike in every locale", "[survey_csv]") {
    const TemporaryFolder folder;
    folder.write("h.csv", heights_header + "1.5,2.5,0.25\n");
    const std::string before = std::setlocale(LC_ALL, nullptr);
    for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "C"}) std::setlocale(LC_ALL, name);
    const auto heights = read_heights_csv(folder.path() / "h.csv", 0.003);
    std::setlocale(LC_ALL, before.c_str());
    CHECK(heights[0].at == Vec2(1.5, 2.5));
}

struct BrokenTable {
    bool levels;
    std::string text;
    int line, column;
    std::string problem;
};

TEST_CASE("broken tables name the place and the cause", "[survey_csv]") {
    const TemporaryFolder folder;
    const std::string row = "1,2,3,4\n", high = "1,2,3\n";
    const std::vector<BrokenTable> cases{
        {true, "", 1, 1, "no header line"},
        {true, "# nothing\n\n", 2, 1, "no header line"},
        {true, levels_header, 1, 1, "no readings"},
        {true, heights_header + row, 1, 9, "column 'z_m' where 'slope_percent' should be"},
        {false, levels_header + high, 1, 9, "column 'slope_percent' where 'z_m' should be"},
        {false, "x_m,y_m\n1,2\n", 1, 8, "z_m is missing"},
        {false, "x_m;y_m;z_m\n", 1, 1, "semicolons stand between the columns"},
        {false, "x_m,y_m,z_m,w\n", 1, 13, "4 columns, not 3"},
        {true, levels_header + row + "1,2,3\n", 3, 6, "falls_toward_deg is missing"},
        {true, levels_header + row + "# c\n1,2,3,4,5\n", 4, 9, "5 columns, not 4"},
        {true, levels_header + "1,2,25,4\n", 2, 5, "slope_percent 25 is outside 0 to 20"},
        {true, levels_header + "1,2,-3,4\n", 2, 5, "slope_percent -3 is outside 0 to 20"},
        {true, levels_header + "1,2,3,400\n", 2, 7, "falls_toward_deg 400 is outside"},
        {true, levels_header + "1,2,2x,4\n", 2, 5, "slope_percent '2x'"},
        {true, levels_header + "1,2,-2%,4\n", 2, 5, "slope_percent -2 is outside 0 to 20"},
        {true, levels_header + "1,2,25%,4\n", 2, 5, "slope_percent 25 % is outside 0-20 %"},
        {true, levels_header + "1,2,1deg/2deg,4\n", 2, 5,
         "slope_percent '1deg/2deg' has the same sign twice"},
        {true, levels_header + "1,2,6mm/0cm,4\n", 2, 5, "slope_percent '6mm/0cm'"},
        {true, walk_header + "3,90,1,2\n-3,90,1,2\n", 3, 1, "paces -3 is outside 0 to 200"},
        {true, walk_header + "200,90,1,2\n200,90,1,2\n", 3, 1, "the walk leads 360 m away"},
        {true, "paces,walked_deg,up_percent,right_percent\n", 1, 29,
         "column 'right_percent' where 'falls_left_percent' should be"},
        {true, along_header + "1,2,2%,30\n", 2, 8, "falls_left_percent 30 is outside"},
        {false, heights_header + "1,300,3\n", 2, 3, "y_m 300 is outside -200 to 200"},
        {false, heights_header + "1,2,nan\n", 2, 5, "z_m 'nan' is not a number"},
        {false, heights_header + "1, inf,3\n", 2, 4, "y_m 'inf' is not a number"},
        {false, heights_header + "1e999,2,3\n", 2, 1, "x_m '1e999' is not a number"},
        {false, heights_header + "0x10,2,3\n", 2, 1, "x_m '0x10' is not a number"},
        {false, heights_header + "1,,3\n", 2, 3, "y_m '' is not a number"},
        {false, heights_header + "1,2,\"3x\"\n", 2, 5, "z_m '3x' is not a number"},
        {false, heights_header + "1,2,\"3\n", 2, 5, "a quote is opened and never closed"},
        {false, heights_header + "1,2,3 4\n", 2, 5, "z_m '3 4' is not a number"},
        {false, heights_header + std::string("1,2,\0", 5) + "\n", 2, 5, "z_m ' ' is not a number"},
        {false, heights_header + "1,2," + std::string(500, '9') + "x\n", 2, 5, "z_m '99"},
    };
    for (const BrokenTable& broken : cases) {
        CAPTURE(broken.text);
        folder.write("t.csv", broken.text);
        const auto path = folder.path() / "t.csv";
        try {
            broken.levels ? (void)read_levels_csv(path, 0.002, 0.9)
                          : (void)read_heights_csv(path, 0.003);
            FAIL("not refused");
        } catch (const InputError& error) {
            const std::string place = path.string() + ":" + std::to_string(broken.line) + ":" +
                                      std::to_string(broken.column) + ": ";
            CHECK_THAT(error.what(), Catch::StartsWith(place + broken.problem));
            CHECK(std::string(error.what()).find('\n') == std::string::npos);
            CHECK(error.problem().size() < 200);
            CHECK_FALSE(error.remedy().empty());
        }
        CHECK(folder.count() == 1);
    }
}

TEST_CASE("a figure may stand in quotes", "[survey_csv]") {
    const TemporaryFolder folder;
    folder.write("t.csv", heights_header + "1, \"2\" ,\"3\"\n");
    CHECK(read_heights_csv(folder.path() / "t.csv", 0.003).front().height_m == 3);
}

TEST_CASE("no more rows are read than a survey can have", "[survey_csv]") {
    const TemporaryFolder folder;
    std::string text = heights_header;
    for (int i = 0; i < 200'000; ++i) text += "1,2,3\n";
    folder.write("t.csv", text);
    CHECK(read_heights_csv(folder.path() / "t.csv", 0.003).size() == 200'000);
    folder.write("t.csv", text + "1,2,3\n");
    CHECK_THROWS_WITH(read_heights_csv(folder.path() / "t.csv", 0.003),
                      Catch::Contains(":200002:1: more than 200,000 rows"));
}

}  // namespace
}  // namespace dewtrail
