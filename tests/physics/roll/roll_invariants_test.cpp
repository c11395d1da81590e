/// What must hold of every roll whatever its numbers: energy, mirror, rotation, scale, and
/// sensitivities that are the derivatives they are said to be.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/roll/sensitive_roll.hpp"
#include "physics/surface/line_profile.hpp"
#include "support/as_eigen.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;
using Catch::WithinRel;

namespace dewtrail {
namespace {

/// A surface seen after a turn (and, if asked, a mirror in the y axis) of the plan.
class Turned final : public Surface {
  public:
    Turned(std::shared_ptr<const Surface> surface, double turn_rad, bool mirrored)
        : surface_(std::move(surface)) {
        const double c = std::cos(turn_rad), s = std::sin(turn_rad);
        from_ << c, s, -s, c;
        if (mirrored) from_.row(0) *= -1;
    }

    /// Where a point of the old plan lies on the new one.
    Vec2 place(const Vec2& old) const { return as_vec2(from_.transpose() * as_eigen(old)); }

    SurfaceJet at(double x, double y) const override {
        const Eigen::Vector2d p = from_ * Eigen::Vector2d(x, y);
        const SurfaceJet o = surface_->at(p.x(), p.y());
        SurfaceJet j;  // third derivatives are not needed by a roll without sensitivities
        j.h = o.h;
        const Vec2 gradient = place(o.gradient());
        j.hx = gradient.x();
        j.hy = gradient.y();
        Eigen::Matrix2d hessian;
        hessian << o.hxx, o.hxy, o.hxy, o.hyy;
        hessian = from_.transpose() * hessian * from_;
        j.hxx = hessian(0, 0);
        j.hxy = hessian(0, 1);
        j.hyy = hessian(1, 1);
        return j;
    }

  private:
    std::shared_ptr<const Surface> surface_;
    Eigen::Matrix2d from_;
};

TEST_CASE("a whole scene turned or mirrored rolls the same", "[roll][invariant]") {
    const bool mirrored = GENERATE(false, true);
    const double turn = GENERATE(0.0, 0.7, M_PI / 2, 2.6);
    const Green green = oracle::shipped_green("saddle");
    const Turned turned(green.surface, turn, mirrored);
    const Vec2 from = green.balls.at("low"), to = green.holes.at("seat"), line = to - from;
    RollOptions options;
    options.hole = to;
    const double off = 0.05;
    const Roll here = roll(*green.surface, 0.1, {from, bearing_of(line) + off, 4}, options);
    options.hole = turned.place(to);
    const Vec2 turned_line = *options.hole - turned.place(from);
    const Roll there =
        roll(turned, 0.1,
             {turned.place(from), bearing_of(turned_line) + (mirrored ? -off : off), 4}, options);
    REQUIRE(here.end == RollEnd::at_rest);
    REQUIRE(there.end == here.end);
    // Both err by up to 1e-6 on a fitted green, each its own way as its steps fall otherwise.
    CHECK_THAT((turned.place(here.last.at) - there.last.at).norm(), WithinAbs(0, 2e-6));
    CHECK_THAT(there.last.time_s, WithinAbs(here.last.time_s, 1e-5));
    REQUIRE((here.pass && there.pass));
    CHECK_THAT(there.pass->speed_m_s, WithinAbs(here.pass->speed_m_s, 2e-6));
}

TEST_CASE("energy is spent on friction and on nothing else", "[roll][invariant]") {
    // d/dt (7/10 v^2 + g h) = -rho N v: with the normal force summed along the path by the
    // trapezium rule on points 1 mm to 30 mm apart. That rule errs by step^2/12 of the second
    // derivative of N/g, some 1 per m^2 here: 1e-4 of the arc at most.
    const auto name = GENERATE("saddle", "stairs", "turtle");
    const Green green = oracle::shipped_green(name);
    const auto& surface = *green.surface;
    const double rho = 0.11;
    RollOptions options;
    options.keep_path = true;
    const Vec2 from = green.balls.begin()->second, to = green.holes.begin()->second;
    const Roll rolled = roll(surface, rho, {from, bearing_of(to - from) + 0.1, 4}, options);
    REQUIRE(rolled.end == RollEnd::at_rest);
    const auto load = [&](const PathPoint& p) {
        const SurfaceJet j = surface.at(p.at.x(), p.at.y());
        const Vec2 e = along_bearing(p.bearing_rad);
        const double grade = e.dot(j.gradient());
        const double w2 = p.speed_m_s * p.speed_m_s / (1 + grade * grade);
        const double bend =
            e.x() * e.x() * j.hxx + 2 * e.x() * e.y() * j.hxy + e.y() * e.y() * j.hyy;
        return (gravity_m_s2 + w2 * bend) / std::sqrt(1 + j.gradient().squaredNorm());
    };
    const auto energy = [&](const PathPoint& p) {
        return 0.7 * p.speed_m_s * p.speed_m_s + gravity_m_s2 * surface.at(p.at.x(), p.at.y()).h;
    };
    double spent = 0;
    for (std::size_t i = 1; i < rolled.path.size(); ++i) {
        const PathPoint &a = rolled.path[i - 1], &b = rolled.path[i];
        spent += rho * 0.5 * (load(a) + load(b)) * (b.arc_m - a.arc_m);
        CHECK(energy(b) <= energy(a) + 1e-9);
    }
    const double lost = energy(rolled.path.front()) - energy(rolled.path.back());
    CHECK_THAT(spent, WithinRel(lost, 1e-4));
}

TEST_CASE("energy on a plane is exact", "[roll][invariant]") {
    const Plane plane({0.02, -0.03});
    const double rho = 0.09, W = std::sqrt(1 + plane.gradient().squaredNorm());
    const Roll rolled = roll(plane, rho, {{0, 0}, 1.1, 3}, {});
    const double h = plane.at(rolled.last.at.x(), rolled.last.at.y()).h;
    CHECK_THAT(0.7 * 9 - gravity_m_s2 * h,
               WithinAbs(rho * gravity_m_s2 / W * rolled.last.arc_m, 1e-7));
}

TEST_CASE("on a plane everything scales with the speed squared", "[roll][invariant]") {
    const Plane plane({0.01, 0.03});
    const auto at = [&](double v) { return roll(plane, 0.08, {{0, 0}, 0.4, v}, {}).last; };
    const PathPoint one = at(1), three = at(3);
    CHECK_THAT((three.at - 9 * one.at).norm(), WithinAbs(0, 1e-7));
    CHECK_THAT(three.arc_m, WithinAbs(9 * one.arc_m, 1e-7));
    CHECK_THAT(three.time_s, WithinAbs(3 * one.time_s, 1e-6));
}

TEST_CASE("level ground is straight", "[roll][invariant]") {
    const double bearing = GENERATE(0.0, 1.0, -2.0);
    const Roll rolled = roll(Plane({0, 0}), 0.08, {{3, 4}, bearing, 2}, {});
    const Vec2 along = along_bearing(bearing), d = rolled.last.at - Vec2(3, 4);
    CHECK_THAT(d.dot(Vec2(along.y(), -along.x())), WithinAbs(0, 1e-13));
    CHECK_THAT(d.dot(along), WithinAbs(level_roll_m(2, 0.08), 1e-8));
}

struct Ground {
    std::string name;
    std::shared_ptr<const Surface> surface;
    Vec2 from, hole;
};

std::vector<Ground> grounds() {
    const Green saddle = oracle::shipped_green("saddle"), turtle = oracle::shipped_green("turtle");
    const Vec2 a(1, 2), b(2, 6);
    const std::vector<LineReading> readings{
        {0, 0.01, 0.02}, {1.5, -0.02, 0.01}, {3, 0.01, -0.02}, {4.1, 0.0, 0.01}};
    return {{"plane", std::make_shared<Plane>(Vec2(0.02, -0.01)), a, b},
            {"saddle", saddle.surface, saddle.balls.at("high"), saddle.holes.at("seat")},
            {"turtle", turtle.surface, turtle.balls.at("north"), turtle.holes.at("crest")},
            {"profile", std::make_shared<LineProfile>(a, b, readings), a, b}};
}

TEST_CASE("sensitivities at rest are what differences of rolls give", "[roll][sensitivity]") {
    const Ground ground = GENERATE(from_range(grounds()));
    INFO(ground.name);
    const Vec2 line = ground.hole - ground.from;
    const double rho = 0.1, bearing = bearing_of(line) + 0.03;
    const double speed = speed_of_level_roll_m_s(1.3 * line.norm(), rho);
    RollOptions options;
    options.tolerance = 1e-12;
    options.hole = ground.hole;
    const auto sensitive =
        roll_with_sensitivities(*ground.surface, rho, {ground.from, bearing, speed}, options, true);
    REQUIRE(sensitive.roll.end == RollEnd::at_rest);

    const auto rest = [&](double d_bearing, double d_speed, double d_rho, const Vec2& tilt) {
        const auto tilted = oracle::tilted(ground.surface, tilt);
        return roll(*tilted, rho + d_rho, {ground.from, bearing + d_bearing, speed + d_speed},
                    options)
            .last;
    };
    // Steps of 1e-4 err by 1e-8 times a third derivative (some hundreds for the tilt and
    // resistance); the rolls' own noise of 1e-9 m adds 1e-5. Place and arc at rest do not depend on
    // where along the path the sensitivity is taken, since the ball stands still there.
    constexpr double step = 1e-4, tolerance = 2e-3;
    for (int column = 0; column < 5; ++column) {
        double d[5] = {0, 0, 0, 0, 0};
        d[column] = column < 2 ? step : step / 10;
        const double width = 2 * d[column];
        const PathPoint more = rest(d[0], d[1], d[2], {d[3], d[4]});
        const PathPoint less = rest(-d[0], -d[1], -d[2], {-d[3], -d[4]});
        INFO("column " << column);
        const auto s = sensitive.at_end.col(column);
        const double scale = 1 + std::abs(s[4]);
        CHECK_THAT(s[0], WithinAbs((more.at.x() - less.at.x()) / width, tolerance * scale));
        CHECK_THAT(s[1], WithinAbs((more.at.y() - less.at.y()) / width, tolerance * scale));
        CHECK_THAT(s[4], WithinAbs((more.arc_m - less.arc_m) / width, tolerance * scale));
    }
}

TEST_CASE("sensitivities ride along without changing the roll", "[roll][sensitivity]") {
    const Ground ground = grounds()[1];
    RollOptions options;
    options.hole = ground.hole;
    const Launch launch{ground.from, bearing_of(ground.hole - ground.from), 3};
    const Roll plain = roll(*ground.surface, 0.1, launch, options);
    for (const bool with_ground : {false, true}) {
        const Roll other =
            roll_with_sensitivities(*ground.surface, 0.1, launch, options, with_ground).roll;
        CHECK(other.steps == plain.steps);
        CHECK(other.last.at == plain.last.at);
        CHECK(other.last.time_s == plain.last.time_s);
    }
}

}  // namespace
}  // namespace dewtrail
