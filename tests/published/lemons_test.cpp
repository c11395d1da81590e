/// J. Lemons, "Putting green speeds, slopes, and 'non-conforming' hole locations", USGA Green
/// Section Record (2008). Its chart, as quoted elsewhere: at stimp 14 nothing stops above 2.4
/// degrees (4.2 %). A ball that takes 5/7 of gravity and of resistance stops up to 3.21 degrees
/// (5.60 %), derived here: the model does not give the field's number and is not expected to.
/// Resistance at a crawl is lower than the average over a stimpmeter's roll.

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/read/plane_line.hpp"
#include "physics/roll/roll.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/units.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::degree;

TEST_CASE("published: the slope on which nothing stops at stimp 14", "[published]") {
    const double rho = oracle::resistance(14);
    const auto lines = lines_on_plane({0, 0.02}, rho, {2, 0}, Finish::past(0.3));
    // 3.202 degrees without the rounding on the way to the numbers above.
    CHECK_THAT(std::atan(lines.holds_up_to_slope) / degree, WithinAbs(3.21, 0.02));
    CHECK_THAT(lines.holds_up_to_slope, WithinAbs(0.0560, 1e-4));

    const auto rolled_down = [&](double degrees) {
        return roll(Plane({0, std::tan(degrees * degree)}), rho, {{0, 0}, M_PI, 0.1}).end;
    };
    CHECK(rolled_down(3.19) == RollEnd::at_rest);
    CHECK(rolled_down(3.22) == RollEnd::keeps_rolling);
}

}  // namespace
}  // namespace dewtrail
