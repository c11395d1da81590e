#include "physics/read/turns.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/surface/tilted.hpp"
#include "support/putts.hpp"

using Catch::WithinAbs;
using Catch::WithinRel;

namespace dewtrail {
namespace {

/// Falls to one side along the first part of a putt toward +y, to the other from `flips_m` on: the
/// slope across goes as the cosine of a quarter of a wave until there.
class Wave final : public Surface {
  public:
    Wave(double slope, double flips_m) : slope_(slope), k_(M_PI / 2 / flips_m) {}
    SurfaceJet at(double x, double y) const override {
        const double c = std::cos(k_ * y), s = std::sin(k_ * y);
        SurfaceJet j;
        j.h = slope_ * x * c;
        j.hx = slope_ * c;
        j.hy = -slope_ * k_ * x * s;
        j.hxy = -slope_ * k_ * s;
        j.hyy = -slope_ * k_ * k_ * x * c;
        j.hxyy = -slope_ * k_ * k_ * c;
        j.hyyy = slope_ * k_ * k_ * k_ * x * s;
        return j;
    }

  private:
    double slope_, k_;
};

Putt over_wave(double slope, double flips = 0.6, double distance_m = 6) {
    Putt putt;
    putt.surface = std::make_shared<Wave>(slope, flips * distance_m);
    putt.resistance = oracle::resistance(10);
    putt.ball = {0, 0};
    putt.hole = {0, distance_m};
    putt.finish = oracle::inches_past(12);
    return putt;
}

/// A tilt across the line, rising to the right by `slope`, only where `here` says so.
template <class Here>
class TiltedThere final : public Surface {
  public:
    TiltedThere(std::shared_ptr<const Surface> under, double slope, Here here)
        : under_(std::move(under)), slope_(slope), here_(here) {}
    SurfaceJet at(double x, double y) const override {
        SurfaceJet j = under_->at(x, y);
        if (here_(y)) j.hx += slope_;
        return j;
    }

  private:
    std::shared_ptr<const Surface> under_;
    double slope_;
    Here here_;
};

Read costed(const Putt& putt) {
    ReadOptions options = oracle::line_only();
    options.keep_path = options.costs = true;
    return oracle::read_of(putt, options);
}

TEST_CASE("a path over a wave turns on both sides of the line", "[turns]") {
    const Putt putt = over_wave(0.03);  // rises to the right first: the ball falls left
    const Read read = costed(putt);
    REQUIRE(read.turns);
    const Turns& turns = *read.turns;
    const HalfCosts halves = read.costs.halves.value();
    double left = 0, right = 0;
    for (const PathPoint& p : read.roll.path) {
        if (p.time_s > read.arrival_time_s) break;
        left = std::min(left, p.at.x());
        right = std::max(right, p.at.x());
    }
    // The path's own points lie 3 cm or so apart; at the top it bends by less than 1/m.
    CHECK_THAT(std::max(turns.first.offset_m, turns.second.offset_m), WithinAbs(right, 5e-4));
    CHECK_THAT(std::min(turns.first.offset_m, turns.second.offset_m), WithinAbs(left, 5e-4));
    CHECK(turns.first.offset_m * turns.second.offset_m < 0);
    CHECK(turns.first.along_m < halves.bends_back_m);
    CHECK(halves.bends_back_m < turns.second.along_m);
    CHECK(read.stroke.angle_rad * turns.first.offset_m > 0);  // it leaves on the first one's side
    // The apex is the farther of the two; above it the start line passes only on its own side.
    REQUIRE(read.apex);
    CHECK_THAT(std::abs(read.apex->offset_m), WithinAbs(std::max(-left, right), 5e-4));
    CHECK(read.apex->offset_m * read.stroke.angle_rad < 0);
    CHECK_FALSE(read.line_above_apex_m);
}

TEST_CASE("mirrored, a path that breaks both ways turns on the other sides", "[turns]") {
    const Read one = costed(over_wave(0.03)), other = costed(over_wave(-0.03));
    const Turns a = one.turns.value(), b = other.turns.value();
    const HalfCosts p = one.costs.halves.value(), q = other.costs.halves.value();
    CHECK_THAT(a.first.offset_m, WithinAbs(-b.first.offset_m, 1e-7));
    CHECK_THAT(a.second.offset_m, WithinAbs(-b.second.offset_m, 1e-7));
    CHECK_THAT(a.first.along_m, WithinAbs(b.first.along_m, 1e-6));
    CHECK_THAT(*p.first_aim_m_per_slope, WithinRel(*q.first_aim_m_per_slope, 1e-3));
    CHECK_THAT(*p.second_aim_m_per_slope, WithinRel(*q.second_aim_m_per_slope, 1e-3));
}

TEST_CASE("the halves cost what the aim of a half misread green differs by", "[turns]") {
    // The read solved anew with one half's ground tilted by a tenth of a percent either way: the
    // differences also change the pace a little, which the costs leave as it is.
    const Putt putt = over_wave(0.03);
    const HalfCosts halves = costed(putt).costs.halves.value();
    const double split = halves.bends_back_m;
    const auto aim_moved = [&](auto here) {
        const auto aim = [&](double slope) {
            Putt misread = putt;
            misread.surface =
                std::make_shared<TiltedThere<decltype(here)>>(putt.surface, slope, here);
            // The tilt has an edge, at which a tight check stumbles.
            ReadOptions options = oracle::line_only();
            options.tolerance = 1e-8;
            return *oracle::read_of(misread, options).aim_offset_m;
        };
        return (aim(1e-3) - aim(-1e-3)) / 2e-3;
    };
    CHECK_THAT(*halves.first_aim_m_per_slope,
               WithinRel(aim_moved([=](double y) { return y < split; }), 0.03));
    CHECK_THAT(*halves.second_aim_m_per_slope,
               WithinRel(aim_moved([=](double y) { return y >= split; }), 0.03));
    CHECK(*halves.first_aim_m_per_slope > 0);
    CHECK(*halves.second_aim_m_per_slope > 0);
}

TEST_CASE("a ball aimed to one side that runs along the other breaks both ways", "[turns]") {
    int hardly = 0;
    for (const double slope : {0.02, -0.04})
        for (const double flips : {0.35, 0.4, 0.45, 0.5, 0.55, 0.6}) {
            INFO(slope << " until " << flips);
            const Read read = oracle::read_of(over_wave(slope, flips));
            REQUIRE((read.aim_offset_m && read.apex));
            const double aim = *read.aim_offset_m, apex = read.apex->offset_m;
            if (aim * apex > 0 || std::min(std::abs(aim), std::abs(apex)) < least_turn_m) continue;
            REQUIRE(read.turns);
            CHECK(read.turns->first.offset_m * aim > 0);
            CHECK(read.turns->second.offset_m * aim < 0);
            CHECK(read.turns->first.along_m < read.turns->second.along_m);
            hardly += std::abs(read.turns->first.offset_m) < least_turn_m;
        }
    CHECK(hardly > 0);
}

TEST_CASE("on a plane a path bends one way", "[turns]") {
    for (const double clock : {0.5, 3.0, 5.0, 7.5})
        for (const double slope : {0.01, 0.03})
            CHECK_FALSE(
                oracle::read_of(oracle::bare_putt(10, slope, 15, clock, oracle::inches_past(12)))
                    .turns);
}

TEST_CASE("less than half an inch on one side is no side", "[turns]") {
    const Turns turns = oracle::read_of(over_wave(0.03)).turns.value();
    const double larger = std::max(std::abs(turns.first.offset_m), std::abs(turns.second.offset_m));
    // The path is all but linear in the slope.
    const double faint = 0.03 * 0.8 * least_turn_m / larger;
    CHECK_FALSE(oracle::read_of(over_wave(faint)).turns);
}

}  // namespace
}  // namespace dewtrail
