#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "physics/hole/hole_capture.hpp"
#include "support/capture_limits.hpp"

// S. J. Hogan and M. Antali, R. Soc. Open Sci. 12, 250907 (2025), abstract: balls that lip out can
// turn by more than 180 degrees; rim lip-outs keep their centre above the green, hole lip-outs dip
// below.

using namespace dewtrail;

namespace {

constexpr double R = hole_radius_m;

struct LipOuts {
    int off_the_rim = 0, out_of_the_hole = 0;
};

LipOuts count(double friction) {
    HoleModel model;
    model.friction = friction;
    LipOuts seen;
    for (double q = 0.025; q < 1; q += 0.025)
        for (double v = 0.1; v < 2; v += 0.02) {
            const auto o = roll_into_hole({v, q * R}, model);
            if (o.how != HoleOutcome::How::lips_out) continue;
            ++(o.lowest_centre_m < 0 ? seen.out_of_the_hole : seen.off_the_rim);
        }
    return seen;
}

}  // namespace

TEST_CASE("a ball that lips out can turn by more than half a circle", "[published]") {
    const double q = 0.9;
    const double limit = simulated_capture_limit_m_s({0, q * R}).value();
    const auto hangs = roll_into_hole({limit + 2e-6, q * R});
    CHECK(hangs.how == HoleOutcome::How::lips_out);
    CHECK(std::abs(hangs.turn_rad) > std::numbers::pi);
    const auto clear = roll_into_hole({limit * 1.3, q * R});
    CHECK(std::abs(clear.turn_rad) < std::numbers::pi);
}

TEST_CASE("a hair either side of the ride round the rim decides", "[published]") {
    const double q = 0.9;
    const double limit = simulated_capture_limit_m_s({0, q * R}).value();
    const auto in = roll_into_hole({limit - 2e-6, q * R}),
               out = roll_into_hole({limit + 2e-6, q * R});
    CHECK(in.how == HoleOutcome::How::rides_the_rim_and_drops);
    CHECK(out.how == HoleOutcome::How::lips_out);
}

TEST_CASE("a ball lips out off the rim, rarely out of the hole", "[published]") {
    // That the hole lip-out is rare is theirs; the counts over this grid are ours (derived here).
    const LipOuts turf = count(0.4), no_slip = count(HoleModel::no_slip);
    CHECK(turf.off_the_rim > 100);
    CHECK(turf.out_of_the_hole == 0);
    CHECK(no_slip.out_of_the_hole > 0);
    CHECK(no_slip.out_of_the_hole < no_slip.off_the_rim / 3);
}
