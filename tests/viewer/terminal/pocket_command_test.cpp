#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/putt/kept_putt.hpp"

using namespace dewtrail;

namespace {

constexpr const char* before = "<p>before</p><script type=\"application/json\" id=\"lesson\">";
constexpr const char* after = "</script><p>after</p>";

/// A command line with a page to begin with, and what comes to stand in it.
struct Coach {
    Coach() { line.home().write("page.html", fmt::format("{}{{}}{}", before, after)); }

    Said pocket(const std::string& words) const {
        return line.run(fmt::format("pocket {} --page {} --out {} --force", words,
                                    line.path("page.html"), line.path("lesson.html")));
    }
    /// As the page's script reads it.
    nlohmann::json lesson() const {
        const std::string page = content_of(line.path("lesson.html"));
        REQUIRE(page.starts_with(before));
        REQUIRE(page.ends_with(after));
        const std::string text =
            page.substr(std::string(before).size(),
                        page.size() - std::string(before).size() - std::string(after).size());
        CHECK(text.find('<') == text.npos);
        return nlohmann::json::parse(text);
    }
    const CommandLine line;
};

}  // namespace

TEST_CASE("pocket writes the page with the putt in its place, and nothing else changed",
          "[pocket_command]") {
    const Coach coach;
    REQUIRE(coach.pocket("20ft --slope 1.5% --clock 4 --stimp 11").exit == Exit::done);
    const nlohmann::json lesson = coach.lesson();
    CHECK(lesson.size() == 1);

    // It is read back as that putt, by what the page reads it with.
    coach.line.home().write("putt.toml", lesson.at("putt.toml").get<std::string>());
    const auto putt = kept_putt(coach.line.path("putt.toml"), {});
    REQUIRE(putt);
    CHECK(std::abs(putt->distance_m - 20 * 0.3048) < 1e-12);
    CHECK(std::abs(putt->slope - 0.015) < 1e-12);
    CHECK(std::abs(putt->clock_h - 4) < 1e-12);
    CHECK(putt->stimp_ft == 11);
}

TEST_CASE("a green of one's own goes along with its tables, a shipped one is there already",
          "[pocket_command]") {
    const Coach coach;
    const std::string greens = DEWTRAIL_SOURCE_DIR "/greens/";
    std::string green = content_of(greens + "meadow.toml");
    green.replace(green.find("Meadow"), 6, "<Lawn>");
    coach.line.home().write("lawn.toml", green);
    for (const char* table : {"meadow-levels.csv", "meadow-heights.csv"})
        coach.line.home().write(table, content_of(greens + table));
    const std::string putt = " --hole flag --ball left";
    REQUIRE(coach.pocket("--green " + coach.line.path("lawn.toml") + putt).exit == Exit::done);
    const nlohmann::json lesson = coach.lesson();
    CHECK(lesson.at("greens/lawn.toml") == green);
    CHECK(lesson.at("greens/meadow-levels.csv") == content_of(greens + "meadow-levels.csv"));
    CHECK(lesson.at("greens/meadow-heights.csv") == content_of(greens + "meadow-heights.csv"));
    REQUIRE(coach.pocket("--green meadow" + putt).exit == Exit::done);
    CHECK(coach.lesson().size() == 1);
}

TEST_CASE("a set of putts and a demonstration go along", "[pocket_command]") {
    const Coach coach;
    const std::string set =
        "format = 1\n[[putt]]\nball = [3.0, -1.5]\nslope_percent = 2\nstimp = 10\n";
    coach.line.home().write("set.toml", set);
    REQUIRE(coach.pocket("--set " + coach.line.path("set.toml")).exit == Exit::done);
    CHECK(coach.lesson().at("set.toml") == set);
    REQUIRE(coach.pocket("--show uphill").exit == Exit::done);
    CHECK(coach.lesson().at("show") == "uphill");
    CHECK(coach.pocket("--show sideways").exit == Exit::not_understood);
    coach.line.home().write("set.toml", "format = 1\n[[putt]]\nball = [0, 0]\n");
    CHECK(coach.pocket("--set " + coach.line.path("set.toml")).exit == Exit::not_understood);
}

TEST_CASE("pocket replaces no file unasked, says how to build the page, and refuses what is none",
          "[pocket_command]") {
    const Coach coach;
    const CommandLine& line = coach.line;
    line.home().write("there.html", "mine");
    const std::string putt = "pocket 12ft --slope 2% --clock 3 --out ";
    CHECK(line.run(putt + line.path("there.html") + " --page " + line.path("page.html")).exit ==
          Exit::not_understood);
    CHECK(content_of(line.path("there.html")) == "mine");
    const Said missing =
        line.run(putt + line.path("new.html") + " --page " + line.path("none.html"));
    CHECK(missing.exit == Exit::not_understood);
    CHECK(missing.err.find("./viewer/run pocket") != std::string::npos);
    line.home().write("other.html", "<p>another page</p>");
    CHECK(line.run(putt + line.path("new.html") + " --page " + line.path("other.html")).exit ==
          Exit::not_understood);
    CHECK_FALSE(std::ifstream(line.path("new.html")).is_open());
}
