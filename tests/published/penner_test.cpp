#include <catch2/catch.hpp>

#include "physics/hole/hole_capture.hpp"
#include "support/capture_limits.hpp"

// A. R. Penner, Can. J. Phys. 80, 83-96 (2002), from memory: limit 1.63 (1 - (offset/R)^2) m/s.

using namespace dewtrail;
using Catch::WithinAbs;

TEST_CASE("Penner's parabola beside the simulation", "[published]") {
    CHECK_THAT(penner_limit_m_s(0.5 * hole_radius_m), WithinAbs(1.2225, 1e-12));
    for (int i = 0; i < 20; ++i) {
        const double offset = i * 0.05 * hole_radius_m;
        const double ours = capture_limit_m_s(offset), theirs = penner_limit_m_s(offset);
        WARN("offset " << i * 0.05 << " R: simulated " << ours << ", Penner " << theirs << " m/s");
        // The two idealisations part by up to 0.3 m/s off the centre; derived here.
        CHECK_THAT(ours, WithinAbs(theirs, 0.3));
    }
}

TEST_CASE("the parabola is generous at mid-offset and strict at the edge", "[published]") {
    for (double q : {0.1, 0.2, 0.3, 0.4, 0.5, 0.75, 0.8})
        CHECK(penner_limit_m_s(q * hole_radius_m) > capture_limit_m_s(q * hole_radius_m));
    for (double q : {0.87, 0.9, 0.95, 0.99})
        CHECK(penner_limit_m_s(q * hole_radius_m) < capture_limit_m_s(q * hole_radius_m));
}
