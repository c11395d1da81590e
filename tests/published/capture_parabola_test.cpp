/// A. R. Penner, "The physics of putting", Can. J. Phys. 80, 83-96 (2002), as quoted elsewhere and
/// from memory: a ball drops below 1.63 (1 - (offset/R)^2) m/s.

#include <catch2/catch.hpp>

#include "physics/base/ball_and_hole.hpp"
#include "support/capture_limits.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

TEST_CASE("published: Penner's parabola", "[published]") {
    CHECK_THAT(penner_limit_m_s(0), WithinAbs(1.63, 1e-12));
    CHECK_THAT(penner_limit_m_s(0.5 * hole_radius_m), WithinAbs(1.2225, 1e-12));
    CHECK_THAT(penner_limit_m_s(-0.5 * hole_radius_m), WithinAbs(1.2225, 1e-12));
    // Half-widths at 0.65 and 0.23 m/s, three digits, derived here: slope 2.5 and 3 m/s per radius.
    CHECK_THAT(penner_limit_m_s(0.775 * hole_radius_m), WithinAbs(0.65, 0.0015));
    CHECK_THAT(penner_limit_m_s(0.927 * hole_radius_m), WithinAbs(0.23, 0.0016));
    CHECK(penner_limit_m_s(hole_radius_m) == 0);
    CHECK(penner_limit_m_s(2 * hole_radius_m) == 0);
}

}  // namespace
}  // namespace dewtrail
