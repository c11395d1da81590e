#include <Eigen/Geometry>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "physics/odds/odds.hpp"
#include "support/putts.hpp"
#include "support/sanitized.hpp"
#include "tests/physics/odds/players.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// A green turned about the origin, or mirrored at the y axis first: place p of this one is place
/// M p of the other, and the derivatives follow by the chain rule.
class Seen final : public Surface {
  public:
    Seen(std::shared_ptr<const Surface> green, const Eigen::Matrix2d& to_green)
        : green_(std::move(green)), m_(to_green) {}

    SurfaceJet at(double x, double y) const override {
        const Eigen::Vector2d p = m_ * Eigen::Vector2d(x, y);
        const SurfaceJet g = green_->at(p.x(), p.y());
        SurfaceJet j;
        j.h = g.h;
        const double first[] = {g.hx, g.hy};
        const double second[][2] = {{g.hxx, g.hxy}, {g.hxy, g.hyy}};
        const double third[][2][2] = {{{g.hxxx, g.hxxy}, {g.hxxy, g.hxyy}},
                                      {{g.hxxy, g.hxyy}, {g.hxyy, g.hyyy}}};
        for (int a = 0; a < 2; ++a) {
            j.hx += first[a] * m_(a, 0);
            j.hy += first[a] * m_(a, 1);
            for (int b = 0; b < 2; ++b) {
                j.hxx += second[a][b] * m_(a, 0) * m_(b, 0);
                j.hxy += second[a][b] * m_(a, 0) * m_(b, 1);
                j.hyy += second[a][b] * m_(a, 1) * m_(b, 1);
                for (int c = 0; c < 2; ++c) {
                    j.hxxx += third[a][b][c] * m_(a, 0) * m_(b, 0) * m_(c, 0);
                    j.hxxy += third[a][b][c] * m_(a, 0) * m_(b, 0) * m_(c, 1);
                    j.hxyy += third[a][b][c] * m_(a, 0) * m_(b, 1) * m_(c, 1);
                    j.hyyy += third[a][b][c] * m_(a, 1) * m_(b, 1) * m_(c, 1);
                }
            }
        }
        return j;
    }

    /// The square about (x, y) that lies in the green's patch however the green is turned.
    SmoothPatch patch(const Vec2& at) const override {
        const Eigen::Vector2d p = m_ * Eigen::Vector2d(at.x(), at.y());
        const SmoothPatch g = green_->patch({p.x(), p.y()});
        const double to_edge = std::min(
            {p.x() - g.low.x(), g.high.x() - p.x(), p.y() - g.low.y(), g.high.y() - p.y()});
        const Vec2 half = to_edge / std::numbers::sqrt2 * Vec2(1, 1);
        return {at - half, at + half};
    }

  private:
    std::shared_ptr<const Surface> green_;
    Eigen::Matrix2d m_;
};

Eigen::Matrix2d turned_by(double angle_rad) {
    return Eigen::Rotation2Dd(angle_rad).toRotationMatrix();
}

Putt seen(const Putt& putt, const Eigen::Matrix2d& to_green) {
    const auto from_green = [&](const Vec2& v) {
        const Eigen::Vector2d p = to_green.transpose() * Eigen::Vector2d(v.x(), v.y());
        return Vec2(p.x(), p.y());
    };
    Putt other = putt;
    other.surface = std::make_shared<Seen>(putt.surface, to_green);
    other.outline.reset();
    other.ball = from_green(putt.ball);
    other.hole = from_green(putt.hole);
    return other;
}

Putt on_meadow(double feet, double bearing_rad) {
    const Green green = oracle::shipped_green("meadow");
    Putt putt;
    putt.surface = green.surface;
    putt.resistance = oracle::resistance(green.stimp_ft);
    putt.hole = green.holes.at("flag");
    putt.ball = putt.hole + feet * metres_per_foot * along_bearing(bearing_rad);
    putt.finish = oracle::inches_past(12);
    return putt;
}

/// A swale without edges.
class Swale final : public Surface {
  public:
    SurfaceJet at(double x, double y) const override {
        constexpr double slope = 0.012, deep = 0.1, wide = 3;
        const double c = std::cos(y / wide), s = std::sin(y / wide);
        SurfaceJet j;
        j.h = slope * x - deep * c;
        j.hx = slope;
        j.hy = deep / wide * s;
        j.hyy = deep / (wide * wide) * c;
        j.hyyy = -deep / (wide * wide * wide) * s;
        return j;
    }
};

TEST_CASE("smooth ground turned by twenty angles has the same reads", "[odds][turned]") {
    Putt putt;
    putt.surface = std::make_shared<Swale>();
    putt.resistance = oracle::resistance(10);
    putt.ball = {3, -2};
    putt.finish = oracle::inches_past(12);
    const Read as_is = oracle::read_of(putt);
    for (int i = 1; i <= 20; ++i) {
        INFO(i);
        const Read read = oracle::read_of(seen(putt, turned_by(0.31 * i)));
        CHECK_THAT(*read.aim_offset_m, WithinAbs(*as_is.aim_offset_m, 2e-6));  // Newton stops
        CHECK_THAT(read.level_roll_m, WithinAbs(as_is.level_roll_m, 2e-6));    // at 1e-6
    }
}

TEST_CASE("a green turned by twenty angles has the same reads and odds", "[odds][turned]") {
    const Putt putt = on_meadow(14, 2);
    const Read as_is = oracle::read_of(putt);
    const StrokeOdds odds = *stroke_odds_of(putt, as_is, middle);
    for (int i = 1; i <= 20; i += oracle::sanitized ? 7 : 1) {
        INFO(i);
        const Putt other = seen(putt, turned_by(0.31 * i));
        const Read read = oracle::read_of(other);
        CHECK_THAT(*read.aim_offset_m, WithinAbs(*as_is.aim_offset_m, 5e-6));  // Newton stops
        CHECK_THAT(read.level_roll_m, WithinAbs(as_is.level_roll_m, 5e-6));    // at 1e-6
        // Edges to 2e-4 of the hole's radius, a hundredth of a deviation of the start angle at
        // most.
        const StrokeOdds turned = *stroke_odds_of(other, read, middle);
        CHECK_THAT(turned.holed, WithinAbs(odds.holed, 2e-4));
        CHECK_THAT(turned.inside_3ft, WithinAbs(odds.inside_3ft, 2e-4));
        CHECK_THAT(turned.usual_leave_m, WithinAbs(odds.usual_leave_m, 1e-3));
    }
}

TEST_CASE("a green in a mirror has the mirrored read and the same odds", "[odds][turned]") {
    Eigen::Matrix2d mirror;
    mirror << -1, 0, 0, 1;
    const Putt putt = on_meadow(10, 4), other = seen(putt, mirror);
    const Read a = oracle::read_of(putt), b = oracle::read_of(other);
    CHECK_THAT(*b.aim_offset_m, WithinAbs(-*a.aim_offset_m, 5e-6));
    // Next putts included: their table lies along the fall line, and is mirrored with it.
    const Odds odds = *odds_of(putt, a, middle), mirrored = *odds_of(other, b, middle);
    CHECK_THAT(mirrored.holed, WithinAbs(odds.holed, 2e-4));
    CHECK_THAT(mirrored.putts, WithinAbs(odds.putts, 1e-3));
    CHECK_THAT(mirrored.three_putt, WithinAbs(odds.three_putt, 1e-3));
}

}  // namespace
}  // namespace dewtrail
