#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/putt/kept_putt.hpp"

using namespace dewtrail;

namespace {

constexpr const char* before = "<p>before</p><script type=\"text/plain\" id=\"start-putt\">";
constexpr const char* after = "</script><p>after</p>";

}  // namespace

TEST_CASE("pocket writes the page with the putt in its place, and nothing else changed",
          "[pocket_command]") {
    const CommandLine line;
    line.home().write("page.html", fmt::format("{}stimp = 9{}", before, after));
    const std::string command =
        fmt::format("pocket 20ft --slope 1.5% --clock 4 --stimp 11 --page {} --out {}",
                    line.path("page.html"), line.path("lesson.html"));
    REQUIRE(line.run(command).exit == Exit::done);
    const std::string page = content_of(line.path("lesson.html"));
    REQUIRE(page.starts_with(before));
    REQUIRE(page.ends_with(after));

    // What stands between is read back as that putt, by what the page reads it with.
    const std::size_t from = std::string(before).size();
    line.home().write("putt.toml",
                      page.substr(from, page.size() - from - std::string(after).size()));
    const auto putt = kept_putt(line.path("putt.toml"), {});
    REQUIRE(putt);
    CHECK(std::abs(putt->distance_m - 20 * 0.3048) < 1e-12);
    CHECK(std::abs(putt->slope - 0.015) < 1e-12);
    CHECK(std::abs(putt->clock_h - 4) < 1e-12);
    CHECK(putt->stimp_ft == 11);

    CHECK(line.run(command).exit == Exit::not_understood);  // it is there already
    CHECK(line.run(command + " --force").exit == Exit::done);
}

TEST_CASE("pocket says how to build the page, and refuses what is none", "[pocket_command]") {
    const CommandLine line;
    const std::string putt =
        fmt::format("pocket 12ft --slope 2% --clock 3 --out {}", line.path("lesson.html"));
    const Said missing = line.run(putt + " --page " + line.path("none.html"));
    CHECK(missing.exit == Exit::not_understood);
    CHECK(missing.err.find("./viewer/run pocket") != std::string::npos);
    line.home().write("other.html", "<p>another page</p>");
    CHECK(line.run(putt + " --page " + line.path("other.html")).exit == Exit::not_understood);
    CHECK_FALSE(std::ifstream(line.path("lesson.html")).is_open());
}
