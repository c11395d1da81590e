/// Bands for a slope and a stimp known only so well, against sampled truths.

#include "physics/read/band.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "physics/read/plane_line.hpp"
#include "physics/roll/green_speed.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::bare_putt;
using oracle::inches_past;

Read read_with_costs(const Putt& putt) {
    ReadOptions options = oracle::line_only();
    options.costs = true;
    const ReadResult result = read(putt, options);
    REQUIRE(result.lines.size() == 1);
    return result.lines[0];
}

/// Share of 10,000 truths whose aim lies inside the band.
double covered(const Putt& putt, double stimp_ft, double slope, const Sure& sure,
               std::uint64_t seed) {
    const Read read = read_with_costs(putt);
    const Band band = band_of(putt, read, sure);
    REQUIRE(band.aim_linear);
    REQUIRE(band.aim_m);
    oracle::Random random(seed);
    constexpr int truths = 10000;
    constexpr double z95 = 1.959964;
    int inside = 0;
    for (int i = 0; i < truths; ++i) {
        const double true_slope = slope + sure.slope / z95 * random.normal();
        const double true_stimp_m =
            stimp_ft * metres_per_foot + sure.stimp_m / z95 * random.normal();
        const auto lines = lines_on_plane({0, true_slope}, resistance_of_stimp(true_stimp_m),
                                          putt.line(), putt.finish);
        REQUIRE(lines.strokes.size() == 1);
        const double aim = putt.distance_m() * std::tan(lines.strokes[0].angle_rad);
        inside += std::abs(aim - *read.aim_offset_m) <= *band.aim_m;
    }
    return double(inside) / truths;
}

TEST_CASE("on level ground a slope known so well may fall any way") {
    const Putt putt = bare_putt(10, 0, 10, 12, inches_past(12));
    constexpr double slope = 0.002;
    const Band band = band_of(putt, read_with_costs(putt), {slope, 0});
    REQUIRE(band.aim_m);
    REQUIRE(band.level_putt_m);
    CHECK(band.aim_linear);
    CHECK(band.level_putt_linear);
    // The widest that any fall of that slope moves them, by the closed form.
    double aim = 0, pace = 0;
    for (int degree = 0; degree < 360; degree += 5) {
        const double turn = degree * M_PI / 180;
        const auto lines = lines_on_plane({slope * std::cos(turn), slope * std::sin(turn)},
                                          putt.resistance, putt.line(), putt.finish);
        REQUIRE(lines.strokes.size() == 1);
        const Stroke& stroke = lines.strokes[0];
        aim = std::max(aim, std::abs(putt.distance_m() * std::tan(stroke.angle_rad)));
        pace = std::max(pace, std::abs(level_roll_m(stroke.speed_m_s, putt.resistance) -
                                       read_with_costs(putt).level_roll_m));
    }
    // To first order; the half-width's square is left out, a twentieth of it here.
    CHECK_THAT(*band.aim_m, WithinAbs(aim, 0.05 * aim));
    CHECK_THAT(*band.level_putt_m, WithinAbs(pace, 0.05 * pace));
}

TEST_CASE("bands hold the truth 19 times in 20 where they say they are in proportion") {
    int putts = 0;
    for (const double clock : {1.5, 3.0, 4.5, 5.5, 8.0})
        for (const double slope : {0.01, 0.02})
            for (const double feet : {8.0, 25.0}) {
                INFO("clock " << clock << " slope " << slope << " feet " << feet);
                const Putt putt = bare_putt(10, slope, feet, clock, inches_past(12));
                const double share = covered(putt, 10, slope, {0.002, 0.5 * metres_per_foot},
                                             static_cast<std::uint64_t>(++putts));
                // 0.95 with a standard error of 0.002 from 10,000 truths.
                CHECK(share > 0.94);
                CHECK(share < 0.96);
            }
    CHECK(putts == 20);
}

TEST_CASE("a band that is not in proportion says so") {
    // Friction over slope 1.3: half a percent either way is a third of what is left.
    const Putt steep = bare_putt(12, 0.05, 12, 2, inches_past(12));
    CHECK_FALSE(band_of(steep, read_with_costs(steep), {0.005, 0}).aim_linear);
    // Where the steeper end lets nothing stop there is no read at all.
    const Putt edge = bare_putt(13, 0.058, 12, 4, inches_past(12));
    CHECK_FALSE(band_of(edge, read_with_costs(edge), {0.004, 0}).aim_linear);
    const Putt gentle = bare_putt(10, 0.01, 12, 3, inches_past(12));
    CHECK(band_of(gentle, read_with_costs(gentle), {0.001, 0.1}).aim_linear);
}

TEST_CASE("half-widths below nought are refused; none at all give a band of nought",
          "[band][nan]") {
    const Putt putt = bare_putt(10, 0.02, 12, 3, inches_past(12));
    const Read read = read_with_costs(putt);
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    for (const Sure& wrong : {Sure{-0.01, 0}, Sure{0, -0.1}, Sure{nan, 0}, Sure{0, nan}})
        CHECK_THROWS_AS(band_of(putt, read, wrong), std::invalid_argument);
    const Band none = band_of(putt, read, {0, 0});
    CHECK(none.aim_m == 0.0);
    CHECK(none.level_putt_m == 0.0);
    CHECK(none.aim_linear);
}

TEST_CASE("without its costs a read has no band where something is unsure", "[band]") {
    const Putt putt = bare_putt(10, 0.02, 12, 3, inches_past(12));
    Read read = read_with_costs(putt);
    read.costs = {};
    CHECK_FALSE(band_of(putt, read, {0.005, 0}).aim_m);
    CHECK_FALSE(band_of(putt, read, {0, 0.15}).level_putt_m);
    CHECK(band_of(putt, read, {0, 0}).aim_m == 0.0);
}

TEST_CASE("near where balls no longer stop a band is out of proportion", "[band]") {
    // 4.4 % on stimp 11: with half a per cent more nothing stops on a plane.
    const Putt putt = bare_putt(11, 0.044, 6, 3, inches_past(6));
    const Band band = band_of(putt, read_with_costs(putt), {0.008, 0});
    CHECK_FALSE(band.aim_linear);
}

}  // namespace
}  // namespace dewtrail
