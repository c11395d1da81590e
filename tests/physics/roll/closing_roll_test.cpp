#include "physics/roll/closing_roll.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/roll/roll.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

namespace dewtrail {
namespace {

/// z = slope . q + q'Hq/2.
class Bowl final : public Surface {
  public:
    Bowl(const Vec2& slope, double xx, double xy, double yy)
        : slope_(slope), xx_(xx), xy_(xy), yy_(yy) {}
    SurfaceJet at(double x, double y) const override {
        SurfaceJet j;
        j.hx = slope_.x() + xx_ * x + xy_ * y;
        j.hy = slope_.y() + xy_ * x + yy_ * y;
        j.h = 0.5 * (x * (slope_.x() + j.hx) + y * (slope_.y() + j.hy));
        j.hxx = xx_;
        j.hxy = xy_;
        j.hyy = yy_;
        return j;
    }
    double curvature() const { return std::hypot(xx_, std::sqrt(2.0) * xy_, yy_); }

  private:
    Vec2 slope_;
    double xx_, xy_, yy_;
};

TEST_CASE("the last piece of a roll errs by as little as is said", "[roll]") {
    // Against the roll itself at a tolerance at which it leaves next to nothing to the closed form.
    oracle::Random random(5);
    int compared = 0;
    for (int i = 0; i < 500; ++i) {
        const double rho = random.between(0.04, 0.12), steep = random.between(0, 0.95) * rho;
        const auto bent = [&] { return random.between(-0.05, 0.05); };
        const Bowl bowl(steep * along_bearing(random.between(0, 6.3)), bent(), bent(), bent());
        const double bearing = random.between(-3, 3), speed = random.between(0.02, 0.06);
        const Hold hold(bowl.at(0, 0), rho, nullptr);
        const double slowing = hold.slowing_m_s2(), left = speed * speed / (2 * slowing);
        const double bend = bowl.curvature() * left / hold.grip();
        if (bend > 0.1) continue;
        RollOptions options;
        options.tolerance = 1e-14;
        const Roll rolled = roll(bowl, rho, {{0, 0}, bearing, speed}, options);
        const ClosingRoll closing(bowl, rho, nullptr, hold, {0, {0, 0}, bearing, speed, 0},
                                  along_bearing(bearing));
        REQUIRE(rolled.end == RollEnd::at_rest);
        INFO("slope " << steep << " resistance " << rho << " bearing " << bearing);
        CHECK((closing.rest().at - rolled.last.at).norm() < bend * left / 40);
        CHECK(std::abs(closing.rest().arc_m - rolled.last.arc_m) < bend * left / 40);
        CHECK(std::abs(closing.rest().time_s - rolled.last.time_s) < bend * speed / slowing / 25);
        ++compared;
    }
    CHECK(compared > 300);
}

TEST_CASE("a hole and a turn in the last piece of a roll are found", "[roll]") {
    // Dying a tenth of a millimetre past the hole's centre, or a hundredth inside its rim or short
    // of it: what the closed form takes over is a millimetre long.
    const Plane plane({0.03, 0.01});
    const double rho = 0.07;
    const Launch launch{{0, 0}, 0.4, 1.5};
    const Roll whole = roll(plane, rho, launch);
    const Vec2 heading = along_bearing(whole.last.bearing_rad);
    RollOptions options;
    options.hole = whole.last.at - 1e-4 * heading;
    const Roll past = roll(plane, rho, launch, options);
    REQUIRE(past.pass);
    CHECK((past.pass->at - *options.hole).norm() < 2e-5);
    CHECK(past.pass->speed_m_s < 0.03);
    options.hole = whole.last.at + (hole_radius_m - 1e-5) * heading;
    const Roll grazing = roll(plane, rho, launch, options);
    REQUIRE(grazing.rim);
    CHECK(std::abs((grazing.rim->at - *options.hole).norm() - hole_radius_m) < 1e-9);
    options.hole = whole.last.at + (hole_radius_m + 1e-5) * heading;
    CHECK_FALSE(roll(plane, rho, launch, options).rim);
    // A line along which it moves only within the last millimetre.
    const PathPoint late = PlaneRoll(PlaneGround({0.03, 0.01}, rho), launch).rest();
    options.hole = 2 * along_bearing(late.bearing_rad + 0.02);
    const Roll turned = roll(plane, rho, launch, options);
    REQUIRE(turned.apex);
    CHECK(std::abs(std::sin(turned.apex->bearing_rad - (late.bearing_rad + 0.02))) < 1e-6);
}

TEST_CASE("a hole that is passed in the last piece is passed, though the ball turns back to it",
          "[roll]") {
    // It is over the hole at 9 mm/s, rests a tenth of a millimetre on, and points downhill by then.
    // Dealt by dewtrail_soak.
    Putt putt;
    putt.surface = std::make_shared<Plane>(Vec2(0, 0.024425192004));
    putt.resistance = 0.097430898346;
    putt.ball = {1.4343204579, -2.9447592725};
    putt.finish = Finish::hole_speed(0.0085848843701);
    const Read read = oracle::read_of(putt);
    CHECK(read.check.miss_m < 1e-8);
    REQUIRE(read.check.finish_error_m_s);
    CHECK(*read.check.finish_error_m_s < 1e-7);
}

}  // namespace
}  // namespace dewtrail
