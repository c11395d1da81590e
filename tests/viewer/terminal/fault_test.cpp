/// What a machine may do to the program: no home, odd names and languages, folders that take
/// nothing.

#include <catch2/catch.hpp>
#include <clocale>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>

#include "tests/support/ordinary_user.hpp"
#include "tests/support/variable.hpp"
#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

constexpr const char* a_read = "read 12ft --slope 2% --clock 3 --json";

constexpr fs::perms may_read{0444}, may_enter{0555};

/// Every file below a folder, with what it holds.
std::map<fs::path, std::string> contents(const fs::path& folder) {
    std::map<fs::path, std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file()) {
            std::ifstream in(entry.path(), std::ios::binary);
            all[entry.path()] = std::string(std::istreambuf_iterator<char>(in), {});
        }
    return all;
}

}  // namespace

TEST_CASE("without a home putts are read; what is to be remembered says why it is not", "[fault]") {
    const CommandLine line;
    const Variable a("HOME", nullptr), b("XDG_CONFIG_HOME", nullptr), c("XDG_DATA_HOME", nullptr),
        d("XDG_STATE_HOME", nullptr);
    CHECK(line.run(a_read).exit == Exit::done);
    const auto logged = line.run("log 12ft --side rl --missed low");
    CHECK(logged.exit == Exit::outside_failed);
    CHECK_THAT(logged.err, Contains("neither XDG_DATA_HOME nor HOME is set"));
    const auto set = line.run("player set --stimp 10");
    CHECK(set.exit == Exit::outside_failed);
    CHECK_THAT(set.err, Contains("neither XDG_CONFIG_HOME nor HOME is set"));
}

TEST_CASE("a file's name need not be UTF-8", "[fault]") {
    const CommandLine line;
    const fs::path odd = line.home().path() / "gr\xff.toml";
    fs::copy_file(fs::path(DEWTRAIL_SOURCE_DIR) / "greens" / "bench.toml", odd);
    const auto checked = line.run("green check " + odd.string() + " --json");
    CHECK(checked.exit == Exit::done);
    CHECK_THAT(checked.json()["greens"][0]["file"].get<std::string>(), Contains("gr\uFFFD.toml"));
    CHECK(line.run("read --green " + odd.string() + " --hole middle --json").exit !=
          Exit::outside_failed);
    const auto missing = line.run("green show no\xfe.toml --json");
    CHECK(missing.exit == Exit::not_understood);
    CHECK(missing.json()["error"]["kind"] == "not_understood");
    const auto hole = line.run("green show " + odd.string() + " --hole \xff --json");
    CHECK(hole.exit == Exit::not_understood);
    CHECK_FALSE(hole.json()["error"]["remedy"].get<std::string>().empty());
}

TEST_CASE("a language with a decimal comma changes no figure", "[fault]") {
    const CommandLine line;
    const std::string in_words = "read 3.5m --slope 1.5% --clock 3";
    const std::string json = line.run(a_read).out, words = line.run(in_words).out;
    const TemporaryFolder languages;
    const std::string made = (languages.path() / "de_DE.UTF-8").string();
    REQUIRE(std::system(("localedef -i de_DE -f UTF-8 " + made).c_str()) == 0);
    const Variable where("LOCPATH", languages.path().c_str()), all("LC_ALL", "de_DE.UTF-8");
    REQUIRE(std::setlocale(LC_ALL, "") != nullptr);
    const char comma = *std::localeconv()->decimal_point;
    const std::string json_there = line.run(a_read).out, words_there = line.run(in_words).out;
    std::setlocale(LC_ALL, "C");
    CHECK(comma == ',');
    CHECK(json_there == json);
    CHECK(words_there == words);
}

TEST_CASE("a folder that takes nothing: one line, and nothing is lost", "[fault]") {
    const CommandLine line;
    REQUIRE(line.run("player set --stimp 9").exit == Exit::done);
    REQUIRE(line.run("log 12ft --side rl --missed low").exit == Exit::done);
    const fs::path home = line.home().path();
    const auto before = contents(home);
    for (const auto& entry : fs::recursive_directory_iterator(home))
        fs::permissions(entry, entry.is_directory() ? may_enter : may_read);
    fs::permissions(home, may_enter);
    {
        const OrdinaryUser user;
        const std::string file = line.path("p.png");
        for (const std::string& writes :
             std::vector<std::string>{"read 12ft --slope 2% --clock 3 --png " + file,
                                      "roll 12ft --slope 2% --clock 3 --png " + file,
                                      "green show bench --svg " + line.path("p.svg"),
                                      "player set --stimp 10", "log 8ft --side lr --missed high"}) {
            const auto told = line.run(writes);
            CAPTURE(writes, told.err);
            CHECK(told.exit == Exit::outside_failed);
            CHECK(told.out.empty());
            CHECK_THAT(told.err, Contains(home.string()));
        }
        CHECK(line.run(a_read).exit == Exit::done);
    }
    fs::permissions(home, fs::perms::owner_all);
    CHECK(contents(home) == before);
}

TEST_CASE("a file in a folder that may not be entered is not told as missing", "[fault]") {
    const CommandLine line;
    const fs::path folder = line.home().path() / "closed";
    fs::create_directory(folder);
    line.home().write("closed/green.toml", "format = 1\n");
    fs::permissions(folder, fs::perms::none);
    {
        const OrdinaryUser user;
        const std::string in = folder.string() + "/";
        for (const std::string& reads : std::vector<std::string>{
                 "green show " + in + "green.toml", "read --green " + in + "green.toml",
                 "green fit --levels " + in + "l.csv --hole a=1,1",
                 "log import " + in + "log.csv"}) {
            const auto told = line.run(reads);
            CAPTURE(told.err);
            CHECK(told.exit == Exit::not_understood);
            CHECK_THAT(told.err, Contains("cannot be read"));
            CHECK_THAT(told.err, Contains("permissions"));
        }
    }
    fs::permissions(folder, fs::perms::owner_all);
}

TEST_CASE("a device is never written over", "[fault]") {
    const CommandLine line;
    for (const std::string device : {"/dev/null", "/dev/full"}) {
        // By its own name, which no picture has, and by a link with a picture's name.
        const std::string png = line.path("p.png"), svg = line.path("p.svg");
        const std::string read = "read 12ft --slope 2% --clock 3 --png ";
        CHECK(line.run(read + device).exit == Exit::not_understood);
        fs::remove(png), fs::remove(svg);
        fs::create_symlink(device, png), fs::create_symlink(device, svg);
        CHECK(line.run(read + png).exit == Exit::outside_failed);
        CHECK(line.run("green show bench --svg " + svg).exit == Exit::outside_failed);
        CHECK(fs::is_character_file(device));
        CHECK(fs::read_symlink(png) == device);
    }
}
