#include "physics/surface/line_profile.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

using Catch::WithinAbs;

namespace dewtrail {
namespace {

const Vec2 ball(2, 1), hole(5, 5);
const Vec2 along(0.6, 0.8), right(0.8, -0.6);
constexpr double rounding_of_slopes = 1e-13;  // of heights and slopes below one

const std::vector<LineReading> readings{
    {0, 0.01, -0.02}, {1.5, 0.03, 0.01}, {3.2, -0.01, 0.015}, {5, 0.02, 0.03}};

SurfaceJet at(const LineProfile& profile, double s, double c) {
    const Vec2 p = ball + s * along + c * right;
    return profile.at(p.x(), p.y());
}

TEST_CASE("the slopes read hold at their places", "[line_profile]") {
    const LineProfile profile(ball, hole, readings);
    for (const LineReading& r : readings) {
        const Vec2 gradient = at(profile, r.along_m, 0).gradient();
        CHECK_THAT(gradient.dot(along), WithinAbs(r.up, rounding_of_slopes));
        CHECK_THAT(gradient.dot(right), WithinAbs(r.right_up, rounding_of_slopes));
        CHECK_THAT(at(profile, r.along_m, 0.4).gradient().dot(right),
                   WithinAbs(r.right_up, rounding_of_slopes));
    }
    CHECK_THAT(at(profile, 0, 0).h, WithinAbs(0, rounding_of_slopes));
}

TEST_CASE("one reading is a plane", "[line_profile]") {
    const LineProfile profile(ball, hole, {{2, 0.02, -0.03}});
    for (const double s : {-3.0, 0.0, 2.0, 9.0})
        for (const double c : {-1.0, 0.5}) {
            const SurfaceJet jet = at(profile, s, c);
            CHECK_THAT(jet.h, WithinAbs(0.02 * s - 0.03 * c, rounding_of_slopes));
            CHECK_THAT((jet.gradient() - 0.02 * along + 0.03 * right).norm(),
                       WithinAbs(0, rounding_of_slopes));
            CHECK_THAT(std::abs(jet.hxx) + std::abs(jet.hxy) + std::abs(jet.hyy),
                       WithinAbs(0, rounding_of_slopes));
        }
}

TEST_CASE("grade and cross slope stay as read beyond the last readings", "[line_profile]") {
    const LineProfile profile(ball, hole, readings);
    const Vec2 before = at(profile, -4, 0.3).gradient(), past = at(profile, 8, 0.3).gradient();
    CHECK_THAT(before.dot(along), WithinAbs(0.01, rounding_of_slopes));
    CHECK_THAT(before.dot(right), WithinAbs(-0.02, rounding_of_slopes));
    CHECK_THAT(past.dot(along), WithinAbs(0.02, rounding_of_slopes));
    CHECK_THAT(past.dot(right), WithinAbs(0.03, rounding_of_slopes));
}

TEST_CASE("each derivative of a profile is the slope of the one before", "[line_profile]") {
    const LineProfile profile(ball, hole, readings);
    const double s = GENERATE(-1.0, 0.4, 2.2, 4.1, 6.0), c = GENERATE(-0.7, 0.0, 0.5);
    const Vec2 p = ball + s * along + c * right;
    // Piecewise polynomials, so differences err by rounding alone beyond e^2: 1e-4 squared.
    constexpr double e = 1e-4, error = 1e-8;
    const SurfaceJet j = profile.at(p.x(), p.y());
    const SurfaceJet east = profile.at(p.x() + e, p.y()), west = profile.at(p.x() - e, p.y());
    const SurfaceJet north = profile.at(p.x(), p.y() + e), south = profile.at(p.x(), p.y() - e);
    const auto by_x = [&](double SurfaceJet::*d) { return (east.*d - west.*d) / (2 * e); };
    const auto by_y = [&](double SurfaceJet::*d) { return (north.*d - south.*d) / (2 * e); };
    CHECK_THAT(j.hx, WithinAbs(by_x(&SurfaceJet::h), error));
    CHECK_THAT(j.hy, WithinAbs(by_y(&SurfaceJet::h), error));
    CHECK_THAT(j.hxx, WithinAbs(by_x(&SurfaceJet::hx), error));
    CHECK_THAT(j.hxy, WithinAbs(by_y(&SurfaceJet::hx), error));
    CHECK_THAT(j.hyy, WithinAbs(by_y(&SurfaceJet::hy), error));
    CHECK_THAT(j.hxxx, WithinAbs(by_x(&SurfaceJet::hxx), error));
    CHECK_THAT(j.hxxy, WithinAbs(by_y(&SurfaceJet::hxx), error));
    CHECK_THAT(j.hxyy, WithinAbs(by_x(&SurfaceJet::hyy), error));
    CHECK_THAT(j.hyyy, WithinAbs(by_y(&SurfaceJet::hyy), error));
}

TEST_CASE("second derivatives run on across the readings", "[line_profile]") {
    const LineProfile profile(ball, hole, readings);
    constexpr double beside = 1e-9, change = 1e-8;  // third derivatives are below 1 per m^2
    for (const double s : {1.5, 3.2})
        for (const double c : {0.0, 0.8}) {
            const SurfaceJet a = at(profile, s - beside, c), b = at(profile, s + beside, c);
            CHECK_THAT(a.hxx, WithinAbs(b.hxx, change));
            CHECK_THAT(a.hxy, WithinAbs(b.hxy, change));
            CHECK_THAT(a.hyy, WithinAbs(b.hyy, change));
        }
    for (const double s : {0.0, 5.0})
        CHECK_THAT(at(profile, s - beside, 0).hxx,
                   WithinAbs(at(profile, s + beside, 0).hxx, change));
}

TEST_CASE("a step rises by what it should, and no more", "[line_profile]") {
    const double rise = GENERATE(0.3, -0.25);
    const LineProfile step = LineProfile::step(ball, hole, rise, 2.5, 1.2);
    CHECK_THAT(at(step, 1.9, 0).h, WithinAbs(0, rounding_of_slopes));
    CHECK_THAT(at(step, 2.5, 0.7).h, WithinAbs(rise / 2, rounding_of_slopes));
    CHECK_THAT(at(step, 3.1, 0).h, WithinAbs(rise, rounding_of_slopes));
    CHECK_THAT(at(step, 9, -2).h, WithinAbs(rise, rounding_of_slopes));
    CHECK_THAT(at(step, 2.5, 0).gradient().dot(along),
               WithinAbs(2 * rise / 1.2, rounding_of_slopes));
    CHECK_THAT(at(step, 9, 0).gradient().norm(), WithinAbs(0, rounding_of_slopes));
}

TEST_CASE("a step that starts behind the ball still counts from the ball", "[line_profile]") {
    const LineProfile step = LineProfile::step(ball, hole, 0.4, 0, 2);
    CHECK_THAT(at(step, 0, 0).h, WithinAbs(0, rounding_of_slopes));
    CHECK_THAT(at(step, 3, 0).h - at(step, -3, 0).h, WithinAbs(0.4, rounding_of_slopes));
}

TEST_CASE("readings out of order or not finite are refused", "[line_profile]") {
    using Readings = std::vector<LineReading>;
    const double nan = std::nan("");
    const auto build = [](const Readings& r) { return LineProfile(ball, hole, r); };
    CHECK_THROWS_AS(build({}), std::invalid_argument);
    CHECK_THROWS_AS(build({{1, 0, 0}, {1, 0, 0}}), std::invalid_argument);
    CHECK_THROWS_AS(build({{2, 0, 0}, {1, 0, 0}}), std::invalid_argument);
    CHECK_THROWS_AS(build({{0, nan, 0}}), std::invalid_argument);
    CHECK_THROWS_AS(build({{0, 0, 0}, {INFINITY, 0, 0}}), std::invalid_argument);
    CHECK_THROWS_AS(LineProfile(ball, ball, readings), std::invalid_argument);
    CHECK_THROWS_AS(LineProfile::step(ball, hole, 0.1, 1, 0), std::invalid_argument);
}

}  // namespace
}  // namespace dewtrail
