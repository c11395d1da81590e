// What a coach hands out: today's green, comparisons with their misses, forms; nothing overprints.

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "greens/green_file.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "tests/viewer/terminal/on_page.hpp"
#include "viewer/paper/compare_page.hpp"
#include "viewer/paper/form_pages.hpp"
#include "viewer/paper/ladder_page.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/paper/today_page.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const std::vector<std::string> shipped{"bench", "meadow", "saddle", "stairs", "turtle"};

Setup on_green(const std::string& name) {
    Setup setup;
    put_on_green(setup, std::make_shared<const Green>(
                            load_green(name, {fs::path(DEWTRAIL_SOURCE_DIR) / "greens"})));
    return setup;
}

std::vector<Vec2> balls_on(const Setup& setup) {
    return usual_balls(*setup.green, setup.hole);
}

}  // namespace

TEST_CASE("today's green tells of its balls what a read of them says", "[sheet]") {
    const CommandLine line;
    const Setup setup = on_green("meadow");
    const Picture page =
        today_page(setup, balls_on(setup), 12 * metres_per_inch, Paper::a4, Units{});
    for (const Vec2& ball : balls_on(setup)) {
        const Json read = line.run(fmt::format("read --green meadow --hole {} --ball {},{} --json",
                                               setup.hole_name, ball.x(), ball.y()))
                              .json();
        CHECK(says(page, aim_words(read["aim"]["offset_m"], Units{})));
        CHECK(says(page, format_level_putt(read["start"]["level_putt_m"], Units{})));
    }
}

TEST_CASE("today's green is true to scale, and its arrows point downhill", "[sheet]") {
    for (const std::string& name : shipped) {
        INFO(name);
        const Setup setup = on_green(name);
        const auto balls = balls_on(setup);
        REQUIRE(balls.size() == most_balls);
        const Picture page = today_page(setup, balls, 0.3, Paper::a4, Units{});
        const double px_per_m = units_per_m / scale_of(page);
        // A ball is a white disc on a black one, the number in it.
        std::vector<Vec2> places;
        for (const Disc& disc : all_of<Disc>(page))
            if (disc.radius == 8.8) places.push_back(disc.centre);
        REQUIRE(places.size() == balls.size());
        CHECK_THAT((places[1] - places[0]).norm(),
                   WithinAbs((balls[1] - balls[0]).norm() * px_per_m, 1e-6));
        const auto on_the_green = [&](const Vec2& px) {
            const Vec2 off = (px - places[0]) / px_per_m;
            return Vec2(balls[0] + Vec2(off.x(), -off.y()));
        };
        int arrows = 0;
        for (const Polygon& head : all_of<Polygon>(page)) {
            if (head.points.size() != 3) continue;
            ++arrows;
            const Vec2 way_px = head.points[0] - (head.points[1] + head.points[2]) / 2;
            const Vec2 at = on_the_green(head.points[1]);
            const Vec2 gradient = setup.green->surface->at(at.x(), at.y()).gradient();
            if (gradient.norm() < 0.01) continue;  // there it turns within one square
            const Vec2 down = -gradient.normalized();
            CHECK(Vec2(down.x(), -down.y()).dot(way_px.normalized()) > 0.8);
        }
        CHECK(arrows > 10);
    }
}

TEST_CASE("today's green for a round keeps the limits of the Rules and tells no line", "[sheet]") {
    for (const std::string& name : shipped) {
        const Setup setup = on_green(name);
        const Picture page = today_page(setup, balls_on(setup), 0.3, Paper::pocket, Units{});
        // 3/8 in to 5 yd is 1 : 480 (Rules of Golf, Interpretation 4.3a/1).
        CHECK(scale_of(page) >= 5 * 36 / 0.375);
        CHECK_FALSE(says(page, "play it as"));
        for (const Disc& disc : all_of<Disc>(page)) CHECK(disc.radius < 8);  // a hole, and no ball
        CHECK(overprinted(page, Paper::pocket) == "");
    }
    const CommandLine line;
    const std::string svg = line.path("t.svg");
    CHECK(line.run("sheet today meadow --round --ball left --out " + svg).exit ==
          Exit::not_understood);
    REQUIRE(line.run("sheet today meadow --round --out " + svg).exit == Exit::done);
    CHECK_THAT(content_of(svg), Contains("width=\"408px\" height=\"672px\"") ||
                                    Contains("width=\"408\" height=\"672\""));
    CHECK(line.run("sheet today meadow --hole 19th --out " + line.path("u.svg")).exit ==
          Exit::not_understood);
}

TEST_CASE("no word lies on another, whatever the green, the lengths and the paper", "[sheet]") {
    for (const Paper paper : {Paper::a4, Paper::letter})
        for (const bool metric : {false, true}) {
            const Units units{metric};
            for (const std::string& name : shipped) {
                INFO(name);
                const Setup setup = on_green(name);
                CHECK(overprinted(today_page(setup, balls_on(setup), 0.3, paper, units), paper) ==
                      "");
            }
            CHECK(overprinted(survey_form(paper, units), paper) == "");
            CHECK(overprinted(result_form(paper, units), paper) == "");
            for (const std::vector<double>& lengths :
                 std::vector<std::vector<double>>{{0.3, 0.6, 5.8, 6.1, 6.4},
                                                  {1, 1.05, 1.1, 1.15, 1.2},
                                                  {0.15, 40},
                                                  {12, 12},
                                                  {11.9, 11.95, 12, 20, 30}}) {
                Ladder ladder{.ground = {}, .distances_m = lengths};
                for (const double slope : {0.005, 0.02, 0.04}) {
                    ladder.ground.slope = slope;
                    INFO(lengths.front() << " " << lengths.back() << " " << slope);
                    CHECK(overprinted(ladder_page(ladder, paper, units), paper) == "");
                }
            }
        }
}

TEST_CASE("a comparison on paper is stretched as in the window, and says so", "[sheet]") {
    PrintedComparison page = printed(demonstrate("low", Units{}));
    std::vector<double> apart;
    for (const int stretch : {1, 2, 4}) {
        page.stretch = stretch;
        const Picture drawn = compare_page(page, Paper::a4, Units{});
        CHECK(says(drawn, ", sideways ×") == (stretch > 1));
        // The aim spot's diamond beside the hole: start lines end there.
        const double aim_m = *page.comparison.putts[0].read->aim_offset_m;
        double farthest = 0;
        for (const Line& line : all_of<Line>(drawn))
            if (line.points.size() == 2 && line.width == 1.1)
                farthest = std::max(farthest, line.points[1].x() - line.points[0].x());
        CHECK_THAT(farthest, WithinAbs(stretch * aim_m * units_per_m / scale_of(drawn), 1e-6));
    }
}

TEST_CASE("the page of low misses shows its balls with a legend", "[sheet]") {
    const Demonstration shown = demonstrate("low", Units{});
    const Picture page = compare_page(printed(shown), Paper::letter, Units{});
    int marks = 0;
    for (const Disc& disc : all_of<Disc>(page)) marks += disc.radius == 3.6;
    // Those that end within reach, and one of each in the legend.
    int near = 2;
    for (const PlayedPutts& played : shown.played)
        for (const PlayedStroke& stroke : played.strokes)
            near +=
                !stroke.outcome.holed && std::hypot(stroke.end.offset_m, stroke.end.along_m) < 1.2;
    CHECK(marks == near);
    CHECK(near > 50);
    CHECK(says(page, fmt::format("40 balls seeing 72 % of the break: {} holed, {} low",
                                 shown.played[1].holed(), shown.played[1].missed_low())));
}

TEST_CASE("the survey form has eighteen rows in paces and bearings", "[sheet]") {
    const Picture page = survey_form(Paper::a4, Units{true});
    int rows = 0;
    double right = 0;
    for (const Line& line : all_of<Line>(page))  // the table's hairlines
        if (line.width == 0.7 && line.points[0].y() == line.points[1].y() &&
            line.points[0].x() == page_margin && line.points[0].y() > 200) {
            ++rows;
            right = std::max(right, line.points[1].x());
        }
    CHECK(rows == 18 + 2);  // above the headings, above the first row, below each
    for (const char* words : {"paces", "toward", "falls toward", "a square is 1 m"})
        CHECK(says(page, words));
    CHECK(says(survey_form(Paper::a4, Units{false}), "a square is 3 ft"));
}
