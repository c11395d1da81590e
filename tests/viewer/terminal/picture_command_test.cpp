/// Pictures and films of reads and rolls, looked at as files.

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cstdint>
#include <filesystem>

#include "physics/read/told_stroke.hpp"
#include "tests/support/shell.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "tests/viewer/terminal/on_page.hpp"
#include "viewer/paper/roll_picture.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/text/aim.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// Width and height as the PNG's header has them (ISO/IEC 15948, 11.2.2); 0 where it is no PNG.
std::pair<unsigned, unsigned> png_size(const std::string& bytes) {
    if (bytes.size() < 24 || bytes.substr(1, 3) != "PNG") return {0, 0};
    const auto number = [&](std::size_t at) {
        unsigned n = 0;
        for (std::size_t i = at; i < at + 4; ++i) n = n << 8 | static_cast<std::uint8_t>(bytes[i]);
        return n;
    };
    return {number(16), number(20)};
}

std::string of_putt(const std::string& command, const std::string& more) {
    return command + " 12ft --slope 2% --clock 3 " + more;
}

}  // namespace

TEST_CASE("read draws plan, eye and room, each its own picture", "[picture_command]") {
    const CommandLine line;
    std::vector<std::string> pictures;
    for (const char* view : {"plan", "eye", "room"}) {
        const std::string file = line.path(fmt::format("{}.png", view));
        const auto told = line.run(of_putt("read", "--png " + file + " --view " + view));
        INFO(told.err);
        REQUIRE(told.exit == Exit::done);
        CHECK_THAT(told.out, Contains(file));
        pictures.push_back(content_of(file));
        CHECK(png_size(pictures.back()) == std::pair(2560u, 1600u));
    }
    CHECK(pictures[0] != pictures[1]);
    CHECK(pictures[0] != pictures[2]);
    const std::string again = line.path("again.png");
    line.run(of_putt("read", "--png " + again));
    CHECK(content_of(again) == pictures[0]);  // the same putt, the same picture
    line.run(of_putt("read", "--png " + again + " --theme dusk"));
    CHECK(content_of(again) != pictures[0]);
    CHECK(
        line.run(of_putt("read", "--png " + line.path("none/such/x.png") + " --view side")).exit ==
        Exit::not_understood);
}

TEST_CASE("a picture that cannot be written is told before anything else", "[picture_command]") {
    const CommandLine line;
    fs::create_directory(line.path("folder.png"));
    for (const char* command : {"read", "roll"}) {
        const auto told = line.run(of_putt(command, "--png " + line.path("folder.png")));
        CHECK(told.exit == Exit::outside_failed);
        CHECK(told.out.empty());
    }
}

TEST_CASE("roll and compare draw what they tell", "[picture_command]") {
    const CommandLine line;
    const std::string roll = line.path("roll.png"), page = line.path("page.png");
    REQUIRE(line.run(of_putt("roll", "--aim '8in right' --png " + roll)).exit == Exit::done);
    CHECK(png_size(content_of(roll)) == std::pair(1280u, 800u));
    REQUIRE(line.run(of_putt("compare", "--with 'clock 4:30' --png " + page)).exit == Exit::done);
    CHECK(png_size(content_of(page)).first > 1500);
    REQUIRE(line.run("compare --show apex --png " + page).exit == Exit::done);
}

TEST_CASE("an animation lasts as long as the roll", "[picture_command]") {
    const CommandLine line;
    const std::string gif = line.path("roll.gif");
    const auto named = line.run(of_putt("roll", "--animate " + line.path("roll.avi")));
    CHECK(named.exit == Exit::not_understood);
    CHECK_THAT(named.err, Contains("roll.avi is no name of an animation") && Contains(".gif"));

    line.home().write("roll.gif.part", "mine");
    const auto told = line.run(of_putt("roll", "--animate " + gif));
    CHECK(content_of(gif + ".part") == "mine");
    if (!installed("ffmpeg")) {
        CHECK(told.exit == Exit::outside_failed);
        CHECK_THAT(told.err, Contains("ffmpeg"));
        return;
    }
    INFO(told.err);
    REQUIRE(told.exit == Exit::done);
    CHECK(content_of(gif).substr(0, 6) == "GIF89a");
    CHECK(line.home().count() == 2);  // nothing is left beside it
    // Each frame of a GIF waits a count of hundredths (GIF89a, 23: Graphic Control Extension).
    const std::string bytes = content_of(gif);
    int frames = 0;
    double waits_s = 0;
    for (std::size_t at = bytes.find("\x21\xF9\x04"); at != bytes.npos;
         at = bytes.find("\x21\xF9\x04", at + 1)) {
        ++frames;
        waits_s += (static_cast<std::uint8_t>(bytes[at + 4]) +
                    256 * static_cast<std::uint8_t>(bytes[at + 5])) /
                   100.0;
    }
    const double rolls_s =
        line.run(of_putt("roll", "--json")).json()["entry"]["time_s"].get<double>();
    CHECK(frames > 20);
    CHECK(waits_s > rolls_s);
    CHECK(waits_s < rolls_s + 2);

    // A disk that takes nothing: one line, and nothing left.
    const auto full = line.run(of_putt("roll", "--animate " + gif + "/roll.gif"));
    CHECK(full.exit == Exit::outside_failed);
    CHECK_THAT(full.err, Contains("could not be saved"));
    CHECK(line.home().count() == 2);
}

TEST_CASE("the picture of a roll tells its stroke, and the slope as it was typed",
          "[picture_command]") {
    const PuttRequest request{.distance = "12ft", .slope = "1.4%", .clock = "3"};
    const PlacedPutt plan = set_up(request, {});
    ReadOptions options;
    options.keep_path = options.open_hole = true;
    const Read stroke = describe_stroke(
        plan.putt, told_stroke(plan.putt, 8 * metres_per_inch, 13 * metres_per_foot), options);
    const RollPicture roll(plan, stroke, "missed, high side", {}, Theme::dew);
    const Picture picture = roll.picture(roll.end_s());
    CHECK(says(picture, "fall line"));
    CHECK(says(picture, "1.4 %"));
    CHECK_FALSE(says(picture, "1½ %"));
    CHECK(
        says(picture, "aim " + aim_words(8 * metres_per_inch, {}) + ", level putt 12 ft: missed"));
    const TextWidth width = paper_width();
    for (const Text& text : all_of<Text>(picture)) {
        const Rect box = letters_of(text, width);
        CHECK((box.x >= 0 && box.right() <= RollPicture::width));
    }
}
