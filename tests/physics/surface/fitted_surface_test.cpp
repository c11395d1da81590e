#include "physics/surface/fitted_surface.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// A surface with no symmetry: unequal spacings, coefficients of a wavy green.
FittedSurface wavy() {
    SplineGrid grid;
    grid.origin = {-3, 2};
    grid.spacing_m = {1.5, 0.8};
    grid.cells_x = 9;
    grid.cells_y = 11;
    std::vector<double> c;
    for (int j = 0; j < grid.coefficients_y(); ++j)
        for (int i = 0; i < grid.coefficients_x(); ++i)
            c.push_back(0.05 * std::sin(1.3 * i + 0.4 * j) + 0.01 * j +
                        0.02 * std::cos(0.9 * i * j));
    return {grid, c};
}

// Central differences of step e err by e^2/6 times a third derivative beyond (below 1 per m here)
// and by rounding over e: 1e-7 holds both for e = 1e-4 with heights below 0.3 m.
constexpr double e = 1e-4;
constexpr double difference_error = 1e-7;

TEST_CASE("each derivative is the slope of the one before it", "[fitted_surface]") {
    const FittedSurface s = wavy();
    const double x = GENERATE(-2.1, 0.7, 4.4, 9.3), y = GENERATE(2.3, 5.05, 9.9);
    const SurfaceJet j = s.at(x, y);
    const SurfaceJet east = s.at(x + e, y), west = s.at(x - e, y);
    const SurfaceJet north = s.at(x, y + e), south = s.at(x, y - e);
    const auto by_x = [&](double SurfaceJet::*d) { return (east.*d - west.*d) / (2 * e); };
    const auto by_y = [&](double SurfaceJet::*d) { return (north.*d - south.*d) / (2 * e); };
    CHECK_THAT(j.hx, WithinAbs(by_x(&SurfaceJet::h), difference_error));
    CHECK_THAT(j.hy, WithinAbs(by_y(&SurfaceJet::h), difference_error));
    CHECK_THAT(j.hxx, WithinAbs(by_x(&SurfaceJet::hx), difference_error));
    CHECK_THAT(j.hxy, WithinAbs(by_x(&SurfaceJet::hy), difference_error));
    CHECK_THAT(j.hxy, WithinAbs(by_y(&SurfaceJet::hx), difference_error));
    CHECK_THAT(j.hyy, WithinAbs(by_y(&SurfaceJet::hy), difference_error));
    CHECK_THAT(j.hxxx, WithinAbs(by_x(&SurfaceJet::hxx), difference_error));
    CHECK_THAT(j.hxxy, WithinAbs(by_y(&SurfaceJet::hxx), difference_error));
    CHECK_THAT(j.hxyy, WithinAbs(by_x(&SurfaceJet::hyy), difference_error));
    CHECK_THAT(j.hyyy, WithinAbs(by_y(&SurfaceJet::hyy), difference_error));
}

TEST_CASE("second derivatives run on across the edges of cells", "[fitted_surface]") {
    const FittedSurface s = wavy();
    // Over 2e-9 m a second derivative changes by 2e-9 times a third one, itself below 1 per m^2.
    constexpr double beside = 1e-9, change = 1e-8;
    for (int i = 1; i < s.grid().cells_x; ++i) {
        const double x = s.grid().origin.x() + i * s.grid().spacing_m.x(), y = 5.3;
        const SurfaceJet a = s.at(x - beside, y), b = s.at(x + beside, y);
        CHECK_THAT(a.hxx, WithinAbs(b.hxx, change));
        CHECK_THAT(a.hxy, WithinAbs(b.hxy, change));
        CHECK_THAT(a.hyy, WithinAbs(b.hyy, change));
    }
    const double knot = s.grid().origin.y() + 4 * s.grid().spacing_m.y();
    CHECK_THAT(s.at(1.1, knot - beside).hyy, WithinAbs(s.at(1.1, knot + beside).hyy, change));
    CHECK(std::abs(s.at(1.1, knot - beside).hyyy - s.at(1.1, knot + beside).hyyy) > 1e-3);
}

TEST_CASE("coefficients of a linear function give that function", "[fitted_surface]") {
    SplineGrid grid;
    grid.origin = {1, -2};
    grid.spacing_m = {0.7, 1.1};
    grid.cells_x = 6;
    grid.cells_y = 4;
    std::vector<double> c;
    for (int j = 0; j < grid.coefficients_y(); ++j)
        for (int i = 0; i < grid.coefficients_x(); ++i)
            c.push_back(0.3 + 0.02 * (1 + 0.7 * (i - 1)) - 0.05 * (-2 + 1.1 * (j - 1)));
    const FittedSurface s(grid, c);
    // On the grid and far off it alike; tolerance is rounding of numbers below 10.
    for (const Vec2& p : {Vec2(1, -2), Vec2(3.3, 0.4), Vec2(5.2, 2.4), Vec2(-40, 70)}) {
        const SurfaceJet jet = s.at(p.x(), p.y());
        CHECK_THAT(jet.h, WithinAbs(0.3 + 0.02 * p.x() - 0.05 * p.y(), 1e-13));
        CHECK_THAT(jet.hx, WithinAbs(0.02, 1e-14));
        CHECK_THAT(jet.hy, WithinAbs(-0.05, 1e-14));
        CHECK_THAT(jet.hxx, WithinAbs(0, 1e-14));
    }
}

TEST_CASE("off its grid the surface goes on along its tangent", "[fitted_surface]") {
    const FittedSurface s = wavy();
    const Vec2 low = s.grid().origin;
    const Vec2 high = low + Vec2(9, 11).cwiseProduct(s.grid().spacing_m);

    SECTION("without a jump in height or slope") {
        constexpr double beside = 1e-9, change = 1e-8;
        for (const double y : {3.0, 7.7})
            for (const double edge : {low.x(), high.x()}) {
                const SurfaceJet a = s.at(edge - beside, y), b = s.at(edge + beside, y);
                CHECK_THAT(a.h, WithinAbs(b.h, change));
                CHECK_THAT(a.hx, WithinAbs(b.hx, change));
                CHECK_THAT(a.hy, WithinAbs(b.hy, change));
            }
    }
    SECTION("straight on") {
        const SurfaceJet edge = s.at(high.x(), 6), out = s.at(high.x() + 3, 6);
        CHECK_THAT(out.h, WithinAbs(edge.h + 3 * edge.hx, 1e-14));
        CHECK(out.hx == edge.hx);
        CHECK(out.hxx == 0);
    }
    SECTION("with derivatives that are those of the continuation") {
        const Vec2 p = high + Vec2(1.3, 0.9);
        const SurfaceJet jet = s.at(p.x(), p.y());
        const auto h = [&](double dx, double dy) { return s.at(p.x() + dx, p.y() + dy).h; };
        CHECK_THAT(jet.hx, WithinAbs((h(e, 0) - h(-e, 0)) / (2 * e), difference_error));
        CHECK_THAT(jet.hy, WithinAbs((h(0, e) - h(0, -e)) / (2 * e), difference_error));
    }
    SECTION("finite a long way off") {
        CHECK(std::isfinite(s.at(-1e6, 1e6).h));
    }
}

TEST_CASE("a smooth patch is a cell, or all that lies beyond the grid", "[fitted_surface]") {
    const FittedSurface s = wavy();
    const SmoothPatch inside = s.patch({0.1, 4.0});
    CHECK((inside.low - Vec2(0, 2 + 2 * 0.8)).norm() < 1e-12);
    CHECK((inside.high - Vec2(1.5, 2 + 3 * 0.8)).norm() < 1e-12);
    // Within it the third derivatives along one axis alone do not change; across its edge they do.
    CHECK_THAT(s.at(0.1, 4.0).hxxx, WithinAbs(s.at(1.4, 4.0).hxxx, 1e-12));
    CHECK(std::abs(s.at(0.1, 4.0).hxxx - s.at(1.6, 4.0).hxxx) > 1e-4);
    const SmoothPatch beyond = s.patch({-5, 100});
    CHECK(beyond.low.x() == -SmoothPatch::endless);
    CHECK(beyond.high.x() == s.grid().origin.x());
    CHECK_THAT(beyond.low.y(), WithinAbs(2 + 11 * 0.8, 1e-12));
    CHECK(beyond.high.y() == SmoothPatch::endless);
    CHECK(Plane({0.1, 0}).patch({1, 1}).high.x() == SmoothPatch::endless);
}

TEST_CASE("a grid that does not fit its coefficients is refused", "[nan][fitted_surface]") {
    SplineGrid grid;
    CHECK_THROWS_AS(FittedSurface(grid, std::vector<double>(15)), std::invalid_argument);
    CHECK_NOTHROW(FittedSurface(grid, std::vector<double>(16)));
    std::vector<double> c(16);
    c[3] = std::nan("");
    CHECK_THROWS_AS(FittedSurface(grid, c), std::invalid_argument);
    grid.spacing_m.x() = 0;
    CHECK_THROWS_AS(FittedSurface(grid, std::vector<double>(16)), std::invalid_argument);
}

}  // namespace
}  // namespace dewtrail
