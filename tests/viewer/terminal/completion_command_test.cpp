/// What is completed, asked of the shells themselves where they are installed.

#include <catch2/catch.hpp>

#include "tests/support/shell.hpp"
#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

std::string output_of(const std::string& command) {
    return run_in_shell(command + " 2>&1").written;
}

/// Which words bash offers after these.
std::string offered(const std::string& script, const std::string& words) {
    return output_of("bash -c 'source " + script + "; COMP_WORDS=(" + words +
                     "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _dewtrail; echo "
                     "\"${COMPREPLY[@]}\"'");
}

}  // namespace

TEST_CASE("bash completes commands, commands below them, and options", "[completion]") {
    const CommandLine line;
    line.home().write("complete", line.run("completion bash").out);
    const std::string script = line.path("complete");
    CHECK(offered(script, "dewtrail rea") == "read\n");
    CHECK(offered(script, "dewtrail read --stimp-s") == "--stimp-sure\n");
    CHECK(offered(script, "dewtrail read 12ft --slope 2% --cl") == "--clock\n");
    CHECK(offered(script, "dewtrail green f") == "fit\n");
    CHECK(offered(script, "dewtrail green fit --lev") == "--levels --level-sd\n");
    CHECK(offered(script, "dewtrail --vers") == "--version\n");
}

TEST_CASE("bash completes greens and the values of an option", "[completion]") {
    const CommandLine line;
    line.home().write("complete", line.run("completion bash").out);
    const std::string script =
        "<(cat " + line.path("complete") + "); PATH=$(dirname " DEWTRAIL_PROGRAM "):$PATH";
    CHECK(offered(script, "dewtrail read --green mead") == "meadow\n");
    CHECK(offered(script, "dewtrail green show turt") == "turtle\n");
    CHECK(offered(script, "dewtrail read --view r") == "room\n");
    CHECK(offered(script, "dewtrail practise --drill p") == "pace\n");
}

TEST_CASE("zsh and fish take what is made for them", "[completion]") {
    const CommandLine line;
    for (const std::string shell : {"zsh", "fish"}) {
        const auto told = line.run("completion " + shell);
        REQUIRE(told.exit == Exit::done);
        CHECK_THAT(told.out, Contains("stimp-sure"));
        line.home().write("complete", told.out);
        if (installed(shell)) CHECK(output_of(shell + " -n " + line.path("complete")) == "");
    }
    CHECK(line.run("completion tcsh").exit == Exit::not_understood);
}
