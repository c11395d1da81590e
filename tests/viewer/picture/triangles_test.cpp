#include "viewer/picture/triangles.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

constexpr Colour ink{20, 40, 60, 255};

/// How much is painted, in full pixels: over one triangle opacity is linear, so its mean is that of
/// the corners.
double painted(const Triangles& triangles) {
    double sum = 0;
    for (std::size_t i = 0; i + 2 < triangles.size(); i += 3) {
        const Mesh::Vertex* v = &triangles[i];
        const Vec2 a = v[1].at - v[0].at, b = v[2].at - v[0].at;
        const double area = 0.5 * std::abs(a.x() * b.y() - a.y() * b.x());
        sum += area * (v[0].colour.a + v[1].colour.a + v[2].colour.a) / (3 * 255.0);
    }
    return sum;
}

template <class Kind>
Triangles triangles_of(const Kind& shape, double pixel = 1) {
    Triangles out;
    add_triangles(out, shape, pixel);
    return out;
}

double furthest_from_axis(const Triangles& triangles) {
    double most = 0;
    for (const Mesh::Vertex& v : triangles) most = std::max(most, std::abs(v.at.y()));
    return most;
}

}  // namespace

TEST_CASE("a line paints its length times its width, however fine the device's pixels are") {
    for (const double pixel : {1.0, 0.5, 1 / 3.0}) {
        const auto line = triangles_of(Line{{{0, 0}, {60, 0}, {100, 0}}, 4, ink}, pixel);
        // Each end is softened too: half a pixel more of it.
        CHECK_THAT(painted(line), WithinAbs((100 + pixel) * 4, 1e-9));
        CHECK_THAT(furthest_from_axis(line), WithinAbs(2 + pixel / 2, 1e-12));
    }
}

TEST_CASE("a line thinner than a pixel of the device is as wide as one, and paler") {
    const Line hair{{{0, 0}, {100, 0}}, 0.25, ink};
    for (const double pixel : {1.0, 0.5}) {
        const auto line = triangles_of(hair, pixel);
        CHECK_THAT(furthest_from_axis(line), WithinAbs(pixel, 1e-12));
        // Opacity is a whole number of 255: half a one over the band.
        CHECK_THAT(painted(line), WithinAbs((100 + pixel) * 0.25, 0.5 / 255 * 101 * pixel));
    }
}

TEST_CASE("a disc and a polygon paint their area, whichever way round they go") {
    const double area = std::numbers::pi * 9;
    // Inscribed polygons: of fewer corners where a pixel is coarser.
    const double coarse = painted(triangles_of(Disc{{5, 7}, 3, ink}));
    const double fine = painted(triangles_of(Disc{{5, 7}, 3, ink}, 0.25));
    CHECK_THAT(coarse, WithinAbs(area, 0.06 * area));
    CHECK_THAT(fine, WithinAbs(area, 0.02 * area));
    CHECK(fine > coarse);

    std::vector<Vec2> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
    const double one_way = painted(triangles_of(Polygon{square, ink}));
    // Soft corners: a square's edge of a pixel has its mean at the edge, but for the corners.
    CHECK_THAT(one_way, WithinAbs(100, 1));
    std::reverse(square.begin(), square.end());
    CHECK_THAT(painted(triangles_of(Polygon{square, ink})), WithinAbs(one_way, 1e-9));
}

TEST_CASE("a line that doubles back has no thorn, and points that repeat change nothing") {
    const Line back{{{0, 0}, {50, 0}, {0, 0.2}}, 3, ink};
    for (const Mesh::Vertex& v : triangles_of(back)) CHECK(v.at.x() < 52.5);
    const auto once = triangles_of(Line{{{0, 0}, {9, 3}}, 2, ink});
    const auto twice = triangles_of(Line{{{0, 0}, {0, 0}, {9, 3}, {9, 3}}, 2, ink});
    CHECK(painted(once) == painted(twice));
}

TEST_CASE("what cannot be seen is no triangle, and a mesh stays as it is") {
    CHECK(triangles_of(Line{{{0, 0}, {9, 0}}, 2, {1, 2, 3, 0}}).empty());
    CHECK(triangles_of(Line{{{4, 4}, {4, 4}}, 2, ink}).empty());
    CHECK(triangles_of(Disc{{0, 0}, 3, {1, 2, 3, 0}}).empty());
    const Mesh mesh{{{{0, 0}, ink}, {{1, 0}, {1, 2, 3, 4}}, {{0, 1}, ink}}};
    const auto same = triangles_of(mesh, 0.5);
    REQUIRE(same.size() == 3);
    CHECK(same[1].at.x() == 1);
    CHECK(same[1].colour == Colour{1, 2, 3, 4});
}
