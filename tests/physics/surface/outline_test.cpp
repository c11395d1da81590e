#include "physics/surface/outline.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <stdexcept>

using Catch::WithinAbs;

namespace dewtrail {
namespace {

constexpr double rounding_m = 1e-14;

std::vector<Vec2> ell() {  // an L: 4 x 4 without its upper right 2 x 2
    return {{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}};
}

TEST_CASE("distance to the edge is positive inside and negative outside", "[outline]") {
    auto corners = ell();
    if (GENERATE(false, true)) std::reverse(corners.begin(), corners.end());
    const Outline outline(corners);
    CHECK_THAT(outline.inside_by({1, 1}), WithinAbs(1, rounding_m));
    CHECK_THAT(outline.inside_by({1.5, 3}), WithinAbs(0.5, rounding_m));
    CHECK_THAT(outline.inside_by({3, 3}), WithinAbs(-1, rounding_m));
    CHECK_THAT(outline.inside_by({-3, 2}), WithinAbs(-3, rounding_m));
    CHECK_THAT(outline.inside_by({7, -4}), WithinAbs(-5, rounding_m));
    CHECK_THAT(outline.inside_by({1.7, 1.7}), WithinAbs(std::hypot(0.3, 0.3), rounding_m));
    CHECK_THAT(outline.inside_by({4, 1}), WithinAbs(0, rounding_m));
}

TEST_CASE("a line level with a corner crosses there once", "[outline]") {
    const Outline diamond({{0, -1}, {1, 0}, {0, 1}, {-1, 0}});
    CHECK(diamond.inside_by({-2, 0}) < 0);
    CHECK(diamond.inside_by({0, 0}) > 0);
    CHECK(diamond.inside_by({2, 0}) < 0);
}

TEST_CASE("what is no outline is refused", "[outline]") {
    CHECK_THROWS_AS(Outline({{0, 0}, {1, 0}}), std::invalid_argument);
    CHECK_THROWS_AS(Outline({{0, 0}, {1, 0}, {1, 0}, {0, 1}}), std::invalid_argument);
    CHECK_THROWS_AS(Outline({{0, 0}, {1, 1}, {1, 0}, {0, 1}}), std::invalid_argument);
    CHECK_NOTHROW(Outline({{0, 0}, {1, 0}, {0, 1}}));
}

}  // namespace
}  // namespace dewtrail
