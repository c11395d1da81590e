#include "physics/odds/scatter.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "physics/numbers/normal.hpp"
#include "physics/roll/green_speed.hpp"
#include "support/putts.hpp"
#include "tests/physics/odds/players.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::bare_putt;
using oracle::inches_past;

/// A plane in disguise, so that the general road is taken.
class Disguised final : public Surface {
  public:
    explicit Disguised(const Vec2& gradient) : plane_(gradient) {}
    SurfaceJet at(double x, double y) const override { return plane_.at(x, y); }

  private:
    Plane plane_;
};

TEST_CASE("Gauss-Legendre is exact to its degree", "[normal]") {
    for (const int n : {1, 2, 5, 16, 48})
        for (int power = 0; power <= 2 * n - 1; ++power) {
            double sum = 0;
            for (const auto& [x, weight] : gauss_legendre(n)) sum += weight * std::pow(x, power);
            REQUIRE_THAT(sum, WithinAbs(power % 2 ? 0 : 2.0 / (power + 1), 1e-13));
        }
}

TEST_CASE("the read's slope sensitivity agrees by differences and by variation", "[scatter]") {
    const double clock = GENERATE(2.0, 3.0, 5.0, 8.0);
    const Putt putt = bare_putt(10, 0.02, 12, clock, inches_past(12));
    Putt disguised = putt;
    disguised.surface = std::make_shared<Disguised>(Vec2(0, 0.02));
    const Stroke stroke = line_of(putt);
    const auto a = read_slope_sensitivity(putt, stroke);
    const auto b = read_slope_sensitivity(disguised, stroke);
    REQUIRE((a && b));
    // Differences over 4e-4 of slope: the third derivative leaves about 1e-5 of the value.
    CHECK_THAT((*a - *b).norm() / a->norm(), WithinAbs(0, 1e-4));
}

TEST_CASE("a misread slope slants line and pace together", "[scatter]") {
    const Putt putt = bare_putt(11, 0.02, 15, 1.5, inches_past(12));
    const Stroke stroke = line_of(putt);
    const double level = level_roll_m(stroke.speed_m_s, putt.resistance);
    const Scatter scatter{0.02, 0.1, 0.05, 0.005};
    const SlopeSensitivity J = *read_slope_sensitivity(putt, stroke);
    const StrokeSpread spread = stroke_spread(stroke.angle_rad, level, scatter, J);
    const Eigen::Matrix2d misread = 0.005 * 0.005 * J.leftCols<2>() * J.leftCols<2>().transpose();
    constexpr double rounding = 1e-9;  // the least deviations, squared
    CHECK_THAT(spread.covariance(0, 0), WithinAbs(0.0004 + misread(0, 0), rounding));
    CHECK_THAT(spread.covariance(1, 1),
               WithinAbs(0.01 * level * level + 0.0025 + misread(1, 1), rounding));
    CHECK_THAT(spread.covariance(0, 1), WithinAbs(misread(0, 1), rounding));
    // From above and right, a steeper slope is aimed higher (to the right) and hit softer. One that
    // falls more to the west runs with the putt and carries it to its right.
    CHECK(J(0, 1) > 0);
    CHECK(J(1, 1) < 0);
    CHECK(J(0, 0) < 0);
    CHECK(J(1, 0) < 0);
}

TEST_CASE("across the fall line a misread turns a downhill putt more than an uphill one",
          "[scatter]") {
    // 8 ft on 3 %, stimp 11, a foot past: 0.1 % across moves the start line by 0.53 and 0.2 degrees
    // (derived by the program's exact reads of the tilted planes).
    const auto turned_deg = [](double clock) {
        const Putt putt = bare_putt(11, 0.03, 8, clock, inches_past(12));
        return 0.001 * std::abs((*read_slope_sensitivity(putt, line_of(putt)))(0, 0)) * 180 / M_PI;
    };
    CHECK_THAT(turned_deg(12), WithinAbs(0.53, 0.01));
    CHECK_THAT(turned_deg(6), WithinAbs(0.20, 0.01));
}

/// Start angle and level roll of the read on the plane whose fall is turned.
Eigen::Vector2d read_turned(Putt putt, double turn_rad) {
    const double slope = 0.02;
    putt.surface = std::make_shared<Plane>(slope * Vec2(-std::sin(turn_rad), std::cos(turn_rad)));
    const Stroke stroke = line_of(putt);
    return {stroke.angle_rad, level_roll_m(stroke.speed_m_s, putt.resistance)};
}

TEST_CASE("who sees the fall turned reads the green that is turned so", "[scatter]") {
    const double clock = GENERATE(12.0, 2.0, 3.0, 5.0, 6.0);
    const Putt putt = bare_putt(10, 0.02, 12, clock, inches_past(12));
    constexpr double step = 0.002;
    const Eigen::Vector2d by_reads =
        (read_turned(putt, step) - read_turned(putt, -step)) / (2 * step);
    const Eigen::Vector2d told = read_slope_sensitivity(putt, line_of(putt))->col(2);
    // Differences: the third derivative, about as large as the first, leaves step^2.
    CHECK_THAT((told - by_reads).norm() / by_reads.norm(), WithinAbs(0, 1e-5));
    Putt disguised = putt;
    disguised.surface = std::make_shared<Disguised>(Vec2(0, 0.02));
    const Eigen::Vector2d varied = read_slope_sensitivity(disguised, line_of(putt))->col(2);
    CHECK_THAT((varied - by_reads).norm() / by_reads.norm(), WithinAbs(0, 1e-4));
}

TEST_CASE("the fall's direction adds to what is across, in proportion to the slope", "[scatter]") {
    // 8 ft straight down: seen turned by 10 degrees is the slope's sine of it across.
    for (const double slope : {0.01, 0.03}) {
        const Putt putt = bare_putt(11, slope, 8, 12, inches_past(12));
        const Stroke stroke = line_of(putt);
        const double level = level_roll_m(stroke.speed_m_s, putt.resistance);
        const SlopeSensitivity J = *read_slope_sensitivity(putt, stroke);
        const double turn = 10 * M_PI / 180;
        const auto by_fall = stroke_spread(stroke.angle_rad, level, {0, 0, 0, 0, turn}, J);
        const auto by_slope = stroke_spread(stroke.angle_rad, level, {0, 0, 0, slope * turn, 0}, J);
        constexpr double least = 1e-12;  // the least deviation, squared
        CHECK_THAT(by_fall.covariance(0, 0) / by_slope.covariance(0, 0), WithinAbs(1, 1e-6));
        // Along a straight putt nothing is misread.
        CHECK_THAT(by_fall.covariance(1, 1), WithinAbs(least * level * level, 1e-12));
    }
}

TEST_CASE("the same misread along any two directions at right angles", "[scatter]") {
    const Putt putt = bare_putt(10, 0.02, 12, 4, inches_past(12));
    Putt turned = putt;
    const auto by = [](const Vec2& v) {
        const double c = std::cos(0.7), s = std::sin(0.7);
        return Vec2(c * v.x() - s * v.y(), s * v.x() + c * v.y());
    };
    turned.ball = by(putt.ball);
    turned.hole = by(putt.hole);
    turned.surface = std::make_shared<Plane>(by({0, 0.02}));
    const Scatter scatter{0.02, 0.1, 0.05, 0.005, 0.2};
    const auto covariance = [&](const Putt& p) -> Eigen::Matrix2d {
        const Stroke stroke = line_of(p);
        return stroke_spread(stroke.angle_rad, level_roll_m(stroke.speed_m_s, p.resistance),
                             scatter, *read_slope_sensitivity(p, stroke))
            .covariance;
    };
    // The differences err by less than 1e-6 of the derivative, otherwise along other directions.
    CHECK_THAT((covariance(putt) - covariance(turned)).norm(), WithinAbs(0, 1e-6));
}

TEST_CASE("level ground is misread in every direction", "[scatter]") {
    const Putt putt = bare_putt(10, 0, 12, 3, inches_past(12));
    const auto J = read_slope_sensitivity(putt, line_of(putt));
    REQUIRE(J);
    CHECK_THAT(J->row(0).norm(), !WithinAbs(0, 0.5));
    CHECK_THAT(J->row(1).norm(), !WithinAbs(0, 5));
    CHECK_THAT(J->row(0).dot(J->row(1)), WithinAbs(0, 1e-6));
}

TEST_CASE("a spread that is none is refused", "[nan][scatter]") {
    const SlopeSensitivity J = SlopeSensitivity::Zero();
    CHECK_THROWS_AS(stroke_spread(0, 3, {-0.01, 0.1, 0, 0}, J), std::invalid_argument);
    CHECK_THROWS_AS(stroke_spread(0, 3, {0.01, std::nan(""), 0, 0}, J), std::invalid_argument);
    CHECK_THROWS_AS(stroke_spread(0, 3, {0.01, 0.1, HUGE_VAL, 0}, J), std::invalid_argument);
    CHECK_THROWS_AS(stroke_spread(0, 3, {0.01, 0.1, 0, 0, -0.1}, J), std::invalid_argument);
}

}  // namespace
}  // namespace dewtrail
