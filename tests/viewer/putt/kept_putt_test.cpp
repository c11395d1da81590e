#include "viewer/putt/kept_putt.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "support/temporary_folder.hpp"

using namespace dewtrail;

namespace {

const std::string meadow =
    (std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens/meadow.toml").string();

std::shared_ptr<const Green> load(const std::string& file) {
    return std::make_shared<const Green>(load_green(file));
}

Setup kept_and_found(const Setup& setup) {
    const TemporaryFolder folder;
    keep_putt(folder.path() / "deep/putt.toml", setup);
    const auto found = kept_putt(folder.path() / "deep/putt.toml", load);
    REQUIRE(found);
    return *found;
}

}  // namespace

TEST_CASE("a putt on a plane is found again as it was left") {
    Setup setup;
    set_distance(setup, 7.25);
    set_clock(setup, 4.75);
    set_slope(setup, 0.031);
    set_stimp(setup, 11.5);
    set_finish(setup, Finish::hole_speed(0.9));
    set_face(setup, SlopeFace::along_across);
    const Setup found = kept_and_found(setup);
    CHECK(found.distance_m == setup.distance_m);
    CHECK(found.clock_h == setup.clock_h);
    CHECK(found.slope == setup.slope);
    CHECK(found.stimp_ft == 11.5);
    CHECK(found.face == SlopeFace::along_across);
    CHECK(found.finish.kind == Finish::Kind::hole_speed);
    CHECK(found.finish.value == 0.9);
}

TEST_CASE("three readings along the line are found again") {
    Setup setup;
    set_face(setup, SlopeFace::three_rows);
    set_row(setup, 0, {0.01, 0.02});
    set_row(setup, 2, {-0.015, 0.005});
    const Setup found = kept_and_found(setup);
    for (int i = 0; i < 3; ++i) {
        CHECK(row(found, i).up == row(setup, i).up);
        CHECK(row(found, i).falls_left == row(setup, i).falls_left);
    }
    CHECK(found.clock_h == setup.clock_h);
}

TEST_CASE("a putt on a green is found again, its hole by name") {
    const auto green = load(meadow);
    Setup setup;
    put_on_green(setup, green);
    place_ball(setup, setup.ball + Vec2(0.3, -0.2));
    const Setup found = kept_and_found(setup);
    CHECK(found.green->file == green->file);
    CHECK(found.ball == setup.ball);
    CHECK(found.hole == setup.hole);
    CHECK(found.hole_name == setup.hole_name);
}

TEST_CASE("a putt whose green has gone, or a damaged file, is no trouble") {
    const TemporaryFolder folder;
    const auto path = folder.path() / "putt.toml";
    CHECK_FALSE(kept_putt(std::nullopt, load));
    CHECK_FALSE(kept_putt(path, load));
    Setup setup;
    put_on_green(setup, load(meadow));
    keep_putt(path, setup);
    const auto gone = [](const std::string&) -> std::shared_ptr<const Green> {
        throw InputError("the green is not there", "");
    };
    CHECK_FALSE(kept_putt(path, gone));
    for (const char* text : {"distance_m = = 2", "distance_m = 1e9\n", "", "stimp = 10\n"}) {
        std::ofstream(path) << text;
        CHECK_FALSE(kept_putt(path, load));
    }
    keep_putt("/proc/nowhere/putt.toml", setup);  // best effort: no exception
}

TEST_CASE("a putt that makes no ground is set aside, and told") {
    const TemporaryFolder folder;
    const auto path = folder.path() / "putt.toml";
    const std::string rest =
        "distance_m = 3\nclock_h = 3\nslope = 0.02\nface = 'three rows'\nstimp = 10\n"
        "past_m = 0.3\n";
    for (const std::string& text :
         {rest + "up = [[0.2, 0], [0.2, 0]]\nright_up = [[0.2, 0], [0.2, 0]]\n",
          rest + "up = [[0.5, 0], [0.2, 0]]\nright_up = [[0.5, 0], [0.2, 0]]\n",
          std::string("distance_m = = 2")}) {
        CAPTURE(text);
        folder.write("putt.toml", text);
        std::string told;
        CHECK_FALSE(kept_putt(path, load, [&](const std::string& words) { told += words; }));
        CHECK_THAT(told, Catch::Contains(path.string()) && Catch::Contains(".damaged"));
        CHECK_FALSE(std::filesystem::exists(path));
    }
    CHECK(folder.count() == 3);  // each kept, none over another
}
