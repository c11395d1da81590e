#include <catch2/catch.hpp>
#include <fstream>
#include <string>

#include "greens/green_file.hpp"
#include "physics/base/ball_and_hole.hpp"
#include "support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::greens_folder;

template <typename Visit>
void visit_lattice(const Green& green, double step_m, Visit visit) {
    for (double x = -200; x <= 200; x += step_m)
        for (double y = -200; y <= 200; y += step_m)
            if (green.outline.inside_by({x, y}) > 0) visit(Vec2(x, y));
}

TEST_CASE("there are at least five greens", "[greens]") {
    CHECK(known_greens({greens_folder()}).size() >= 5);
}

TEST_CASE("every shipped green is a green to putt on", "[greens]") {
    const std::string name = GENERATE(from_range(known_greens({greens_folder()})));
    CAPTURE(name);
    const Green green = load_green(name, {greens_folder()});

    CHECK(green.holes.size() >= 2);
    CHECK(green.balls.size() >= 3);
    for (const auto& [hole, at] : green.holes) {
        CAPTURE(hole);
        // A hole is cut well inside, on ground that is neither flat nor steep.
        CHECK(green.outline.inside_by(at) >= 2);
        const double slope = green.surface->at(at.x(), at.y()).gradient().norm();
        CHECK(slope >= 0.005);
        CHECK(slope <= 0.04);
    }
    for (const auto& [ball, at] : green.balls) CHECK(green.outline.inside_by(at) > ball_radius_m);

    double steepest = 0;
    visit_lattice(green, 0.5, [&](const Vec2& p) {
        steepest = std::max(steepest, green.surface->at(p.x(), p.y()).gradient().norm());
    });
    CHECK(steepest <= 0.12);
}

TEST_CASE("every shipped green says that it is invented", "[greens]") {
    for (const auto& entry : std::filesystem::directory_iterator(greens_folder())) {
        const std::string kind = entry.path().extension().string();
        if (kind != ".toml" && kind != ".csv") continue;
        std::ifstream in(entry.path());
        std::string first_line;
        std::getline(in, first_line);
        CAPTURE(entry.path().filename().string(), first_line);
        CHECK(first_line.starts_with("#"));
        CHECK(first_line.find("nvented") != std::string::npos);
        CHECK(std::filesystem::file_size(entry.path()) < 60'000);
    }
}

TEST_CASE("the greens are what they are called", "[greens]") {
    const auto load = [](const std::string& name) { return load_green(name, {greens_folder()}); };

    SECTION("the bench is an even 2 % to the south") {
        const Vec2 gradient = load("bench").surface->at(3, 4).gradient();
        CHECK_THAT((gradient - Vec2(0, 0.02)).norm(), WithinAbs(0, 1e-15));
    }
    SECTION("the stairs' back tier is about 0.4 m up, gentle above and below") {
        const Green green = load("stairs");
        const double top = green.surface->at(12, 22).h, bottom = green.surface->at(12, 4).h;
        // The step itself is 0.42 m; 1.2 % over the 18 m between adds 0.22 m.
        CHECK_THAT(top - bottom, WithinAbs(0.64, 0.01));
        CHECK(green.surface->at(12, 13).gradient().norm() > 0.09);
    }
    SECTION("the turtle's middle is its highest ground") {
        const Green green = load("turtle");
        const double crest = green.surface->at(13, 12.5).h;
        for (const Vec2& corner : green.outline.corners())
            CHECK(green.surface->at(corner.x(), corner.y()).h < crest);
    }
    SECTION("the saddle curves both ways") {
        const SurfaceJet jet = load("saddle").surface->at(12, 13);
        CHECK(jet.hxx * jet.hyy - jet.hxy * jet.hxy < 0);
    }
    SECTION("the meadow was read by hand: its fit knows how little it knows") {
        const Green green = load("meadow");
        REQUIRE(green.fit);
        CHECK(green.survey->levels.size() == 22);
        const double sd = green.fit->slope_sd(green.holes.at("flag"), 0);
        // Between the level's own 0.2 % averaged over a few neighbours, and the level alone.
        CHECK(sd > 0.0008);
        CHECK(sd < 0.0025);
    }
}

}  // namespace
}  // namespace dewtrail
