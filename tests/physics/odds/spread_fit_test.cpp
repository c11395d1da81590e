/// What a fit refuses, and rows at the ends of what it takes. Its values: tests/published.

#include "physics/odds/spread_fit.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "tests/support/putts.hpp"

namespace dewtrail {
namespace {

const Scatter known{0.03, 0.12, 0.09, 0.005};

FitGround ground() {
    FitGround ground;
    ground.resistance = oracle::resistance(10);
    return ground;
}

TEST_CASE("rows that cannot be are refused by every fit", "[spread_fit][nan]") {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    const std::vector<std::vector<HoledRow>> wrong{
        {},          {{0.05, 10, 5}}, {{41, 10, 5}}, {{nan, 10, 5}},
        {{2, 0, 0}}, {{2, 10, -1}},   {{2, 10, 11}}, {{2, 10, 5}, {3, nan, 1}},
    };
    for (const auto& rows : wrong) {
        CHECK_THROWS_AS(fit_angle_only(rows), std::invalid_argument);
        CHECK_THROWS_AS(fit_angle_and_distance(rows), std::invalid_argument);
        CHECK_THROWS_AS(fit_spread(rows, known, ground()), std::invalid_argument);
    }
}

TEST_CASE("all holed or all missed tell no spread: what is known is held", "[spread_fit]") {
    for (const double holed : {0.0, 20.0}) {
        const SpreadFit fit = fit_spread({{2, 20, holed}, {3, 20, holed}}, known, ground());
        CHECK(fit.outcome == SpreadFit::Outcome::none);
        CHECK(fit.scatter.line_rad == known.line_rad);
        CHECK(fit.line_error_rad == 0);
        REQUIRE(fit.expected.size() == 2);
        CHECK(fit.expected[0] > fit.expected[1]);
        CHECK(std::isfinite(fit.deviance));
    }
}

TEST_CASE("rows with none or all holed beside others are taken", "[spread_fit]") {
    const SpreadFit fit = fit_spread({{0.5, 30, 30}, {2, 30, 18}, {12, 30, 0}}, known, ground());
    CHECK(fit.outcome != SpreadFit::Outcome::none);
    CHECK(fit.scatter.line_rad > 0.005);
    CHECK(fit.scatter.line_rad < 0.1);
    CHECK(fit.expected[0] > 0.97);
    CHECK(fit.expected[2] < 0.1);
}

}  // namespace
}  // namespace dewtrail
