/// Rules of thumb of the trade, held against the model: common practice, no source, every one of
/// them. Ranges are the trade's own; where the model lies inside with room to spare, its own range
/// (derived here by plain integration) is checked too. Side-hill putts from 3:00, 12 in past,
/// unless said.

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/putts.hpp"
#include "tests/support/units.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

using oracle::foot;
using oracle::inch;

Read read_of(double stimp_ft, double slope, double feet, double clock_h = 3) {
    return oracle::read_of(
        oracle::bare_putt(stimp_ft, slope, feet, clock_h, oracle::inches_past(12)));
}

double aim_in(double stimp_ft, double slope, double feet, double clock_h = 3) {
    return std::abs(read_of(stimp_ft, slope, feet, clock_h).aim_offset_m.value()) / inch;
}

void check_between(double value, double lo, double hi) {
    CHECK(value >= lo);
    CHECK(value <= hi);
}

TEST_CASE("common practice: inches of aim on a 10-ft side-hill putt", "[common-practice]") {
    struct Rule {
        double slope, lo, hi, model_at_8, model_at_12;
    };
    const auto r = GENERATE(values<Rule>(
        {{0.01, 4, 8, 4.7, 7.1}, {0.02, 8, 16, 9.5, 14.6}, {0.03, 13, 26, 14.6, 23.3}}));
    for (const double stimp : {8.0, 9.0, 10.0, 11.0, 12.0})
        check_between(aim_in(stimp, r.slope, 10), r.lo, r.hi);
    // The plain integration left out friction's cos(theta), a tenth of an inch at 3 %.
    CHECK_THAT(aim_in(8, r.slope, 10), WithinAbs(r.model_at_8, 0.15));
    CHECK_THAT(aim_in(12, r.slope, 10), WithinAbs(r.model_at_12, 0.15));
}

TEST_CASE("common practice: aim is 0.6 x slope percent x feet x stimp/10", "[common-practice]") {
    for (const double stimp : {8.0, 10.0, 12.0})
        for (const double percent : {1.0, 2.0, 3.0})
            for (const double feet : {6.0, 10.0, 15.0, 20.0}) {
                const double rule = 0.6 * percent * feet * stimp / 10;
                INFO("stimp " << stimp << ", " << percent << " %, " << feet << " ft");
                // Within a fifth at the stimps of every day; a touch over on fast and steep.
                check_between(aim_in(stimp, percent / 100, feet) / rule, 0.8,
                              stimp * percent < 36 ? 1.2 : 1.35);
            }
}

TEST_CASE("common practice: twice the slope, twice the break", "[common-practice]") {
    check_between(aim_in(10, 0.02, 10) / aim_in(10, 0.01, 10), 2, 2.3);
    check_between(aim_in(10, 0.04, 10) / aim_in(10, 0.02, 10), 2, 2.3);
}

TEST_CASE("common practice: twice the length, twice the break and a bit", "[common-practice]") {
    for (const double feet : {5.0, 10.0, 20.0})
        check_between(aim_in(10, 0.02, 2 * feet) / aim_in(10, 0.02, feet), 2, 2.5);
}

TEST_CASE("common practice: a foot of stimp is a tenth of the break", "[common-practice]") {
    const double slope = GENERATE(0.01, 0.02);
    check_between(aim_in(11, slope, 10) / aim_in(10, slope, 10), 1.08, 1.12);
}

TEST_CASE("common practice: downhill breaks up to twice as much as uphill", "[common-practice]") {
    double before = 1.2;
    for (const double slope : {0.01, 0.02, 0.03}) {
        const double ratio = aim_in(10, slope, 10, 1.5) / aim_in(10, slope, 10, 4.5);
        check_between(ratio, before, 2.2);
        before = ratio;
    }
}

/// What a straight uphill putt of this slope takes over a level one, level putt against level putt.
double extra_m(double stimp_ft, double slope, double feet) {
    return read_of(stimp_ft, slope, feet, 6).level_putt_m - feet * foot;
}

TEST_CASE("common practice: an inch of height is a foot of roll", "[common-practice]") {
    const auto feet_per_inch = [](double stimp_ft, double slope) {
        return extra_m(stimp_ft, slope, 10) / foot / (slope * 10 * foot / inch);
    };
    for (const double stimp : {8.0, 9.0, 10.0})
        for (const double slope : {0.01, 0.02})
            check_between(feet_per_inch(stimp, slope), 0.8, 1.2);
    // On a fast green it is more, and the rule is off.
    check_between(feet_per_inch(12, 0.01), 1.3, 1.5);
}

TEST_CASE("common practice: one percent up is a tenth of the length", "[common-practice]") {
    const auto share = [](double stimp_ft) { return extra_m(stimp_ft, 0.01, 10) / (10 * foot); };
    check_between(share(8), 0.08, 0.15);
    check_between(share(10), 0.08, 0.15);
    check_between(share(12), 0.15, 0.18);  // faster than the rule
}

TEST_CASE("common practice: the apex is just past halfway, a third of the aim high",
          "[common-practice]") {
    const double stimp = GENERATE(8.0, 10.0, 12.0), slope = GENERATE(0.01, 0.02, 0.03);
    const Read line = read_of(stimp, slope, 10);
    REQUIRE(line.apex);
    check_between(line.apex->along_m / (10 * foot), 0.55, 0.65);
    check_between(line.apex->offset_m / *line.aim_offset_m, 0.30, 0.37);
}

TEST_CASE("common practice: a ball started at its own apex plays 56-57 % of the break",
          "[common-practice]") {
    const Read line = read_of(10, 0.02, 12);
    REQUIRE(line.apex);
    const double aimed_at_apex = line.apex->offset_m / line.apex->along_m * 12 * foot;
    check_between(aimed_at_apex / *line.aim_offset_m, 0.56, 0.57);

    // And misses on the low side, by about six inches where it passes the hole.
    const Putt putt = oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12));
    const Stroke stroke{std::atan(line.apex->offset_m / line.apex->along_m), line.stroke.speed_m_s};
    const Read rolled = describe_stroke(putt, stroke, oracle::line_only());
    REQUIRE(rolled.roll.pass);
    check_between(-in_player_frame(putt, rolled.roll.pass->at).offset_m / inch, 5, 7.5);
}

/// How far the ball has come back from its start line once it is `along_m` on its way.
double shown_m(const Read& line, const Putt& putt, double along_m) {
    for (std::size_t i = 1; i < line.roll.path.size(); ++i) {
        const PlayerPoint a = in_player_frame(putt, line.roll.path[i - 1].at);
        const PlayerPoint b = in_player_frame(putt, line.roll.path[i].at);
        if (b.along_m < along_m) continue;
        const double t = (along_m - a.along_m) / (b.along_m - a.along_m);
        const double offset = a.offset_m + t * (b.offset_m - a.offset_m);
        return std::abs(along_m * std::tan(line.stroke.angle_rad) - offset);
    }
    return 0;
}

TEST_CASE("common practice: halfway a fifth of the break has shown, the last yard makes half",
          "[common-practice]") {
    const double stimp = GENERATE(8.0, 10.0, 12.0);
    const Putt putt = oracle::bare_putt(stimp, 0.02, 12, 3, oracle::inches_past(12));
    ReadOptions options = oracle::line_only();
    options.keep_path = true;
    const Read line = read(putt, options).lines.at(0);
    const double all = std::abs(*line.aim_offset_m);
    check_between(shown_m(line, putt, 6 * foot) / all, 0.165, 0.20);
    check_between(1 - shown_m(line, putt, 9 * foot) / all, 0.445, 0.57);
}

TEST_CASE("common practice: one degree is an inch in five feet", "[common-practice]") {
    const auto [feet, inches] =
        GENERATE(table<double, double>({{5, 1.0}, {8, 1.7}, {12, 2.5}, {20, 4.2}}));
    const Putt putt = oracle::bare_putt(10, 0, feet, 6, oracle::inches_past(12));
    const Read rolled = describe_stroke(putt, {M_PI / 180, 3}, oracle::line_only());
    CHECK_THAT(*rolled.aim_offset_m / inch, WithinAbs(inches, 0.05));
}

TEST_CASE("common practice: a 10-ft putt takes two to three seconds", "[common-practice]") {
    check_between(read_of(10, 0, 10).arrival_time_s, 2, 3);
    CHECK_THAT(read_of(10, 0, 10).arrival_time_s, WithinAbs(2.5, 0.1));
    check_between(read_of(10, 0.02, 10).arrival_time_s, 2, 3);
}

TEST_CASE("common practice: a hint of slope in inches of an imagined hole", "[common-practice]") {
    // Slightly downhill at 15-18 ft: as if the hole were 2-3 in nearer.
    for (const double feet : {15.0, 18.0}) {
        const double nearer = feet * foot - read_of(10, 0.001, feet, 0).level_putt_m;
        check_between(nearer / inch, 2, 3);
    }
    // Slightly uphill at 70 ft: 2-3 ft farther.
    check_between(extra_m(10, 0.003, 70) / foot, 2, 3);
}

}  // namespace
}  // namespace dewtrail
