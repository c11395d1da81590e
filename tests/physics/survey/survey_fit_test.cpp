#include "physics/survey/survey_fit.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "physics/surface/bending_energy.hpp"
#include "tests/support/random.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

struct Noise : oracle::Random {
    using Random::Random;
    Vec2 normals() {
        const double x = normal();
        return {x, normal()};
    }
    /// Somewhere on a green of 24 m by 20 m.
    Vec2 spot() {
        const double x = 24 * unit();
        return {x, 20 * unit()};
    }
};

const std::vector<Vec2> corners{{0, 0}, {24, 0}, {24, 20}, {0, 20}};

Vec2 slope_of(const SurfaceFit& fit, const Vec2& p) {
    return fit.surface->at(p.x(), p.y()).gradient();
}

TEST_CASE("a plane comes back exactly", "[survey_fit]") {
    Noise noise(1);
    const Vec2 gradient(0.013, -0.021);
    Survey survey;
    const bool with_levels = GENERATE(true, false), with_heights = GENERATE(true, false);
    if (!with_levels && !with_heights) return;
    for (int i = 0; i < 20; ++i) {
        const Vec2 p = noise.spot(), q = noise.spot();
        if (with_levels) survey.levels.push_back({p, gradient});
        if (with_heights) survey.heights.push_back({q, 3 + gradient.dot(q)});
    }
    const SurfaceFit fit = fit_survey(survey, {.cover = corners});
    REQUIRE(fit.status == FitStatus::fitted);
    // The plane is solved for apart from the bends: what is left is rounding of heights of metres.
    constexpr double rounding = 1e-12;
    for (const Vec2& p : {Vec2(0, 0), Vec2(12, 9), Vec2(25, 21)}) {
        CHECK_THAT((slope_of(fit, p) - gradient).norm(), WithinAbs(0, rounding));
        if (with_heights)
            CHECK_THAT(fit.surface->at(p.x(), p.y()).h, WithinAbs(3 + gradient.dot(p), rounding));
    }
    CHECK_THAT(fit.level_rms, WithinAbs(0, rounding));
    CHECK_THAT(fit.height_rms_m, WithinAbs(0, rounding));
    // A plane needs 3 numbers, 2 where its height is free; the rest is lambda at its largest.
    CHECK_THAT(fit.degrees_of_freedom, WithinAbs(with_heights ? 3 : 2, 0.1));
}

TEST_CASE("a dish comes back from heights and from levels", "[survey_fit]") {
    const auto height = [](const Vec2& p) { return 0.002 * p.x() * p.x() - 0.001 * p.x() * p.y(); };
    const auto gradient = [](const Vec2& p) {
        return Vec2(0.004 * p.x() - 0.001 * p.y(), -0.001 * p.x());
    };
    const bool levels = GENERATE(true, false);
    Survey survey;
    for (double x = 0; x <= 24; x += 2)
        for (double y = 0; y <= 20; y += 2) {
            if (levels) survey.levels.push_back({{x, y}, gradient({x, y})});
            if (!levels) survey.heights.push_back({{x, y}, height({x, y})});
        }
    const SurfaceFit fit = fit_survey(survey, {.cover = corners});
    REQUIRE(fit.status == FitStatus::fitted);
    // Smoothing bends least at the edge of the readings; inside, 0.02 % of slope is a tenth of
    // what a level shows.
    for (const Vec2& p : {Vec2(5, 5), Vec2(12.3, 9.1), Vec2(18.7, 15.2)})
        CHECK_THAT((slope_of(fit, p) - gradient(p)).norm(), WithinAbs(0, 2e-4));
}

TEST_CASE("bending energy is the integral it stands for", "[survey_fit]") {
    SplineGrid grid;
    grid.origin = {-1, 3};
    grid.spacing_m = {0.9, 1.3};
    grid.cells_x = 5;
    grid.cells_y = 4;
    Noise noise(3);
    Eigen::VectorXd b(grid.coefficients());
    for (double& c : b) c = noise.normal();
    const FittedSurface s(grid, {b.begin(), b.end()});
    const double reach_m = GENERATE(0, 1.7);
    const int fine = 1000;  // midpoints: the error falls as their number squared, 8e-6 here
    double sum = 0;
    const double dx = 0.9 * 5 / fine, dy = 1.3 * 4 / fine;
    for (int i = 0; i < fine; ++i)
        for (int j = 0; j < fine; ++j) {
            const SurfaceJet jet = s.at(-1 + (i + 0.5) * dx, 3 + (j + 0.5) * dy);
            const double bends = jet.hxx * jet.hxx + 2 * jet.hxy * jet.hxy + jet.hyy * jet.hyy;
            const double changes = jet.hxxx * jet.hxxx + 3 * jet.hxxy * jet.hxxy +
                                   3 * jet.hxyy * jet.hxyy + jet.hyyy * jet.hyyy;
            sum += (bends + reach_m * reach_m * changes) * dx * dy;
        }
    const double energy = b.dot(bending_energy(grid, reach_m) * b);
    CHECK_THAT(energy / sum, WithinAbs(1, 2e-5));
}

TEST_CASE("residuals are reading minus fit", "[survey_fit]") {
    Noise noise(4);
    Survey survey;
    for (int i = 0; i < 30; ++i)
        survey.levels.push_back({noise.spot(), Vec2(0.02, 0) + 0.002 * noise.normals()});
    survey.heights.push_back({{3, 4}, 0.5});
    const SurfaceFit fit = fit_survey(survey, {.cover = corners});
    REQUIRE(fit.level_residuals.size() == 30);
    REQUIRE(fit.height_residuals_m.size() == 1);
    double squares = 0;
    for (std::size_t i = 0; i < 30; ++i) {
        const LevelReading& r = survey.levels[i];
        CHECK((fit.level_residuals[i] - (r.gradient - slope_of(fit, r.at))).norm() == 0);
        squares += fit.level_residuals[i].squaredNorm() / 2;
    }
    CHECK_THAT(fit.level_rms, WithinAbs(std::sqrt(squares / 30), 1e-15));
    // Sixty numbers of sd 0.2 %: their rms is known to 0.02 %; three sd allowed.
    CHECK_THAT(fit.level_rms, WithinAbs(0.002, 0.0006));
    // A lone height fixes the datum: nothing contradicts it.
    CHECK_THAT(fit.height_residuals_m[0], WithinAbs(0, 1e-9));
}

TEST_CASE("eighteen noisy levels: the stated uncertainty covers the truth", "[survey_fit]") {
    Noise noise(5);
    int within_one = 0, within_two = 0, all = 0;
    for (int green = 0; green < 40; ++green) {
        const double turn = 2 * std::numbers::pi * noise.unit();
        const Vec2 wave = along_bearing(turn) * 2 * std::numbers::pi / 14;
        const auto gradient = [&](const Vec2& p) {
            return Vec2(Vec2(0.015, -0.01) + 0.015 * std::cos(wave.dot(p)) * wave.normalized());
        };
        Survey survey;
        for (int i = 0; i < 18; ++i) {
            const Vec2 p = noise.spot();
            survey.levels.push_back({p, gradient(p) + default_level_sd * noise.normals()});
        }
        const SurfaceFit fit = fit_survey(survey, {.cover = corners});
        REQUIRE(fit.status == FitStatus::fitted);
        for (int i = 0; i < 10; ++i, ++all) {
            const Vec2 p = Vec2(2, 2) + noise.spot() * 0.8;
            const double bearing = 2 * std::numbers::pi * noise.unit();
            const double error = (slope_of(fit, p) - gradient(p)).dot(along_bearing(bearing));
            const double sd = fit.slope_sd(p, bearing);
            REQUIRE(sd > 0);
            within_one += std::abs(error) < sd;
            within_two += std::abs(error) < 2 * sd;
        }
    }
    // 68 % and 95 % of 400, of which about a quarter are independent: four sd of a proportion are
    // 0.19 and 0.09.
    CHECK_THAT(double(within_one) / all, WithinAbs(0.68, 0.19));
    CHECK_THAT(double(within_two) / all, WithinAbs(0.95, 0.09));
}

TEST_CASE("uncertainty grows away from the readings and follows their scatter", "[survey_fit]") {
    Noise noise(6);
    Survey survey;
    for (int i = 0; i < 200; ++i) {
        const Vec2 p = noise.spot() / 2;
        survey.levels.push_back(
            {p, 0.02 * Vec2(std::sin(p.x() / 2), std::cos(p.y() / 2)) + 0.004 * noise.normals()});
    }
    const SurfaceFit fit = fit_survey(survey, {.cover = corners});
    CHECK(fit.slope_sd({22, 18}, 0) > 3 * fit.slope_sd({6, 5}, 0));
    // Stated 0.2 %, scattered 0.4 %: 400 numbers know their scatter to 4 %; four sd and the prior.
    CHECK_THAT(fit.sd_scale, WithinAbs(2, 0.3));
}

TEST_CASE("covariance of functionals agrees with that of their parts", "[survey_fit]") {
    Noise noise(7);
    Survey survey;
    for (int i = 0; i < 20; ++i) survey.levels.push_back({noise.spot(), 0.01 * noise.normals()});
    const SurfaceFit fit = fit_survey(survey, {.cover = corners});
    const Vec2 p(10, 10), q(10, 10.001);
    const Eigen::MatrixXd c = fit.covariance({{{p, 0, {1, 0}}},
                                              {{p, 0, {0, 1}}},
                                              {{p, 0, {1, 1}}},
                                              {{q, 1000, {0, 0}}, {p, -1000, {0, 0}}}});
    // Linear: the third is the sum of the first two; exact but for rounding of the solve.
    CHECK_THAT(c(2, 2) / (c(0, 0) + c(1, 1) + 2 * c(0, 1)), WithinAbs(1, 1e-9));
    // The fourth is a difference quotient of heights over 1 mm, so the slope to about 0.1 %.
    CHECK_THAT(c(3, 3) / c(1, 1), WithinAbs(1, 1e-3));
    CHECK_THAT(fit.slope_sd(p, 0), WithinAbs(std::sqrt(c(1, 1)), 1e-12));
}

TEST_CASE("the grid reaches two metres beyond outline and readings", "[survey_fit]") {
    Survey survey;
    for (const Vec2& p : {Vec2(-5, 1), Vec2(3, 9), Vec2(8, 2)}) survey.levels.push_back({p});
    const SplineGrid grid = fit_survey(survey, {.cover = corners}).surface->grid();
    const Vec2 high = grid.origin + Vec2(grid.cells_x, grid.cells_y).cwiseProduct(grid.spacing_m);
    CHECK(grid.origin.x() <= -7);
    CHECK(grid.origin.y() <= -2);
    CHECK(high.x() >= 26);
    CHECK(high.y() >= 22);
    CHECK(fit_survey(survey, {.spacing_m = 0.75}).surface->grid().spacing_m.x() == 0.75);
}

TEST_CASE("surveys that decide no surface say why", "[survey_fit]") {
    const auto status = [](const Survey& survey) {
        const SurfaceFit fit = fit_survey(survey);
        CHECK((fit.status == FitStatus::fitted) == fit.message.empty());
        CHECK((fit.status == FitStatus::fitted) == (fit.surface != nullptr));
        return fit.status;
    };
    const LevelReading a{{0, 0}, {0.01, 0}}, b{{5, 0}, {0.01, 0}}, c{{9, 0}, {0.02, 0}};
    const HeightReading p{{0, 0}, 0}, q{{4, 4}, 0.1}, r{{8, 8}, 0.2}, off{{8, 2}, 0.1};
    CHECK(status({}) == FitStatus::too_few_readings);
    CHECK(status({{a, b}, {}}) == FitStatus::too_few_readings);
    CHECK(status({{a, b, c}, {}}) == FitStatus::fitted);
    CHECK(status({{a, a, a, a}, {}}) == FitStatus::on_one_spot);
    CHECK(status({{}, {p, p, p}}) == FitStatus::on_one_spot);
    CHECK(status({{}, {p, q, r}}) == FitStatus::on_one_line);
    CHECK(status({{}, {p, q, off}}) == FitStatus::fitted);
    CHECK(status({{b}, {p, q}}) == FitStatus::fitted);

    const SurfaceFit none = fit_survey({});
    CHECK(none.slope_sd({0, 0}, 0) == 0);
    CHECK(none.covariance({{{{0, 0}, 1, {0, 0}}}})(0, 0) == 0);
}

TEST_CASE("nonsense readings are the caller's mistake", "[nan][survey_fit]") {
    const double nan = std::nan("");
    Survey survey{{{{0, 0}, {0, 0}}, {{5, 0}, {0, 0}}, {{0, 5}, {0, 0}}}, {}};
    CHECK_THROWS_AS(fit_survey(survey, {.spacing_m = 0.01}), std::invalid_argument);
    CHECK_THROWS_AS(fit_survey(survey, {.margin_m = -1}), std::invalid_argument);
    CHECK_THROWS_AS(fit_survey(survey, {.cover = {{nan, 0}}}), std::invalid_argument);
    survey.levels[1].sd = 0;
    CHECK_THROWS_AS(fit_survey(survey), std::invalid_argument);
    survey.levels[1] = {{nan, 0}, {0, 0}};
    CHECK_THROWS_AS(fit_survey(survey), std::invalid_argument);
}

TEST_CASE("a level falls toward its bearing", "[survey_fit]") {
    const LevelReading east = level_reading({1, 2}, 0.03, std::numbers::pi / 2);
    CHECK_THAT(east.gradient.x(), WithinAbs(-0.03, 1e-17));
    CHECK_THAT(east.gradient.y(), WithinAbs(0, 1e-17));
    CHECK(east.sd == default_level_sd);
}

}  // namespace
}  // namespace dewtrail
