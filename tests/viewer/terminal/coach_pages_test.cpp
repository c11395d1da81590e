// What a coach hands out: today's green, comparisons with their misses, forms; nothing overprints.

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "greens/contours.hpp"
#include "greens/green_file.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "tests/viewer/terminal/on_page.hpp"
#include "viewer/paper/compare_page.hpp"
#include "viewer/paper/form_pages.hpp"
#include "viewer/paper/green_page.hpp"
#include "viewer/paper/ladder_page.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/paper/today_page.hpp"
#include "viewer/putt/solved.hpp"
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

/// A putt from each of these balls.
std::vector<Setup> putts_on(const std::string& name) {
    std::vector<Setup> putts;
    const Setup setup = on_green(name);
    for (const Vec2& ball : balls_on(setup)) {
        putts.push_back(setup);
        putts.back().ball = ball;
        putts.back().ball_name.clear();
    }
    return putts;
}

/// The edge of a green.
bool is_outline(const Line& line) {
    return line.closed && line.points.size() > 10;
}

}  // namespace

TEST_CASE("today's green tells of its balls what a read of them says", "[sheet]") {
    const CommandLine line;
    const Setup setup = on_green("meadow");
    const Picture page = today_page(putts_on("meadow"), 12 * metres_per_inch, Paper::a4, Units{});
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
        const Picture page = today_page(putts_on(name), 0.3, Paper::a4, Units{});
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
        const Picture page = today_page(putts_on(name), 0.3, Paper::pocket, Units{});
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

TEST_CASE("today's green tells each ball's finish", "[sheet]") {
    for (const std::string& name : shipped) {
        INFO(name);
        std::vector<Setup> putts = putts_on(name);
        putts[1].finish = Finish::past(0.075);
        const Picture page = today_page(putts, 0.3, Paper::a4, Units{});
        CHECK(overprinted(page, Paper::a4) == "");
        for (const char* words : {", a foot past", ", 3 in past"}) CHECK(says(page, words));
        for (Setup& putt : putts) putt.finish = Finish::hole_speed(1);
        CHECK(says(today_page(putts, 0.3, Paper::a4, Units{}), ", 3.3 ft/s at the hole"));
    }
}

TEST_CASE("today's green says why a ball has no line, and draws none", "[sheet]") {
    Setup ridge = on_green("meadow");
    ridge.hole_name = "ridge";
    ridge.hole = ridge.green->holes.at("ridge");
    ridge.stimp_ft = 18;
    ridge.finish = Finish::past(3);  // below the hole nothing stops so near
    std::vector<Setup> putts;
    for (const Vec2& ball : balls_on(ridge)) {
        putts.push_back(ridge);
        putts.back().ball = ball;
    }
    const Picture page = today_page(putts, 0.3, Paper::a4, Units{});
    CHECK(overprinted(page, Paper::a4) == "");
    int reads = 0, drawn = 0;
    for (const Setup& putt : putts) {
        const Solved solved = solve(putt, 0.3, Effort::settled);
        reads += solved.read.has_value();
        if (!solved.read) CHECK(says(page, trouble_of(solved, Units{}).words));
    }
    for (const Line& line : all_of<Line>(page)) drawn += line.colour == palette(Theme::dew).copper;
    CHECK(reads > 0);
    CHECK(reads < static_cast<int>(putts.size()));
    CHECK(drawn == reads);
}

TEST_CASE("no figure or name stands on the edge of a green", "[sheet]") {
    for (const std::string& name : shipped)
        for (const Paper paper : {Paper::a4, Paper::letter, Paper::pocket}) {
            INFO(name);
            CHECK(cut_word(today_page(putts_on(name), 0.3, paper, Units{}), is_outline) == "");
            Green green = *on_green(name).green;
            // Spots all along it, so near that a name has only some sides to stand on.
            const std::vector<Vec2>& corners = green.outline.corners();
            const Vec2 middle = box_round(corners).middle();
            for (std::size_t i = 0; i < corners.size(); i += 3)
                green.balls[fmt::format("spot {}", i)] =
                    corners[i] + 0.7 * (middle - corners[i]).normalized();
            const Picture page = green_page(green, green.holes.begin()->first, paper, Units{});
            CHECK(cut_word(page, is_outline) == "");
            int named = 0;
            for (const Text& text : all_of<Text>(page)) named += text.words.starts_with("spot ");
            if (paper != Paper::pocket) CHECK(named > 3);
        }
}

TEST_CASE("a page of a green says what its lines and marks mean", "[sheet]") {
    for (const std::string& name : shipped)
        for (const Paper paper : {Paper::a4, Paper::letter, Paper::pocket})
            for (const bool metric : {false, true}) {
                INFO(name << metric);
                const Setup setup = on_green(name);
                const Picture page =
                    green_page(*setup.green, setup.green->holes.begin()->first, paper, {metric});
                CHECK(overprinted(page, paper) == "");
                const std::string words = all_words(page);
                const auto from = words.find("Bold contours are ");
                REQUIRE(from != words.npos);
                const std::string rest = words.substr(from + 18);
                const std::string apart = rest.substr(0, rest.find(" apart"));
                // Half an inch or a centimetre, twice, five or ten times that, and every height a
                // multiple of it.
                std::vector<std::string> heights;
                for (const double times : {1, 2, 5, 10, 20, 50})
                    for (int k = 1; k < 40; ++k) {
                        const double apart_m = times * (metric ? 0.01 : 0.5 * metres_per_inch);
                        if (format_height(apart_m, {metric}) != "+" + apart) continue;
                        heights.push_back(format_height(k * apart_m, {metric}));
                        heights.push_back(format_height(-k * apart_m, {metric}));
                    }
                REQUIRE_FALSE(heights.empty());
                int told = 0;
                for (const Text& text : all_of<Text>(page)) {
                    if (text.colour != palette(Theme::dew).height_label) continue;
                    INFO(text.words);
                    CHECK(std::count(heights.begin(), heights.end(), text.words) == 1);
                    ++told;
                }
                if (paper != Paper::pocket) CHECK(told > 0);  // which is small for them
                CHECK_THAT(words,
                           Contains("thin ones halfway") && Contains("the drop lies downhill"));
                CHECK((words.find("White balls") != words.npos) == (paper != Paper::pocket));
            }
}

TEST_CASE("no word lies on another, whatever the green, the lengths and the paper", "[sheet]") {
    for (const Paper paper : {Paper::a4, Paper::letter})
        for (const bool metric : {false, true}) {
            const Units units{metric};
            for (const std::string& name : shipped) {
                INFO(name);
                CHECK(overprinted(today_page(putts_on(name), 0.3, paper, units), paper) == "");
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
