// Comparisons and ladders on paper: nothing lies on another, and every mark is named.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <catch2/catch.hpp>
#include <random>

#include "tests/viewer/terminal/command_line.hpp"
#include "tests/viewer/terminal/on_page.hpp"
#include "viewer/comparison/compare_request.hpp"
#include "viewer/comparison/compare_words.hpp"
#include "viewer/paper/compare_page.hpp"
#include "viewer/paper/ladder_page.hpp"
#include "viewer/terminal/compare_options.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

bool is_start_line(const Line& line) {
    return line.width == 1.1;
}

Comparison compared(const std::string& first, const std::vector<std::string>& changes,
                    const Units& units) {
    PuttDefaults defaults;
    defaults.units = units;
    std::vector<ComparedRequest> putts{parse_change(first)};
    for (const std::string& change : changes)
        putts.push_back(changed(putts[0], parse_change(change)));
    return compare(putts, defaults);
}

PrintedComparison side_by_side(const Comparison& comparison, const Units& units) {
    return {comparison, "Side by side", {comparison_sentence(comparison, units)}};
}

}  // namespace

TEST_CASE("no word of a comparison lies on another, whatever the putts", "[sheet]") {
    std::mt19937 random(7);
    const auto one_of = [&](const std::vector<std::string>& all) {
        return all[random() % all.size()];
    };
    for (int i = 0; i < 60; ++i) {
        const Units units{i % 2 == 1};
        const Paper paper = i % 3 ? Paper::a4 : Paper::letter;
        const std::string first = fmt::format(
            "{} slope {} clock {} stimp {} past {}",
            one_of({"4ft", "12ft", "21ft 8in", "38ft", "17.25m"}),
            one_of({"0.4%", "1.6%", "2.75%", "4%"}), one_of({"1", "2:45", "4:20", "8", "10:50"}),
            one_of({"8", "9.7", "11"}), one_of({"barely in", "1ft", "firm"}));
        std::vector<std::string> changes;
        for (std::size_t k = 0; k < 1 + random() % 3; ++k)
            changes.push_back(one_of({"aim apex", "aim 72%", "aim 3 cups left", "aim 95%",
                                      "clock 4:20, past firm", "clock 7:40, stimp 8",
                                      "slope 3.25%, clock 9:10, aim 60%", "9ft6in, aim centre",
                                      "stimp 12, past barely in, aim apex"}));
        INFO(first << " | " << fmt::format("{}", fmt::join(changes, " | ")) << units.metric);
        const Comparison comparison = compared(first, changes, units);
        const Picture page = compare_page(side_by_side(comparison, units), paper, units);
        CHECK(overprinted(page, paper) == "");
        for (const Text& text : all_of<Text>(page))  // names are set at one size
            if (text.face == Face::book_bold) CHECK(text.size == 16);
    }
}

TEST_CASE("labels of a comparison stand beside its start lines", "[sheet]") {
    for (const DemonstrationName& name : demonstration_names())
        for (const Paper paper : {Paper::a4, Paper::letter})
            for (const bool metric : {false, true}) {
                INFO(name.key << metric);
                const Units units{metric};
                const Picture page =
                    compare_page(printed(demonstrate(name.key, units)), paper, units);
                CHECK(overprinted(page, paper) == "");
                CHECK(cut_word(page, is_start_line) == "");
            }
}

TEST_CASE("a ready comparison on paper tells what its names stand for", "[sheet]") {
    const auto page = [](const char* name) {
        return compare_page(printed(demonstrate(name, Units{})), Paper::a4, Units{});
    };
    const Picture fast = page("fast"), uphill = page("uphill"), firm = page("firm");
    for (const char* words : {"stimp 8", "stimp 12"}) CHECK(says(fast, words));
    CHECK(says(fast, "12 ft, 2 %, ball at 3:00, a foot past"));
    for (const char* words : {"ball at 1:30", "ball at 4:30"}) CHECK(says(uphill, words));
    for (const char* words : {"3 in past", "24 in past"}) CHECK(says(firm, words));
}

TEST_CASE("the page about the apex marks it and tells the share of the break", "[sheet]") {
    const PrintedComparison shown = printed(demonstrate("apex", Units{}));
    const Picture page = compare_page(shown, Paper::a4, Units{});
    for (const char* words : {"apex", "57 %, played", "the whole break"}) CHECK(says(page, words));
    const ComparedPutt& putt = shown.comparison.putts[0];
    Vec2 ball = Vec2::Zero();
    for (const Line& line : all_of<Line>(page))
        if (is_start_line(line) && ball.norm() == 0) ball = line.points[0];
    const double px_per_m = units_per_m / scale_of(page);
    const Vec2 apex = ball + px_per_m * Vec2(shown.stretch * putt.read->apex->offset_m,
                                             -putt.read->apex->along_m);
    double nearest = 1e9;
    for (const Polygon& mark : all_of<Polygon>(page))
        if (mark.points.size() == 3)
            nearest = std::min(
                nearest, ((mark.points[0] + mark.points[1] + mark.points[2]) / 3 - apex).norm());
    CHECK(nearest < 1.5);  // a triangle's middle is not quite what it is drawn round
    // Other pages have no apex, and none that plays its whole break a bar.
    CHECK_FALSE(says(compare_page(printed(demonstrate("fast", Units{})), Paper::a4, Units{}),
                     "the whole break"));
}

TEST_CASE("an aim spot off the drawing is told where its line leaves", "[sheet]") {
    const Units units;
    const Comparison comparison =
        compared("30ft slope 6% clock 1 stimp 9 past 1ft", {"clock 11", "clock 6"}, units);
    const Picture page = compare_page(side_by_side(comparison, units), Paper::a4, units);
    int told = 0, heads = 0;
    for (const Text& text : all_of<Text>(page)) told += text.words.ends_with("), beyond the edge");
    for (const Polygon& head : all_of<Polygon>(page)) heads += head.points.size() == 3;
    CHECK(told == 2);
    CHECK((says(page, "13½ ft (1)") && says(page, "13½ ft (2)")));
    CHECK(heads == 2);
    const double width = size_of(Paper::a4).x();
    for (const Line& line : all_of<Line>(page))
        if (is_start_line(line))
            for (const Vec2& at : line.points) CHECK((at.x() > 0 && at.x() < width));
    CHECK(overprinted(page, Paper::a4) == "");
}

TEST_CASE("start lines are told apart in grey", "[sheet]") {
    const Comparison comparison =
        compared("12ft slope 2% clock 3 stimp 10 past 1ft", {"clock 2:30"}, Units{});
    const Picture page = compare_page(side_by_side(comparison, Units{}), Paper::a4, Units{});
    int lines = 0;
    for (const Line& line : all_of<Line>(page)) lines += is_start_line(line);
    CHECK(lines > 2 * 5);  // one whole, the other in dashes
    CHECK_FALSE(says(page, "(1)"));
    const Comparison three =
        compared("12ft slope 2% clock 3 stimp 10 past 1ft", {"clock 2:30", "clock 3:30"}, Units{});
    const Picture more = compare_page(side_by_side(three, Units{}), Paper::a4, Units{});
    for (const char* words : {"3 cups (1)", "3 cups (2)"}) CHECK(says(more, words));
}

TEST_CASE("a ladder uses its page, and words are not cut", "[sheet]") {
    struct Case {
        std::vector<double> feet;
        double slope, stimp_ft;
    };
    for (const Case& c : {Case{{4, 8, 12, 20}, 0.04, 10},
                          {{3, 6, 10, 15, 20}, 0.07, 9},
                          {{2, 10, 20, 30, 60}, 0.05, 12},
                          {{4, 8, 12, 20}, 0.01, 10}})
        for (const Paper paper : {Paper::a4, Paper::letter})
            for (const bool metric : {false, true}) {
                const Units units{metric};
                Ladder ladder{.ground = {}, .distances_m = {}};
                for (const double feet : c.feet)
                    ladder.distances_m.push_back(feet * metres_per_foot);
                ladder.ground.slope = c.slope;
                ladder.ground.stimp_ft = c.stimp_ft;
                const Picture page = ladder_page(ladder, paper, units);
                INFO(c.slope << (paper == Paper::a4 ? " A4" : " Letter") << metric
                             << " 1 : " << scale_of(page));
                // The longest putt is at least two fifths of the page wide.
                CHECK(ladder.distances_m.back() * units_per_m / scale_of(page) >
                      0.4 * (size_of(paper).x() - 2 * page_margin));
                CHECK(overprinted(page, paper) == "");
                CHECK(cut_word(page, [](const Line& line) {  // uprights
                          return line.width == 0.8 && line.points[0].x() == line.points[1].x();
                      }) == "");
                CHECK(cut_word(page, [](const Line& line) { return line.width == 1.2; }) == "");
                CHECK(says(page, format_distance(ladder.distances_m.front(), units)));
                CHECK_FALSE(says(page, format_distance(ladder.distances_m[0], units) + ", " +
                                           format_distance(ladder.distances_m[1], units) + ", "));
            }
}

TEST_CASE("a ladder of putts too fast to drop keeps to its page", "[sheet]") {
    Ladder ladder{.ground = {}, .distances_m = usual_rungs_m(false)};
    ladder.ground.finish = Finish::hole_speed(2);
    LadderPlace place;
    const Picture page = ladder_page(ladder, Paper::a4, Units{}, &place);
    int trails = 0;
    for (const Line& line : all_of<Line>(page)) {
        trails += line.width == 1.8;
        for (const Vec2& at : line.points) {
            CHECK(at.x() > page_margin - 1);
            if (line.width == 1.8) CHECK(at.x() > place.top.x() - 5);  // ends at the hole
        }
    }
    CHECK(trails == 12);
}

TEST_CASE("a ladder on which nothing stops is refused, and one page of several is left out",
          "[sheet]") {
    const CommandLine line;
    const std::string file = line.path("ladder.pdf");
    const auto none = line.run("sheet ladder --slope 9% --stimp 10 --out " + file);
    CHECK(none.exit == Exit::no_answer);
    CHECK_THAT(none.err, Contains("No line: on 9 % at stimp 10 nothing stops"));
    CHECK(lines_in(none.err) == 1);
    CHECK_FALSE(fs::exists(file));
    const auto some = line.run("sheet ladder --slope 2% 9% --stimp 10 --out " + file);
    CHECK(some.exit == Exit::done);
    CHECK_THAT(some.err, Contains("on 9 %") && Contains("Its page is left out."));
    CHECK(fs::exists(file));
}
