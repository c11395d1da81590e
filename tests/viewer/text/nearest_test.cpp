#include "viewer/text/nearest.hpp"

#include <catch2/catch.hpp>

#include "viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::Contains;

TEST_CASE("the word that was most likely meant") {
    const std::vector<std::string> words = {"read", "ring", "roll", "review", "--slope", "--stimp"};
    CHECK(nearest("raed", words) == "read");
    CHECK(nearest("reviw", words) == "review");
    CHECK(nearest("--slop", words) == "--slope");
    CHECK(nearest("--stmip", words) == "--stimp");
    CHECK_FALSE(nearest("xylophone", words));
    CHECK_FALSE(nearest("--green", words));
}

TEST_CASE("what was not expected is told in the order it was typed, with what was meant") {
    CommandLine line;
    const auto option = line.run("read 12ft --slop 2%");
    CHECK(option.exit == Exit::not_understood);
    CHECK_THAT(option.err, Contains("not expected: --slop 2%") &&
                               Contains("Did you mean --slope? dewtrail read --help"));
    const auto command = line.run("raed 12ft");
    CHECK_THAT(command.err, Contains("not expected: raed 12ft") && Contains("Did you mean read?"));
}
