#include "greens/contours.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

/// A round bowl: z = (x^2 + y^2) / 20. The contour of height z is a circle of radius sqrt(20 z).
class Bowl final : public Surface {
  public:
    SurfaceJet at(double x, double y) const override {
        SurfaceJet jet;
        jet.h = (x * x + y * y) / 20;
        jet.hx = x / 10;
        jet.hy = y / 10;
        return jet;
    }
};

/// z = x y / 10: level along both axes, so its contours are hyperbolas that must not touch.
class Saddle final : public Surface {
  public:
    SurfaceJet at(double x, double y) const override {
        SurfaceJet jet;
        jet.h = x * y / 10;
        jet.hx = y / 10;
        jet.hy = x / 10;
        return jet;
    }
};

const Box ten{{-5, -5}, {5, 5}};
const Outline square({{-3, -3}, {3, -3}, {3, 3}, {-3, 3}});
constexpr double on_its_height_m = 1e-6;  // the promise of the header

double length(const ContourLine& line) {
    double sum = 0;
    for (std::size_t i = 1; i < line.points.size(); ++i)
        sum += (line.points[i] - line.points[i - 1]).norm();
    return sum;
}

}  // namespace

TEST_CASE("contours of a plane are straight lines across the box", "[contours]") {
    const auto lines = contour_lines(Plane({0.02, 0.01}), ten, {-0.05, 0.0, 0.05}, 40);
    REQUIRE(lines.size() == 3);
    for (const ContourLine& line : lines) {
        REQUIRE_FALSE(line.closed());
        for (const Vec2& p : line.points)
            REQUIRE_THAT(0.02 * p.x() + 0.01 * p.y(), WithinAbs(line.height_m, on_its_height_m));
        const double straight = (line.points.front() - line.points.back()).norm();
        REQUIRE_THAT(length(line), WithinAbs(straight, 1e-6));  // tolerance over slope, both ends
    }
    REQUIRE_THAT(length(lines[1]), WithinAbs(10 * std::sqrt(1.25), 1e-6));
}

TEST_CASE("contours of a bowl are closed circles", "[contours]") {
    const auto lines = contour_lines(Bowl(), ten, {0.2, 0.8}, 64);
    REQUIRE(lines.size() == 2);
    for (const ContourLine& line : lines) {
        REQUIRE(line.closed());
        const double radius = std::sqrt(20 * line.height_m);
        for (const Vec2& p : line.points)
            REQUIRE_THAT(p.squaredNorm() / 20, WithinAbs(line.height_m, on_its_height_m));
        // A polygon of chords up to a cell's diagonal c long is shorter by about c^2/(24 r^2).
        REQUIRE(length(line) < 2 * std::numbers::pi * radius);
        REQUIRE(length(line) > 2 * std::numbers::pi * radius * 0.998);
    }
}

TEST_CASE("the branches of a saddle are kept apart", "[contours]") {
    for (const double height : {0.001, -0.001}) {
        // An odd number of cells: one cell lies on the saddle point, all its edges crossed.
        const auto lines = contour_lines(Saddle(), ten, {height}, 11);
        REQUIRE(lines.size() == 2);
        for (const ContourLine& line : lines) {
            const double side = line.points.front().x() > 0 ? 1 : -1;
            for (const Vec2& p : line.points) REQUIRE(p.x() * side > 0);
        }
    }
}

TEST_CASE("a corner exactly on the height breaks nothing", "[contours]") {
    const auto lines = contour_lines(Plane({0.1, 0}), ten, {0.0}, 10);  // x = 0 is a lattice line
    REQUIRE(lines.size() == 1);
    REQUIRE_THAT(length(lines[0]), WithinAbs(10, 1e-6));
}

TEST_CASE("lines are cut on the outline", "[contours]") {
    SECTION("open ones") {
        const auto lines = inside(contour_lines(Plane({0.05, 0}), ten, {0.0}, 17), square);
        REQUIRE(lines.size() == 1);
        REQUIRE_THAT(length(lines[0]), WithinAbs(6, 1e-5));
    }
    SECTION("a loop wholly inside stays closed") {
        const auto lines = inside(contour_lines(Bowl(), ten, {0.2}), square);
        REQUIRE(lines.size() == 1);
        REQUIRE(lines[0].closed());
    }
    SECTION("a loop that leaves at four sides becomes its four corners") {
        const auto lines = inside(contour_lines(Bowl(), ten, {0.6}), square);  // radius 3.46
        REQUIRE(lines.size() == 4);
        for (const ContourLine& line : lines) {
            REQUIRE_FALSE(line.closed());
            for (const Vec2& end : {line.points.front(), line.points.back()})
                REQUIRE_THAT(square.inside_by(end), WithinAbs(0, 1e-6));
        }
    }
    SECTION("what lies outside is gone") {
        REQUIRE(inside(contour_lines(Bowl(), ten, {1.0}), square).empty());
    }
}

TEST_CASE("contour steps are ones people count in", "[contours]") {
    constexpr double inch = 0.0254;
    REQUIRE_THAT(contour_spacing(0.0, 1, false).index_m, WithinAbs(0.5 * inch, 1e-15));
    REQUIRE_THAT(contour_spacing(0.02, 1, false).index_m, WithinAbs(inch, 1e-15));  // 0.79 in
    REQUIRE_THAT(contour_spacing(0.05, 1, false).index_m, WithinAbs(2.5 * inch, 1e-15));
    REQUIRE_THAT(contour_spacing(0.02, 1, true).index_m, WithinAbs(0.02, 1e-15));
    REQUIRE_THAT(contour_spacing(0.06, 1, true).index_m, WithinAbs(0.1, 1e-15));
    REQUIRE_THAT(contour_spacing(0.02, 1, true).intermediate_m, WithinAbs(0.01, 1e-15));
}

TEST_CASE("contour heights count from the hole", "[contours]") {
    const auto heights = contour_heights(0.3, 0.1, 0.05, 0.55);
    REQUIRE(heights.size() == 5);
    REQUIRE_THAT(heights.front(), WithinAbs(0.1, 1e-12));
    REQUIRE_THAT(heights.back(), WithinAbs(0.5, 1e-12));
    REQUIRE_THROWS_AS(contour_heights(0, 0, 0, 1), std::invalid_argument);
    REQUIRE_THROWS_AS(contour_heights(0, 1e-6, 0, 1), std::invalid_argument);
}

TEST_CASE("the ground inside an outline", "[contours]") {
    const Ground ground = look_at_ground(Bowl(), square);
    REQUIRE_THAT(ground.area_m2, WithinAbs(36, 1e-12));
    REQUIRE_THAT(ground.highest_m, WithinAbs(0.9, 1e-12));  // at a corner, which is looked at
    REQUIRE_THAT(ground.lowest_m, WithinAbs(0, 1e-4));      // within half a step of 0.06 m
    REQUIRE_THAT(ground.steepest, WithinAbs(std::sqrt(18) / 10, 1e-12));
}

TEST_CASE("what cannot be contoured is refused", "[contours]") {
    REQUIRE_THROWS_AS(contour_lines(Bowl(), ten, {0.1}, 0), std::invalid_argument);
    REQUIRE_THROWS_AS(contour_lines(Bowl(), {{0, 0}, {0, 1}}, {0.1}), std::invalid_argument);
    REQUIRE_THROWS_AS(box_round({}), std::invalid_argument);
}
