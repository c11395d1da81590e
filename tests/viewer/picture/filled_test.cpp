#include "viewer/picture/filled.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace dewtrail;
using Catch::WithinAbs;

TEST_CASE("a filled polygon has its area, and holds what lies inside") {
    // An L: 3 of 4 quarters of a square.
    const std::vector<Vec2> corners{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}};
    const auto triangles = filled(corners);
    REQUIRE(triangles.size() == 4);
    double area = 0;
    for (const auto& [a, b, c] : triangles) {
        const Vec2 u = corners[b] - corners[a], v = corners[c] - corners[a];
        area += 0.5 * std::abs(u.x() * v.y() - u.y() * v.x());
    }
    CHECK_THAT(area, WithinAbs(3, 1e-12));
    CHECK(holds(corners, {0.5, 1.5}));
    CHECK_FALSE(holds(corners, {1.5, 1.5}));
    CHECK(filled({corners.rbegin(), corners.rend()}).size() == 4);
}
