#include "physics/roll/lockstep_roll.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "tests/support/allocations.hpp"
#include "tests/support/plane_putt.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

namespace dewtrail {
namespace {

constexpr double usual = 1e-6;  ///< tolerance

std::vector<PlainRoll> rolled(const Surface& surface, double resistance,
                              const std::vector<Launch>& launches, const RollOptions& options) {
    std::vector<PlainRoll> rolls(launches.size());
    roll_in_lockstep(surface, resistance, launches, options, rolls);
    return rolls;
}

RollOptions at_tolerance(double tolerance) {
    RollOptions options;
    options.tolerance = tolerance;
    return options;
}

/// From all over a green, all ways, soft to hard, every third from near a hole toward it: many
/// leave the green, some climb and turn back.
std::vector<Launch> anywhere(const Green& green, oracle::Random& random, int count) {
    const Vec2 hole = green.holes.begin()->second;
    std::vector<Launch> launches;
    while (launches.size() < static_cast<std::size_t>(count)) {
        Launch launch{{random.between(-15, 15), random.between(-15, 15)},
                      random.between(-4, 4),
                      random.log_between(0.2, 5)};
        if (launches.size() % 3 == 0)
            launch.from = hole - random.between(0.3, 2) * along_bearing(launch.bearing_rad);
        if (green.outline.inside_by(launch.from) > 0) launches.push_back(launch);
    }
    return launches;
}

TEST_CASE("in lockstep on a plane balls end where the closed form says", "[lockstep]") {
    const double slope = 0.03, rho = oracle::resistance(10), cosine = 1 / std::sqrt(1.0009);
    std::vector<Launch> launches;
    for (int i = 0; i < 21; ++i) launches.push_back({{1, -2}, M_PI / 2, 0.3 + 0.15 * i});
    const auto rolls = rolled(Plane({0, slope}), rho, launches, at_tolerance(1e-9));
    for (std::size_t i = 0; i < launches.size(); ++i) {
        const auto exact = oracle::PlaneRoll{5.0 / 7 * gravity_m_s2 * slope * cosine, rho / slope,
                                             launches[i].speed_m_s, 1}
                               .rest();
        const Vec2 end(1 + double(exact.across), -2 - double(exact.downhill) * cosine);
        INFO(launches[i].speed_m_s << " m/s");
        CHECK((rolls[i].last - end).norm() < 2e-6);
        CHECK(rolls[i].end == RollEnd::at_rest);
    }
}

TEST_CASE("in lockstep balls do on a green what they do one by one", "[lockstep]") {
    oracle::Random random(11);
    int rims = 0;
    for (const char* name : {"meadow", "saddle", "stairs"}) {
        const Green green = oracle::shipped_green(name);
        const double rho = oracle::resistance(green.stimp_ft);
        const auto launches = anywhere(green, random, 200);
        RollOptions options = at_tolerance(1e-8), exactly = at_tolerance(1e-11);
        options.outline = exactly.outline = &green.outline;
        options.hole = exactly.hole = green.holes.begin()->second;
        const auto rolls = rolled(*green.surface, rho, launches, options);
        int left = 0;
        for (std::size_t i = 0; i < launches.size(); ++i) {
            const Roll one = roll(*green.surface, rho, launches[i], exactly);
            INFO(name << ", ball " << i << ", " << describe(one.end));
            CHECK(rolls[i].end == one.end);
            CHECK((rolls[i].last - one.last.at).norm() < 2e-5);
            const bool off = one.rim && one.off_green && one.off_green->arc_m < one.rim->arc_m;
            REQUIRE(rolls[i].rim.has_value() == (one.rim && !off));
            left += one.end == RollEnd::left_the_green;
            if (!rolls[i].rim) continue;
            ++rims;
            CHECK((rolls[i].rim->at - one.rim->at).norm() < 1e-4);  // it grazes the rim at worst
            CHECK(std::abs(rolls[i].rim->speed_m_s - one.rim->speed_m_s) < 1e-4);
        }
        CHECK(left > 20);
        CHECK(left < 180);
    }
    CHECK(rims > 10);
}

TEST_CASE("asked for the rim, balls in lockstep stop there", "[lockstep]") {
    const Green green = oracle::shipped_green("meadow");
    const Putt putt = oracle::putt_on(green, "front", "flag", oracle::inches_past(12));
    const Stroke stroke = oracle::read_of(putt).stroke;
    std::vector<Launch> launches;
    for (int i = 0; i < 9; ++i)
        launches.push_back(putt.launch({stroke.angle_rad + 0.003 * (i - 4), stroke.speed_m_s}));
    RollOptions options = at_tolerance(usual);
    options.hole = putt.hole;
    options.until_rim = true;
    int at_rim = 0;
    for (const PlainRoll& r : rolled(*putt.surface, putt.resistance, launches, options)) {
        CHECK(r.rim.has_value() == (r.end == RollEnd::at_rim));
        if (r.end != RollEnd::at_rim) continue;
        ++at_rim;
        CHECK(r.last == r.rim->at);
        CHECK(std::abs((r.last - putt.hole).norm() - hole_radius_m) < 1e-6);
    }
    CHECK(at_rim >= 3);
}

TEST_CASE("the company that a ball keeps in lockstep hardly moves it", "[lockstep]") {
    const Green green = oracle::shipped_green("meadow");
    oracle::Random random(3);
    auto launches = anywhere(green, random, 64);
    const double rho = oracle::resistance(10);
    const auto forth = rolled(*green.surface, rho, launches, at_tolerance(usual));
    std::reverse(launches.begin(), launches.end());
    launches.pop_back();
    const auto back = rolled(*green.surface, rho, launches, at_tolerance(usual));
    for (std::size_t i = 0; i < back.size(); ++i) {
        const PlainRoll& other = forth[forth.size() - 1 - i];
        REQUIRE(back[i].end == other.end);
        if (other.end == RollEnd::at_rest) CHECK((back[i].last - other.last).norm() < 5e-4);
    }
}

TEST_CASE("under conditions balls in lockstep do what they do one by one", "[lockstep]") {
    // The same equations, in arrays here and one by one there, by methods of order 5 and 8.
    Conditions windy, grainy, slow, all, skidding;
    windy.wind_m_s = {4, -3};
    grainy.grain = {0.2, -0.1};
    slow.slow_share = 0.7;
    all = {.wind_m_s = {-2, 3}, .grain = {0.1, 0.1}, .slow_share = 0.8};
    skidding.launch_spin = 0;
    const Green green = oracle::shipped_green("meadow");
    const double rho = oracle::resistance(green.stimp_ft);
    for (const Conditions& conditions : {windy, grainy, slow, all, skidding}) {
        oracle::Random random(8);
        const std::vector<Launch> launches = anywhere(green, random, 40);
        RollOptions options = at_tolerance(1e-8), exactly = at_tolerance(1e-11);
        options.hole = exactly.hole = green.holes.begin()->second;
        options.outline = exactly.outline = &green.outline;
        options.conditions = exactly.conditions = conditions;
        const auto rolls = rolled(*green.surface, rho, launches, options);
        for (std::size_t i = 0; i < launches.size(); ++i) {
            const Roll alone = roll(*green.surface, rho, launches[i], exactly);
            INFO("ball " << i);
            CHECK(rolls[i].end == alone.end);
            CHECK((rolls[i].last - alone.last.at).norm() < 2e-5);  // as without conditions
            REQUIRE(rolls[i].rim.has_value() == alone.rim_on_green().has_value());
            if (rolls[i].rim) CHECK((rolls[i].rim->at - alone.rim->at).norm() < 1e-4);
        }
    }
}

TEST_CASE("lockstep allocates nothing, none does nothing, and what it cannot do it refuses",
          "[lockstep]") {
    const Putt putt = oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12));
    std::vector<Launch> launches(10, putt.launch({0.1, 2}));
    std::vector<PlainRoll> rolls(10);
    RollOptions options = at_tolerance(usual);
    const auto roll_all = [&](std::size_t count) {
        roll_in_lockstep(*putt.surface, putt.resistance, std::span(launches).first(count), options,
                         std::span(rolls).first(count));
    };
    const long before = oracle::allocations();
    roll_all(10);
    CHECK(oracle::allocations() == before);
    CHECK(rolls[9].last == rolls[0].last);
    roll_all(0);
    CHECK_THROWS_AS(roll_in_lockstep(*putt.surface, putt.resistance, launches, options, {}),
                    std::invalid_argument);
    options.keep_path = true;
    CHECK_THROWS_AS(roll_all(1), std::invalid_argument);
    options.keep_path = false;
    launches[1].speed_m_s = -1;
    CHECK_THROWS_AS(roll_all(2), std::invalid_argument);
}

}  // namespace
}  // namespace dewtrail
