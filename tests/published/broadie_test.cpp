#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "physics/numbers/minimise.hpp"
#include "published/clock_average.hpp"
#include "published/published_table.hpp"
#include "tests/support/units.hpp"
#include "viewer/putt/presets.hpp"

// The presets, derived again, and what was not fitted held against what was published. Printed in
// full by: dewtrail_tests "[broadie]" (and "[.derivation]" for the fits from scratch).

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::degree;
using published::ClockAverage;

struct Share {
    double feet, value;
};

// One-putt shares of the tour (Broadie; golf.com 2019) and expected putts (Broadie's note of 2011).
constexpr Share one_putt[] = {{3, 0.96},  {5, 0.77},  {8, 0.50}, {10, 0.40},
                              {15, 0.23}, {20, 0.15}, {30, 0.07}};
constexpr Share expected_putts[] = {{8, 1.50}, {33, 2.00}};
constexpr double short_from_10_ft = 0.07;
// Published is one figure for 8-footers up and down, 5 points.
constexpr double up_minus_down = 0.05;

Scatter preset(const char* name) {
    return scatter_of(*find_spread(name));
}

/// Sum of squares over the nine figures: shares in points, putts in units of 0.02.
double misfit_of_nine(const std::vector<NextPutts>& tables) {
    double sum = 0;
    for (const auto& [feet, share] : one_putt)
        sum += std::pow(100 * (ClockAverage::mean(tables, feet).holed - share), 2);
    for (const auto& [feet, putts] : expected_putts)
        sum += std::pow((ClockAverage::mean(tables, feet).putts - putts) / 0.02, 2);
    return sum;
}

/// The member of the family tour (0) - middle (1) that holes half from `feet`.
double half_holed_at(const ClockAverage& average, double feet) {
    const Scatter tour = preset("tour"), middle = preset("middle");
    const auto between = [](double a, double b, double u) { return a * std::pow(b / a, u); };
    double lo = -1, hi = 3;
    while (hi - lo > 0.01) {
        const double u = 0.5 * (lo + hi);
        const Scatter s{between(tour.line_rad, middle.line_rad, u),
                        between(tour.pace, middle.pace, u),
                        between(tour.pace_floor_m, middle.pace_floor_m, u),
                        between(tour.slope_read, middle.slope_read, u),
                        between(tour.fall_read_rad, middle.fall_read_rad, u)};
        (average.mean(s, feet).holed > 0.5 ? lo : hi) = u;
    }
    return lo;
}

Odds mean_odds(const ClockAverage& average, const std::vector<NextPutts>& tables,
               const Scatter& scatter, double feet) {
    constexpr double clocks[] = {0.75, 2.25, 3.75, 5.25};  // the other half is their mirror image
    Odds mean;
    for (std::size_t i = 0; i < tables.size(); ++i)
        for (const double clock : clocks) {
            const Putt putt = average.holes()[i].putt(feet, clock);
            const Odds o = best_choice(putt, scatter, tables[i])->fewest_putts.odds;
            mean.holed += o.holed / 8;
            mean.putts += o.putts / 8;
            mean.three_putt += o.three_putt / 8;
            mean.inside_3ft += o.inside_3ft / 8;
            mean.short_of_hole += o.short_of_hole / 8;
            mean.usual_leave_m += o.usual_leave_m / 8;
        }
    return mean;
}

/// The ten figures that are averages over the clock; shares in points.
double misfit(const ClockAverage& average, const Scatter& scatter) {
    const auto tables = average.next(scatter);
    const double left_short = mean_odds(average, tables, scatter, 10).short_of_hole;
    return misfit_of_nine(tables) + std::pow(100 * (left_short - short_from_10_ft), 2);
}

/// 8-footers on 3 %, stimp 11: points that those uphill are holed more often than those downhill.
struct UpMinusDown {
    double straight, diagonal;
};
enum class Played { a_foot_past, fewest_putts };

UpMinusDown up_minus_down_of(const Scatter& scatter, Played played) {
    const published::PlaneHole hole{11, 0.03};
    const NextPutts next(hole.surround, scatter);
    const auto holed = [&](double clock) {
        const BestChoice best = *best_choice(hole.putt(8, clock), scatter, next);
        return played == Played::a_foot_past ? best.plain->odds.holed
                                             : best.fewest_putts.odds.holed;
    };
    return {holed(6) - holed(12), holed(4.5) - holed(1.5)};
}

Scatter from_logs(const Eigen::VectorXd& x, double fall_read_rad) {
    return {std::exp(x[0]) * degree, std::exp(x[1]), std::exp(x[2]) * metres_per_foot,
            std::exp(x[3]), fall_read_rad};
}

/// The best four to the ten averages where the fall is seen with this spread.
std::pair<Scatter, double> fit_with(const ClockAverage& average, double fall_read_rad) {
    const auto f = [&](const Eigen::VectorXd& x) {
        return misfit(average, from_logs(x, fall_read_rad));
    };
    const Eigen::Vector4d start(std::log(1.05), std::log(0.088), std::log(0.2), std::log(0.002));
    const Minimum least = minimise(f, start, Eigen::Vector4d::Constant(0.2), 0.02, 250);
    return {from_logs(least.at, fall_read_rad), least.value};
}

TEST_CASE("one tour spread holes as the tour does", "[published][broadie]") {
    const ClockAverage average(11);
    const auto tables = average.next(preset("tour"));
    std::printf("tour spread, stimp 11, 1-2 %%, over the clock\n   ft   holed  published\n");
    for (const auto& [feet, share] : one_putt) {
        const double holed = ClockAverage::mean(tables, feet).holed;
        std::printf("%5.0f  %5.1f %%  %3.0f %%\n", feet, 100 * holed, 100 * share);
        CHECK_THAT(holed, WithinAbs(share, 0.02));  // asked for: 2 points
    }
    for (const auto& [feet, putts] : expected_putts) {
        const double mean = ClockAverage::mean(tables, feet).putts;
        std::printf("%5.0f  %5.3f putts, published %.2f\n", feet, mean, putts);
        CHECK_THAT(mean, WithinAbs(putts, 0.04));  // asked for
    }
}

TEST_CASE("the tour preset is a best fit", "[published][broadie]") {
    const ClockAverage average(11);
    const Scatter tour = preset("tour");
    const double here = misfit(average, tour);
    // Ten figures, four of them spent: 2.3 at the best, and rounding the preset costs little. A
    // tenth more or less of any of the four must not fit better than that rounding.
    CHECK(here < 2.6);
    for (double Scatter::*part :
         {&Scatter::line_rad, &Scatter::pace, &Scatter::pace_floor_m, &Scatter::slope_read})
        for (const double factor : {0.9, 1.1}) {
            Scatter other = tour;
            other.*part *= factor;
            CHECK(misfit(average, other) > here - 0.3);
        }
    // The fifth is at the published difference between up and down, to the half point between its
    // whole degrees.
    const auto off = [&](double fall_read_rad) {
        Scatter other = tour;
        other.fall_read_rad = fall_read_rad;
        const UpMinusDown d = up_minus_down_of(other, Played::fewest_putts);
        return std::abs(0.5 * (d.straight + d.diagonal) - up_minus_down);
    };
    CHECK(off(tour.fall_read_rad) < 0.01);
    CHECK(off(tour.fall_read_rad - 2 * degree) > off(tour.fall_read_rad));
    CHECK(off(tour.fall_read_rad + 2 * degree) > off(tour.fall_read_rad));
}

TEST_CASE("the tour preset, fitted from scratch", "[.derivation][broadie]") {
    const ClockAverage average(11);
    const Scatter tour = preset("tour");
    double least = HUGE_VAL, most = 0;
    for (const double fall : {0.0, 4.0, 8.0, 10.0}) {
        const auto [fit, value] = fit_with(average, fall * degree);
        const UpMinusDown d = up_minus_down_of(fit, Played::fewest_putts);
        std::printf(
            "fall %2.0f deg: line %.3f deg, pace %.4f, floor %.3f ft, slope read %.4f, "
            "misfit %.2f; up minus down %.1f straight, %.1f diagonal\n",
            fall, fit.line_rad / degree, fit.pace, fit.pace_floor_m / metres_per_foot,
            fit.slope_read, value, 100 * d.straight, 100 * d.diagonal);
        least = std::min(least, value);
        most = std::max(most, value);
        if (fall != 8) continue;
        // The valley is flat: what the four may drift along it at the cost of a few tenths.
        CHECK_THAT(fit.line_rad / tour.line_rad, WithinAbs(1, 0.05));
        CHECK_THAT(fit.pace / tour.pace, WithinAbs(1, 0.05));
        CHECK_THAT(fit.pace_floor_m / tour.pace_floor_m, WithinAbs(1, 0.4));  // 0.2 to 0.28 ft
        CHECK_THAT(fit.slope_read / tour.slope_read, WithinAbs(1, 0.2));
    }
    // Averages over the clock do not tell the fall's direction from the rest of what is misread.
    CHECK(most - least < 0.3);
}

TEST_CASE("low and high presets, from scratch", "[.derivation][broadie]") {
    const ClockAverage average(10);
    const double low_ft = 8 * std::pow(5.0 / 8, 7.0 / 19),
                 high_ft = 8 * std::pow(5.0 / 8, 29.0 / 19);
    std::printf("half holed at %.2f ft: %.2f of the way from tour to middle; at %.2f ft: %.2f\n",
                low_ft, half_holed_at(average, low_ft), high_ft, half_holed_at(average, high_ft));
    CHECK_THAT(half_holed_at(average, low_ft), WithinAbs(0.41, 0.02));  // the presets' rounding
    CHECK_THAT(half_holed_at(average, high_ft), WithinAbs(1.45, 0.03));
}

TEST_CASE("middle, low and high presets are where they were put", "[published][broadie]") {
    const ClockAverage average(10);
    const auto middle = average.next(preset("middle"));
    // Half the 5-footers: golfers of 90 strokes (Broadie 2014). A point is 0.04 deg of line.
    CHECK_THAT(ClockAverage::mean(middle, 5).holed, WithinAbs(0.5, 0.01));
    CHECK(ClockAverage::mean(middle, 2).holed > 0.93);  // nearly all
    // 8 ft (tour, 71 strokes) and 5 ft (90) drawn on geometrically to 78 and 100 strokes.
    const double low_ft = 8 * std::pow(5.0 / 8, 7.0 / 19),
                 high_ft = 8 * std::pow(5.0 / 8, 29.0 / 19);
    CHECK_THAT(average.mean(preset("low"), low_ft).holed, WithinAbs(0.5, 0.015));
    CHECK_THAT(average.mean(preset("high"), high_ft).holed, WithinAbs(0.5, 0.015));
}

TEST_CASE("what was not fitted: three-putts, short ones and leaves of the tour",
          "[published][broadie]") {
    const ClockAverage average(11);
    const Scatter tour = preset("tour");
    std::printf(
        "not fitted, tour\n   ft  three-putt (published, from memory)  short  usual leave\n");
    const auto tables = average.next(tour);
    double before = 0;
    for (const auto& [feet, share] :
         {Share{10, 0.01}, {20, 0.02}, {30, 0.05}, {40, 0.10}, {50, 0.17}, {60, 0.23}}) {
        const Odds o = mean_odds(average, tables, tour, feet);
        std::printf("%5.0f  %4.1f %% (%2.0f %%)  %4.1f %%  %.1f ft\n", feet, 100 * o.three_putt,
                    100 * share, 100 * o.short_of_hole, o.usual_leave_m / metres_per_foot);
        CHECK(o.three_putt > before);
        CHECK_THAT(o.three_putt, WithinAbs(share, 0.03));  // whole per cent, from memory
        before = o.three_putt;
        if (feet != 10) continue;
        CHECK_THAT(o.short_of_hole, WithinAbs(0.07, 0.02));  // Broadie: 7 %; tolerance of the brief
        CHECK_THAT(o.usual_leave_m / metres_per_foot, WithinAbs(1.6, 0.25));  // Broadie: 1.6 ft
    }
}

TEST_CASE("uphill against downhill on 3 %: what comes out and what does not",
          "[published][broadie]") {
    const Scatter tour = preset("tour");
    std::printf("8 ft on 3 %%, stimp 11: up minus down, points\n");
    // Broadie: 8-footers uphill holed 5 points more often. Their mean at the fewest-putts choice
    // was fitted; straight and diagonal, and a foot past, come out. 3 to 8 were asked for.
    for (const Played played : {Played::fewest_putts, Played::a_foot_past}) {
        const UpMinusDown d = up_minus_down_of(tour, played);
        std::printf("  %s  straight %.1f, diagonal %.1f\n",
                    played == Played::fewest_putts ? "fewest putts" : "a foot past ",
                    100 * d.straight, 100 * d.diagonal);
        for (const double points : {d.straight, d.diagonal}) {
            CHECK(points > 0.03);
            CHECK(points < 0.08);
        }
    }
    const published::PlaneHole hole{11, 0.03};
    const NextPutts next(hole.surround, tour);
    const auto leave_m = [&](double clock) {
        return best_choice(hole.putt(10, clock), tour, next)->fewest_putts.odds.usual_leave_m;
    };
    // Leaves of missed 10-footers, 1.1 ft up against 2.1 ft down (Broadie): down as published, up a
    // third more (ODDS.md section 6 says why), 0.75 for 0.52.
    std::printf("leaves of 10-footers: %.2f ft up, %.2f ft down\n", leave_m(6) / metres_per_foot,
                leave_m(12) / metres_per_foot);
    CHECK_THAT(leave_m(12) / metres_per_foot, WithinAbs(2.1, 0.2));
    CHECK(leave_m(6) < 0.8 * leave_m(12));
}

TEST_CASE("down a side hill an eighth fewer drop than up it on 3 %, a third fewer on 4 %",
          "[published][broadie]") {
    const Scatter tour = preset("tour");
    const auto fewer = [&](double slope) {
        const published::PlaneHole hole{11, slope};
        const NextPutts next(hole.surround, tour);
        const auto holed = [&](double clock) {
            return best_choice(hole.putt(8, clock), tour, next)->fewest_putts.odds.holed;
        };
        return 1 - holed(1.5) / holed(4.5);
    };
    // Broadie 2019: side-hill 8-footers on steep slopes, down the hill 'almost 20 percent less'
    // often than up it; how steep is not said. Fitted by nothing.
    const double on_3 = fewer(0.03), on_4 = fewer(0.04);
    std::printf("side hills, fewer down than up: %.0f %% on 3 %%, %.0f %% on 4 %%\n", 100 * on_3,
                100 * on_4);
    CHECK(on_3 > 0.05);
    CHECK(on_3 < 0.20);
    CHECK(on_4 > 0.20);
}

TEST_CASE("amateurs leave more short than the tour", "[published][broadie]") {
    const ClockAverage average(10);
    const Scatter middle = preset("middle");
    const Odds o = mean_odds(average, average.next(middle), middle, 10);
    std::printf("middle, 10 ft: short %.0f %% (amateurs 17 %%)\n", 100 * o.short_of_hole);
    // Broadie: 17 % of amateurs' 10-footers, 7 % of the tour's. The order comes out; the size, near
    // 30 %, does not: with a pace spread of 14 % the fewest putts come from nearer the hole.
    CHECK(o.short_of_hole > 0.12);
}

TEST_CASE("the capture model fits 31 distances with line and pace alone", "[published][fit]") {
    const auto rows = published::putts("broadie_putts_31.csv");
    const FitGround ground{.resistance = resistance_of_stimp(11 * metres_per_foot)};
    const SpreadFit fit = fit_spread(rows, preset("tour"), ground);
    REQUIRE(fit.outcome == SpreadFit::Outcome::both);
    double worst = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        worst = std::max(worst, std::abs(fit.expected[i] - rows[i].holed / rows[i].tries));
    std::printf(
        "31 distances, a foot past on 1.5 %%: line %.3f +- %.3f deg, pace %.4f +- %.4f, worst "
        "%.4f\n",
        fit.scatter.line_rad / degree, fit.line_error_rad / degree, fit.scatter.pace,
        fit.pace_error, worst);
    CHECK(worst < 0.015);  // the descriptive model: 0.008
}

TEST_CASE("the tour preset meets 31 distances that it never saw", "[published][broadie]") {
    // Other years than the nine figures; every putt the fewest-putts choice, 1 and 2 %, as there.
    const auto tables = ClockAverage(11).next(preset("tour"));
    double worst = 0;
    for (const HoledRow& row : published::putts("broadie_putts_31.csv")) {
        const double feet = row.distance_m / metres_per_foot;
        if (feet > 60) continue;  // beyond the outermost ring
        const double off = ClockAverage::mean(tables, feet).holed - row.holed / row.tries;
        worst = std::max(worst, std::abs(off));
    }
    std::printf("31 distances, tour preset, fewest putts: worst %.4f\n", worst);
    CHECK(worst < 0.015);  // as asked of the fit
}

}  // namespace
}  // namespace dewtrail
