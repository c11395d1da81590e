/// What a machine may do to the program: no home, odd names and languages, folders that take
/// nothing.

#include <unistd.h>

#include <catch2/catch.hpp>
#include <clocale>
#include <filesystem>
#include <sstream>

#include "tests/support/variable.hpp"
#include "tests/viewer/command_line.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

const std::vector<std::string> a_read{"read", "12ft", "--slope", "2%", "--clock", "3", "--json"};

}  // namespace

TEST_CASE("without a home putts are read; what is to be remembered says why it is not", "[fault]") {
    const CommandLine line;
    const Variable a("HOME", nullptr), b("XDG_CONFIG_HOME", nullptr), c("XDG_DATA_HOME", nullptr),
        d("XDG_STATE_HOME", nullptr);
    CHECK(line.run(a_read).exit == Exit::done);
    const auto logged = line.run({"log", "12ft", "--side", "rl", "--missed", "low"});
    CHECK(logged.exit == Exit::outside_failed);
    CHECK_THAT(logged.err, Contains("neither XDG_DATA_HOME nor HOME is set"));
    const auto set = line.run({"player", "set", "--stimp", "10"});
    CHECK(set.exit == Exit::outside_failed);
    CHECK_THAT(set.err, Contains("neither XDG_CONFIG_HOME nor HOME is set"));
}

TEST_CASE("a file's name need not be UTF-8", "[fault]") {
    const CommandLine line;
    const fs::path odd = line.home().path() / "gr\xff.toml";
    fs::copy_file(fs::path(DEWTRAIL_SOURCE_DIR) / "greens" / "bench.toml", odd);
    const auto checked = line.run({"green", "check", odd.string(), "--json"});
    CHECK(checked.exit == Exit::done);
    CHECK_THAT(checked.json()["greens"][0]["file"].get<std::string>(), Contains("gr\uFFFD.toml"));
    CHECK(line.run({"read", "--green", odd.string(), "--hole", "middle", "--json"}).exit !=
          Exit::outside_failed);
    const auto missing = line.run({"green", "show", "no\xfe.toml", "--json"});
    CHECK(missing.exit == Exit::not_understood);
    CHECK(missing.json()["error"]["kind"] == "not_understood");
    const auto hole = line.run({"green", "show", odd.string(), "--hole", "\xff", "--json"});
    CHECK(hole.exit == Exit::not_understood);
    CHECK_FALSE(hole.json()["error"]["remedy"].get<std::string>().empty());
}

TEST_CASE("a language with a decimal comma changes no figure", "[fault]") {
    const CommandLine line;
    const std::string plain = line.run(a_read).out;
    const std::string before = std::setlocale(LC_ALL, nullptr);
    for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8"})
        std::setlocale(LC_ALL, name);  // those that are installed
    const std::string said = line.run(a_read).out;
    std::setlocale(LC_ALL, before.c_str());
    CHECK(said == plain);
    const Variable language("LC_ALL", "de_DE.UTF-8");
    CHECK(line.run(a_read).out == plain);
}

TEST_CASE("a folder that takes nothing: one line, and nothing is lost", "[fault]") {
    if (geteuid() == 0) {
        WARN("the superuser may write anywhere: not tried");
        return;
    }
    const CommandLine line;
    const fs::path folder = line.home().path() / "closed";
    fs::create_directory(folder);
    fs::permissions(folder, fs::perms::owner_read | fs::perms::owner_exec);
    for (const char* command : {"read", "roll"}) {
        const auto told = line.run({command, "12ft", "--slope", "2%", "--clock", "3", "--png",
                                    (folder / "p.png").string()});
        CHECK(told.exit == Exit::outside_failed);
        CHECK(told.out.empty());
    }
    fs::permissions(folder, fs::perms::owner_all);
}

TEST_CASE("a device is never written over", "[fault]") {
    const CommandLine line;
    for (const char* device : {"/dev/null", "/dev/full"}) {
        CHECK(line.run({"read", "12ft", "--slope", "2%", "--clock", "3", "--png", device}).exit ==
              Exit::outside_failed);
        CHECK(line.run({"green", "show", "bench", "--svg", device}).exit == Exit::outside_failed);
        CHECK(fs::is_character_file(device));
    }
}
