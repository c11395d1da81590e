#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "physics/read/plane_line.hpp"
#include "published/clock_average.hpp"
#include "viewer/putt/presets.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// All of a preset's distance scatter on one putt, reading included, as a share of its length.
double distance_scatter(const published::PlaneHole& hole, const char* name, double metres,
                        double clock) {
    Putt putt = hole.putt(metres / metres_per_foot, clock);
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    const Stroke stroke =
        lines_on_plane(plane->gradient(), putt.resistance, putt.line(), putt.finish)
            .strokes.front();
    const StrokeSpread spread =
        stroke_spread(stroke.angle_rad, level_roll_m(stroke.speed_m_s, putt.resistance),
                      scatter_of(*find_spread(name)), *read_slope_sensitivity(putt, stroke));
    return std::sqrt(spread.covariance(1, 1)) / spread.level_roll_m;
}

// Karlsen & Nilsson, Int. J. Sports Sci. Coaching (2008): 43 players, mean handicap 2.8. Distance
// scatter 10.6 % over 40 varied putts of 2.2 to 19.3 m; 6.8 % over repeated putts of 6 m.
TEST_CASE("distance scatter of good players beside Karlsen & Nilsson", "[published][karlsen]") {
    const published::PlaneHole hole{10, 0.015};
    for (const char* name : {"tour", "low"}) {
        double sum = 0;
        int count = 0;
        for (const double metres : {2.2, 6.0, 10.0, 19.3})
            for (const double clock : {12.0, 2.0, 4.0, 6.0}) {
                sum += std::pow(distance_scatter(hole, name, metres, clock), 2);
                ++count;
            }
        const double scatter = std::sqrt(sum / count);
        std::printf("%s: distance scatter %.1f %% (Karlsen & Nilsson 10.6 %%)\n", name,
                    100 * scatter);
        // Neither preset saw this figure. A handicap of 2.8 lies between the two; their own spread
        // over greens and slopes is unknown, so a fifth is asked for.
        CHECK_THAT(scatter, WithinAbs(0.106, 0.021));
    }
}

}  // namespace
}  // namespace dewtrail
