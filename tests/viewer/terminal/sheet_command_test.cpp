// Printed pages: what is on them, and whether they are true to scale on the rendered page.

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <iterator>
#include <sstream>

#include "tests/support/shell.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/paper/ladder_page.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/practice/log/log_columns.hpp"
#include "viewer/practice/log/logged_putt.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;

namespace {

bool has_poppler() {
    static const bool has = installed("pdftotext") && installed("pdftoppm");
    if (!has) WARN("poppler-utils are not installed: pages are not looked at");
    return has;
}

std::string words_on(const std::string& pdf) {
    return run_in_shell("pdftotext -layout '" + pdf + "' -").written;
}

/// A page as the printer sees it, grey.
class GreyPage {
  public:
    static constexpr double dots_per_inch = 300;

    GreyPage(const std::string& pdf, int page) {
        std::istringstream in(run_in_shell("pdftoppm -gray -r 300 -f " + std::to_string(page) +
                                           " -l " + std::to_string(page) + " '" + pdf + "'")
                                  .written);
        std::string magic;
        int most = 0;
        in >> magic >> width_ >> height_ >> most;
        in.get();
        grey_.assign(std::istreambuf_iterator<char>(in), {});
    }

    int width() const { return width_; }
    int height() const { return height_; }

    /// 0 white to 1 black, between the dots; place in units of the page.
    double ink(const Vec2& place) const {
        const Vec2 dot = place * dots_per_inch / units_per_inch - Vec2(0.5, 0.5);
        const int x = static_cast<int>(std::floor(dot.x())),
                  y = static_cast<int>(std::floor(dot.y()));
        const double fx = dot.x() - x, fy = dot.y() - y;
        return (1 - fy) * ((1 - fx) * at(x, y) + fx * at(x + 1, y)) +
               fy * ((1 - fx) * at(x, y + 1) + fx * at(x + 1, y + 1));
    }

  private:
    double at(int x, int y) const {
        if (x < 0 || y < 0 || x >= width_ || y >= height_) return 0;
        const auto grey =
            static_cast<unsigned char>(grey_.at(static_cast<std::size_t>(y) * width_ + x));
        return 1 - grey / 255.0;
    }

    int width_ = 0, height_ = 0;
    std::string grey_;
};

/// Where a ray from `centre` crosses the line within 2½ % of `radius`: its middle, by weight.
double line_along(const GreyPage& page, const Vec2& centre, double radius, double turn) {
    const Vec2 out(std::sin(turn), -std::cos(turn));
    double sum = 0, moment = 0;
    for (double r = 0.975 * radius; r < 1.025 * radius; r += 0.05) {
        const double ink = page.ink(centre + r * out);
        sum += ink;
        moment += ink * r;
    }
    REQUIRE(sum > 5);  // a hairline of 0.8 is 16 steps wide
    return moment / sum;
}

}  // namespace

TEST_CASE("ladder: four pages with aims, scale and caution", "[sheet]") {
    const CommandLine line;
    const std::string pdf = line.path("ladder.pdf");
    const auto said = line.run("sheet ladder --stimp 10 --out " + pdf);
    INFO(said.err);
    REQUIRE(said.exit == Exit::done);
    CHECK(said.out == pdf + "\n");
    CHECK(content_of(pdf).substr(0, 5) == "%PDF-");
    if (!has_poppler()) return;
    const std::string words = words_on(pdf);
    CHECK(std::count(words.begin(), words.end(), '\f') == 4);
    for (const char* part :
         {"Ladder for today, 1 % slope", "Ladder for today, 4 % slope", "stimp 10",
          "drawn 1 : ", "3 cups", "up the page is right", "at 1:30", "Rule 4.3a", "20 ft"})
        CHECK_THAT(words, Contains(part));
}

TEST_CASE("a ladder says of a putt what a read of it says", "[sheet]") {
    if (!has_poppler()) return;
    const CommandLine line;
    const std::string pdf = line.path("ladder.pdf");
    REQUIRE(line.run("sheet ladder 10ft --slope 2.5% --stimp 11 --out " + pdf).exit == Exit::done);
    const std::string words = words_on(pdf);
    for (const char* clock : {"1:30", "3:00", "4:30"}) {
        const Json read =
            line.run(std::string("read 10ft --slope 2.5% --stimp 11 --json --clock ") + clock)
                .json();
        CHECK_THAT(words, Contains(aim_short(read["aim"]["offset_m"], {})));
        CHECK_THAT(words, Contains(format_level_putt(read["start"]["level_putt_m"], {})));
    }
}

TEST_CASE("a ladder measures what it should on the rendered page", "[sheet]") {
    if (!has_poppler()) return;
    const CommandLine line;
    for (const std::string paper : {"a4", "letter"}) {
        const std::string pdf = line.path(paper + ".pdf");
        REQUIRE(line.run("sheet ladder 4ft 12ft 20ft --slope 2% --stimp 10 --paper " + paper +
                         " --out " + pdf)
                    .exit == Exit::done);
        Ladder ladder{.ground = {}, .distances_m = {}};
        for (const double feet : {4, 12, 20}) ladder.distances_m.push_back(feet * metres_per_foot);
        LadderPlace place;
        ladder_page(ladder, paper == "a4" ? Paper::a4 : Paper::letter, {}, &place);
        const GreyPage page(pdf, 1);
        const double inches_wide = paper == "a4" ? 210 / 25.4 : 8.5;
        CHECK_THAT(page.width(), WithinAbs(inches_wide * GreyPage::dots_per_inch, 1.0));
        // The uprights that mark the lengths, above the first rung: what lies between two of them.
        const auto upright = [&](double feet) {
            const double away = feet * metres_per_foot * units_per_m / place.scale;
            return line_along(page, place.top + Vec2(0, 2), away, M_PI / 2);
        };
        const double eight_feet = 8 * metres_per_foot * units_per_m / place.scale;
        INFO(paper << ", 1 : " << place.scale);
        CHECK_THAT((upright(20) - upright(12)) / eight_feet, WithinAbs(1, 0.005));  // as promised
        CHECK_THAT((upright(12) - upright(4)) / eight_feet, WithinAbs(1, 0.005));
    }
}

TEST_CASE("a read on paper says what the command line says", "[sheet]") {
    const CommandLine line;
    const std::string pdf = line.path("read.pdf");
    REQUIRE(line.run("sheet read 12ft --slope 2% --clock 3 --stimp 10 --out " + pdf).exit ==
            Exit::done);
    if (!has_poppler()) return;
    const std::string words = words_on(pdf);
    for (const char* part : {"Right to left", "12 ft, 2 %, ball at 3:00, stimp 10, a foot past",
                             "three cups out right", "drawn 1 : ", "level 12-footer", "½ % more"})
        CHECK_THAT(words, Contains(part));
}

TEST_CASE("a comparison on paper", "[sheet]") {
    const CommandLine line;
    const std::string pdf = line.path("compare.pdf");
    REQUIRE(line.run("sheet compare --show uphill --out " + pdf).exit == Exit::done);
    if (!has_poppler()) return;
    const std::string words = words_on(pdf);
    for (const char* part : {"Uphill and downhill", "Downhill", "9½ ft", "half a second longer",
                             "With the aims swapped", "drawn 1 : "})
        CHECK_THAT(words, Contains(part));
}

TEST_CASE("forms name the columns of their tables", "[sheet]") {
    const CommandLine line;
    const std::string survey = line.path("s.pdf"), results = line.path("r.pdf");
    REQUIRE(line.run("sheet survey --out " + survey).exit == Exit::done);
    REQUIRE(line.run("sheet results --out " + results + " --units metric").exit == Exit::done);
    if (!has_poppler()) return;
    for (const char* name : {"paces", "walked_deg", "slope_percent", "falls_toward_deg"})
        CHECK_THAT(words_on(survey), Contains(name));
    const std::string words = words_on(results);
    for (const LogColumn& column : log_columns) {
        CHECK_THAT(words, Contains(std::string(column.name)));
        // What the form asks for is what an import reads.
        const auto known = putt_columns();
        CHECK(std::find(known.begin(), known.end(), column.name) != known.end());
    }
    double share = 0;
    for (const LogColumn& column : log_columns) share += column.share;
    CHECK_THAT(share, WithinAbs(1, 1e-12));
}

TEST_CASE("a green for the pocket keeps the limits of the Rules", "[sheet]") {
    const CommandLine line;
    for (const std::string green : {"bench", "meadow", "saddle", "stairs", "turtle"}) {
        const std::string svg = line.path(green + ".svg");
        REQUIRE(line.run("sheet green " + green + " --round --out " + svg).exit == Exit::done);
        // 4¼ by 7 in, in units of 1/96 in.
        CHECK_THAT(content_of(svg), Contains("width=\"408px\" height=\"672px\"") ||
                                        Contains("width=\"408\" height=\"672\""));
    }
    const std::string pdf = line.path("pocket.pdf");
    REQUIRE(line.run("sheet green meadow --round --out " + pdf).exit == Exit::done);
    if (has_poppler()) CHECK_THAT(words_on(pdf), Contains("drawn 1 : 480"));
    CHECK(fitting_scale({1, 1}, {1000, 1000}, round_scale) >= 480);
    // What tells an aim is no green image: refused for a round.
    const auto ladder = line.run("sheet ladder --round --out " + line.path("x.pdf"));
    CHECK(ladder.exit == Exit::not_understood);
    CHECK_FALSE(fs::exists(line.path("x.pdf")));
}

TEST_CASE("today's green gives a long putt the finish that a read of it gets", "[sheet]") {
    if (!has_poppler()) return;
    const CommandLine line;
    const std::string pdf = line.path("today.pdf");
    REQUIRE(line.run("sheet today bench --hole back --ball below above --out " + pdf).exit ==
            Exit::done);
    const std::string words = words_on(pdf);
    CHECK_THAT(words, Contains("3 in past"));
    for (const char* ball : {"below", "above"}) {
        const Json read =
            line.run(std::string("read --green bench --hole back --json --ball ") + ball).json();
        CHECK_THAT(words, Contains(aim_words(read["aim"]["offset_m"], {})));
        CHECK_THAT(words,
                   Contains("play it as " + format_level_putt(read["start"]["level_putt_m"], {})));
    }
}

TEST_CASE("scales come from the list and fit", "[sheet]") {
    CHECK(fitting_scale({3.6576 * 2, 3.6576 * 2}, {590, 590}) == 48);
    CHECK(fitting_scale({0.1, 0.1}, {590, 590}) == 12);
    CHECK(fitting_scale({40, 1}, {590, 590}) <= 320);
    CHECK(fitting_scale({200, 1}, {200, 200}) >= 3780);
}

TEST_CASE("a page never takes the place of a file unasked", "[sheet]") {
    const CommandLine line;
    const std::string pdf = line.path("survey.pdf");
    line.home().write("survey.pdf", "mine");
    const auto refused = line.run("sheet survey --out " + pdf);
    CHECK(refused.exit == Exit::not_understood);
    CHECK_THAT(refused.err, Contains("--force"));
    CHECK(content_of(pdf) == "mine");
    CHECK(line.run("sheet survey --out " + pdf + " --force").exit == Exit::done);
    CHECK(content_of(pdf).substr(0, 5) == "%PDF-");
    // Two pages as pictures: numbered files, all looked at before the first is written.
    line.home().write("r-2.png", "mine");
    const std::string two = "sheet ladder --slope 1% 2% --out " + line.path("r.png");
    CHECK(line.run(two).exit == Exit::not_understood);
    CHECK_FALSE(fs::exists(line.path("r-1.png")));
    CHECK(line.run(two + " --force").exit == Exit::done);
    CHECK(content_of(line.path("r-1.png")).substr(1, 3) == "PNG");
    CHECK(content_of(line.path("r-2.png")).substr(1, 3) == "PNG");
}

TEST_CASE("sheet refuses what it cannot use", "[sheet]") {
    const CommandLine line;
    const std::string pdf = line.path("a.pdf");
    for (const std::string& arguments : std::vector<std::string>{
             "sheet", "sheet poster", "sheet survey --out " + line.path("a.doc"),
             "sheet survey --paper a3 --out " + pdf, "sheet ladder --slope 0% --out " + pdf,
             "sheet ladder 1ft 2ft 3ft 4ft 5ft 6ft --out " + pdf,
             "sheet green moonbase --out " + pdf, "sheet green meadow --hole 19th --out " + pdf,
             "sheet compare 12ft --out " + pdf, "sheet read --out " + pdf}) {
        INFO(arguments);
        CHECK(line.run(arguments).exit == Exit::not_understood);
    }
    CHECK(line.run("sheet survey --out /dev/null/a.pdf").exit == Exit::outside_failed);
    CHECK(line.run("sheet read 30ft --slope 9% --clock 12 --stimp 12 --out " + pdf).exit ==
          Exit::no_answer);
    CHECK_FALSE(fs::exists(pdf));
}

TEST_CASE("a page that is given no name is called after what is on it", "[sheet]") {
    const TemporaryFolder folder;
    const std::string here = folder.path().string();
    for (const auto& [typed, name] :
         {std::pair{"read 12ft --slope 2% --clock 3", "read-12ft-2pct-at-3.00.pdf"},
          std::pair{"read 2.5m --slope 1.5% --clock 7:20 --units metric",
                    "read-2.5m-1.5pct-at-7.20.pdf"},
          std::pair{"read --green meadow --hole flag --ball left", "read-Meadow-flag-left.pdf"},
          std::pair{"today meadow --hole flag", "today-Meadow-flag.pdf"},
          std::pair{"compare --show low", "compare-Most-misses-are-low.pdf"},
          std::pair{"survey", "survey.pdf"}}) {
        const ShellOutcome said = run_in_shell("cd " + here + " && HOME=" + here +
                                               " " DEWTRAIL_PROGRAM " sheet " + typed + " 2>&1");
        INFO(said.written);
        CHECK(said.code == 0);
        CHECK_THAT(said.written, StartsWith(name));
        CHECK(std::filesystem::exists(folder / name));
    }
}
