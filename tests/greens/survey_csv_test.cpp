#include "greens/survey_csv.hpp"

#include <catch2/catch.hpp>
#include <clocale>
#include <string>

#include "greens/input_error.hpp"
#include "tests/greens/temporary_folder.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

const std::string levels_header = "x_m,y_m,slope_percent,falls_toward_deg\n";
const std::string heights_header = "x_m,y_m,z_m\n";

TEST_CASE("levels become gradients", "[survey_csv]") {
    const TemporaryFolder folder;
    folder.write("l.csv", levels_header + "1.5,-2,3,90\n0,0,0,12\n");
    const auto levels = read_levels_csv(folder.path() / "l.csv", 0.002);
    REQUIRE(levels.size() == 2);
    CHECK(levels[0].at == Vec2(1.5, -2));
    CHECK_THAT((levels[0].gradient - Vec2(-0.03, 0)).norm(), WithinAbs(0, 1e-17));
    CHECK(levels[0].sd == 0.002);
    CHECK(levels[1].gradient.norm() == 0);
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

struct Broken {
    bool levels;
    std::string text;
    int line, column;
    std::string problem;
};

TEST_CASE("broken tables name the place and the cause", "[survey_csv]") {
    const TemporaryFolder folder;
    const std::string row = "1,2,3,4\n", high = "1,2,3\n";
    const std::vector<Broken> cases{
        {true, "", 1, 1, "no header line"},
        {true, "# nothing\n\n", 2, 1, "no header line"},
        {true, levels_header, 1, 1, "no readings"},
        {true, heights_header + row, 1, 9, "column 'z_m' where 'slope_percent' should be"},
        {false, levels_header + high, 1, 9, "column 'slope_percent' where 'z_m' should be"},
        {false, "x_m,y_m\n1,2\n", 1, 8, "z_m is missing"},
        {false, "x_m;y_m;z_m\n", 1, 1, "column 'x_m;y_m;z_m' where 'x_m' should be"},
        {false, "x_m,y_m,z_m,w\n", 1, 13, "4 columns, not 3"},
        {true, levels_header + row + "1,2,3\n", 3, 6, "falls_toward_deg is missing"},
        {true, levels_header + row + "# c\n1,2,3,4,5\n", 4, 9, "5 columns, not 4"},
        {true, levels_header + "1,2,25,4\n", 2, 5, "slope_percent 25 is outside 0 to 20"},
        {true, levels_header + "1,2,-3,4\n", 2, 5, "slope_percent -3 is outside 0 to 20"},
        {true, levels_header + "1,2,3,400\n", 2, 7, "falls_toward_deg 400 is outside"},
        {true, levels_header + "1,2,2%,4\n", 2, 5, "slope_percent '2%' is not a number"},
        {false, heights_header + "1,300,3\n", 2, 3, "y_m 300 is outside -200 to 200"},
        {false, heights_header + "1,2,nan\n", 2, 5, "z_m 'nan' is not a number"},
        {false, heights_header + "1, inf,3\n", 2, 4, "y_m 'inf' is not a number"},
        {false, heights_header + "1e999,2,3\n", 2, 1, "x_m '1e999' is not a number"},
        {false, heights_header + "0x10,2,3\n", 2, 1, "x_m '0x10' is not a number"},
        {false, heights_header + "1,,3\n", 2, 3, "y_m '' is not a number"},
        {false, heights_header + "1,2,\"3\"\n", 2, 5, "z_m '\"3\"' is not a number"},
        {false, heights_header + "1,2,3 4\n", 2, 5, "z_m '3 4' is not a number"},
        {false, heights_header + std::string("1,2,\0", 5) + "\n", 2, 5, "z_m ' ' is not a number"},
        {false, heights_header + "1,2," + std::string(500, '9') + "x\n", 2, 5, "z_m '99"},
    };
    for (const Broken& broken : cases) {
        CAPTURE(broken.text);
        folder.write("t.csv", broken.text);
        const auto path = folder.path() / "t.csv";
        try {
            broken.levels ? (void)read_levels_csv(path, 0.002)
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
