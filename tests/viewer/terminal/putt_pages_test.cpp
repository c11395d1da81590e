// Pages of a putt, of practice and of a lesson: all of it stands on them, and nothing overprints.

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "greens/green_file.hpp"
#include "support/random.hpp"
#include "tests/viewer/terminal/on_page.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/paper/progress_page.hpp"
#include "viewer/paper/read_page.hpp"
#include "viewer/practice/drill/lesson.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;

namespace {

const std::filesystem::path greens_folder = std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens";

/// None where the putt has no read.
std::optional<Picture> page_of(const PuttRequest& request, const Units& units, Paper paper) {
    const PuttDefaults defaults{.units = units, .green_folders = {greens_folder}};
    const Setup setup = set_up(request, defaults).setup;
    const Solved solved = solve(setup, 0.3, Effort::settled);
    if (!solved.read) return std::nullopt;
    return read_page(setup, solved, paper, units);
}

/// An answer to a whole read, so much of the break, on this day.
Answer answered(const std::string& day, double share, double lost) {
    Answer answer;
    answer.at = day + "T18:00:00";
    answer.category.side = BreakSide::right_to_left;
    answer.true_aim_m = 0.4;
    answer.aim_m = 0.4 * share;
    answer.break_share = share;
    answer.level_putt_m = 3;
    answer.pace_share = 1;
    answer.lost = lost;
    return answer;
}

}  // namespace

TEST_CASE("a page of a putt has its ticks, and they name the sides of its misses", "[sheet]") {
    PuttRequest long_one{.distance = "15ft", .slope = "4%", .clock = "12:30", .stimp = "11"};
    for (const Paper paper : {Paper::a4, Paper::letter})
        for (const bool metric : {false, true}) {
            const Picture page = page_of(long_one, {metric}, paper).value();
            CHECK(overprinted(page, paper) == "");
            for (const char* words : {"Tick each putt", "low", "high", "short"})
                CHECK(says(page, words));
        }
    const Picture straight =
        page_of({.distance = "12ft", .slope = "0%"}, Units{}, Paper::a4).value();
    for (const char* words : {"Tick each putt", "left", "right", "short"})
        CHECK(says(straight, words));
    oracle::Random random(7);
    const char* greens[] = {"bench", "meadow", "saddle", "stairs", "turtle"};
    int printed = 0;
    for (int i = 0; i < 30; ++i) {
        PuttRequest putt;
        if (random.chance(0.4)) {
            putt.green = greens[random.below(5)];
            const Green green = load_green(*putt.green, {greens_folder});
            putt.hole = green.holes.begin()->first;
            putt.ball = std::next(green.balls.begin(), random.below(green.balls.size()))->first;
        } else {
            putt.distance = fmt::format("{:.1f}m", random.log_between(0.5, 30));
            putt.slope = fmt::format("{:.1f}%", random.between(0, 4));
            putt.clock = fmt::format("{}:{:02}", 1 + random.below(12), 5 * random.below(12));
            putt.stimp = fmt::format("{:.1f}", random.between(8, 12));
        }
        INFO(i);
        const Paper paper = random.chance(0.5) ? Paper::a4 : Paper::letter;
        const auto page = page_of(putt, {random.chance(0.5)}, paper);
        if (!page) continue;
        ++printed;
        CHECK(says(*page, "Tick each putt"));
        CHECK(overprinted(*page, paper) == "");
    }
    CHECK(printed > 20);
}

TEST_CASE("the picture of a putt tells the slope as its head does", "[sheet]") {
    const Picture page =
        page_of({.distance = "12ft", .slope = "1.4%", .clock = "3"}, Units{}, Paper::a4).value();
    CHECK(says(page, "1.4 %"));
    CHECK_FALSE(says(page, "1½ %"));
}

TEST_CASE("a ball that hops over the hole is drawn to where its finish says", "[sheet]") {
    for (const char* speed : {"1.8m/s", "2.5m/s"})
        for (const bool metric : {false, true}) {
            const Units units{metric};
            const PuttRequest putt{
                .distance = "12ft", .slope = "2%", .clock = "3", .hole_speed = speed};
            const Solved solved = solve(set_up(putt, {.units = units}).setup, 0.3, Effort::settled);
            const Trail trail(*solved.read);
            const double left_m = (trail.at(trail.end_s()).at - solved.putt.hole).norm();
            REQUIRE(left_m < 0.8 * *solved.read->past_m);  // the hole takes some of its pace
            const Picture page = page_of(putt, units, Paper::a4).value();
            CHECK(overprinted(page, Paper::a4) == "");
            CHECK_THAT(all_words(page),
                       Catch::Matchers::Contains("hops over, " + format_distance(left_m, units) +
                                                 " left"));
        }
}

TEST_CASE("a head that is long goes on below, beside the scale", "[sheet]") {
    Green green = load_green("stairs", {greens_folder});
    green.name = "The long and winding practice green behind the old clubhouse by the second tee";
    Setup setup;
    put_on_green(setup, std::make_shared<const Green>(green));
    for (const Paper paper : {Paper::a4, Paper::letter})
        CHECK(overprinted(read_page(setup, solve(setup, 0.3, Effort::settled), paper, {}), paper) ==
              "");
}

TEST_CASE("a page of progress has its columns and its band, in the order of the days", "[sheet]") {
    std::vector<Answer> answers;
    for (const char* day : {"2026-05-04", "2026-05-11", "2026-04-20"})
        for (int i = 0; i < week_putts; ++i) {
            answers.push_back(answered(day, 0.6 + 0.01 * i, 0.05));
            answers.back().occasion = Occasion::week;
        }
    const Progress progress = progress_of(answers, {}, {}, {});
    for (std::size_t i = 1; i < progress.lost.size(); ++i)
        CHECK(progress.lost[i].day > progress.lost[i - 1].day);
    CHECK(progress.tests.size() == 3);
    const Picture page = progress_page(progress, "Anna", Paper::a4, {});
    CHECK(overprinted(page, Paper::a4) == "");
    CHECK(says(page, "11 May"));
    int filled = 0;  // a mesh would not be printed
    for (const Polygon& part : all_of<Polygon>(page)) filled += part.points.size() == 4;
    CHECK(filled == 3 + 1);
}

TEST_CASE("the mean of strokes lost begins where there are putts enough to say so", "[sheet]") {
    std::vector<Answer> answers;
    for (int i = 0; i < 9; ++i) {
        answers.push_back(answered("2026-05-04", 0.6 + 0.01 * i, i == 0 ? 0.0 : 0.1));
        const Picture page = progress_page(progress_of(answers, {}, {}, {}), "", Paper::a4, {});
        std::size_t longest = 0;
        for (const Line& line : all_of<Line>(page))
            if (line.colour == palette(Theme::dew).heather && line.width > 2 && !line.closed)
                longest = std::max(longest, line.points.size());
        INFO(answers.size());
        CHECK(says(page, "lower is better") == (answers.size() > 6));
        if (answers.size() > 6) CHECK(longest == answers.size() - 5);
        CHECK(says(page, "Part of the break you played") == (answers.size() >= 6));
    }
}

TEST_CASE("progress tells what changed at home from month to month", "[sheet]") {
    Measures measures;
    oracle::Random random(5);
    for (const auto& [month, spread] : {std::pair{"2026-05", 0.2}, std::pair{"2026-11", 0.05}})
        for (int day = 1; day <= 20; ++day) {
            const double called = 2 + 0.2 * day;
            measures.balls.push_back(
                {.at = fmt::format("{}-{:02}T18:00:00", month, day),
                 .called_m = called,
                 .stopped_m = called * (1 + spread * random.between(-1.7, 1.7))});
        }
    const Progress progress = progress_of({answered("2026-11-20", 0.7, 0.1)}, {}, measures, {});
    REQUIRE(progress.months.size() == 1);
    CHECK_THAT(progress.months.front(), Catch::Matchers::Contains("Your pace scattered") &&
                                            Catch::Matchers::Contains("more than chance"));
    CHECK(says(progress_page(progress, "", Paper::a4, {}), "Your pace scattered"));
}
