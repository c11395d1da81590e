#include "viewer/text/words.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "tests/support/units.hpp"
#include "tests/viewer/text/both_units.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using oracle::degree;
using oracle::foot;
using oracle::inch;

TEST_CASE("Level putts: half feet, feet, paces", "[figures]") {
    REQUIRE(format_level_putt(9.6 * foot, imperial) == "9½ ft");
    REQUIRE(format_level_putt(15.2 * foot, imperial) == "15 ft");
    REQUIRE(format_level_putt(15.4 * foot, imperial) == "15 ft");
    REQUIRE(format_level_putt(22.4 * foot, imperial) == "22 ft");
    REQUIRE(format_level_putt(30.4 * foot, imperial) == "30 ft");
    REQUIRE(format_level_putt(33.0 * foot, imperial) == "11 paces");
    REQUIRE(format_level_putt(0.2 * foot, imperial) == "tap");
    REQUIRE(format_level_putt(-1.0, imperial) == "tap");
    REQUIRE(format_level_putt(3.65, metric) == "3.7 m");
    REQUIRE(format_level_putt(7.3, metric) == "7.5 m");
    REQUIRE(format_level_putt(10.0, metric) == "11 paces");
    REQUIRE(format_level_putt(nothing, metric) == "–");
    REQUIRE(level_putt_words(12.0 * foot, imperial) == "play it as a straight level 12-footer");
    REQUIRE(level_putt_words(9.5 * foot, imperial) == "play it as a straight level 9½-footer");
    REQUIRE(level_putt_words(33.0 * foot, imperial) ==
            "play it as a straight level putt of 11 paces");
    REQUIRE(level_putt_words(3.65, metric) == "play it as a straight level 3.7-metre putt");
    REQUIRE(level_putt_words(0.0, imperial) == "play it as a straight level tap");
    REQUIRE(level_putt_words(nothing, imperial) == "–");
}

TEST_CASE("Which way it goes", "[words]") {
    REQUIRE(direction_words(5.9 * degree, 3.6576, -0.005) == "Right to left, slightly downhill");
    REQUIRE(direction_words(-5.9 * degree, 3.6576, 0.02) == "Left to right, uphill");
    REQUIRE(direction_words(5.9 * degree, 3.6576, 0.0) == "Right to left");
    REQUIRE(direction_words(5.9 * degree, 3.6576, 0.0025) == "Right to left, slightly uphill");
    REQUIRE(direction_words(5.9 * degree, 3.6576, -0.01) == "Right to left, downhill");
    REQUIRE(direction_words(5.9 * degree, 3.6576, -0.03) == "Right to left, downhill");
    REQUIRE(direction_words(5.9 * degree, 3.6576, -0.035) == "Right to left, steeply downhill");
    REQUIRE(direction_words(0.0, 3.6576, 0.02) == "Straight, uphill");
    REQUIRE(direction_words(0.0, 3.6576, 0.0) == "Straight, level");
    // Half an inch at 12 ft is 0.199 degrees.
    REQUIRE(direction_words(0.19 * degree, 12.0 * foot, 0.02) == "Straight, uphill");
    REQUIRE(direction_words(0.21 * degree, 12.0 * foot, 0.02) == "Right to left, uphill");
    REQUIRE(direction_words(-100.0 * degree, 3.0, -0.04) == "Left to right, steeply downhill");
    REQUIRE(direction_words(180.0 * degree, 3.0, 0.02) == "Right to left, uphill");
    REQUIRE(direction_words(nothing, 3.0, 0.02) == "–");
}

TEST_CASE("The apex in words", "[words]") {
    REQUIRE(apex_words(2.16, 0.127, 3.6576, imperial) == "just past halfway, 5 in high");
    REQUIRE(apex_words(2.16, -0.127, 3.6576, metric) == "just past halfway, 13 cm high");
    REQUIRE(apex_words(1.8, 0.05, 3.6576, imperial) == "halfway, 2 in high");
    REQUIRE(apex_words(3.5, 0.05, 3.6576, imperial) == "near the hole, 2 in high");
    REQUIRE(apex_words(0.1, 0.05, 3.6576, imperial) == "near the ball, 2 in high");
    REQUIRE(apex_words(nothing, nothing, 3.6576, imperial) == "none, it runs straight");
    REQUIRE(apex_words(2.0, 1e-4, 3.6576, imperial) == "none, it runs straight");
    REQUIRE(apex_line_words(0.1, imperial) == "start line passes 4 in above it");
    REQUIRE(apex_line_words(nothing, imperial).empty());
}

TEST_CASE("How it finishes and goes in", "[words]") {
    REQUIRE(arrival_words(12.0 * inch, 0.55, 5.57, imperial) ==
            "a foot past, in over the front, right of centre");
    REQUIRE(arrival_words(12.0 * inch, 0.55, 6.43, imperial) ==
            "a foot past, in over the front, left of centre");
    REQUIRE(arrival_words(12.0 * inch, 0.55, 6.2, imperial) == "a foot past, in over the front");
    REQUIRE(arrival_words(12.0 * inch, 0.55, 5.75, imperial) == "a foot past, in over the front");
    REQUIRE(arrival_words(0.0, 0.0, nothing, imperial) == "dying");
    REQUIRE(arrival_words(24.0 * inch, 0.8, 6.0, imperial) == "firm, in over the front");
    REQUIRE(arrival_words(3.0 * inch, 0.3, 6.0, imperial) == "3 in past, in over the front");
    REQUIRE(arrival_words(0.3048, 0.5, 6.0, metric) == "30 cm past, in over the front");
    REQUIRE(arrival_words(nothing, 0.7, 6.0, imperial) ==
            "2.3 ft/s at the hole, in over the front");
    REQUIRE(arrival_words(nothing, nothing, 6.0, imperial) == "–");
    REQUIRE(entry_words(3.0) == "over the right side");
    REQUIRE(entry_words(9.0) == "over the left side");
    REQUIRE(entry_words(12.0) == "over the back");
    REQUIRE(entry_words(0.0) == "over the back");
    REQUIRE(entry_words(11.5) == "over the back");
    REQUIRE(entry_words(nothing).empty());
}

TEST_CASE("Room in words", "[words]") {
    REQUIRE(room_words(1.81 * inch, 1.86 * inch, 7.0 * inch, 8.0 * inch, imperial) ==
            "1¾ in either side, 7 in short to 8 in long");
    REQUIRE(room_words(1.0 * inch, 2.5 * inch, 7.0 * inch, 8.0 * inch, imperial) ==
            "1 in right to 2½ in left, 7 in short to 8 in long");
    REQUIRE(room_words(0.1 * inch, 0.1 * inch, 7.0 * inch, 8.0 * inch, imperial) ==
            "under ¼ in either side, 7 in short to 8 in long");
    REQUIRE(room_words(0.045, 0.046, 0.18, 0.2, metric) ==
            "5 cm either side, 18 cm short to 20 cm long");
    REQUIRE(room_words(nothing, 1.0, 1.0, 1.0, imperial) == "–");
}

TEST_CASE("Odds in words", "[words]") {
    REQUIRE(chance_words(0.14) == "about 1 in 7");
    REQUIRE(chance_words(0.5) == "about 5 in 10");
    REQUIRE(chance_words(0.36) == "about 1 in 3");
    REQUIRE(chance_words(0.62) == "about 6 in 10");
    REQUIRE(chance_words(0.949) == "about 9 in 10");
    REQUIRE(chance_words(0.97) == "nearly always");
    REQUIRE(chance_words(0.043) == "about 1 in 25");
    REQUIRE(chance_words(0.0) == "under 1 in 100");
    REQUIRE(chance_words(nothing) == "–");
    REQUIRE(odds_words(0.14, 0.7, nothing, 12.0 * foot, imperial) == "about 1 in 7");
    REQUIRE(odds_words(0.05, 0.7, nothing, 30.0 * foot, imperial) == "about 1 in 20");
    REQUIRE(odds_words(0.04, 0.62, 2.4 * foot, 40.0 * foot, imperial) ==
            "Lag: 6 in 10 finish inside 3 ft, usual leave 2½ ft");
    REQUIRE(odds_words(0.04, 0.62, nothing, 40.0 * foot, metric) ==
            "Lag: 6 in 10 finish inside 90 cm");
}

TEST_CASE("No phrase ever says nan or minus nought", "[words]") {
    for (const double value : {nothing, -nothing, -0.0, 1e300, -1e300, 1e-300}) {
        for (const Units& units : {imperial, metric}) {
            for (const std::string& said : {format_distance(value, units),
                                            format_length(value, units),
                                            format_slope(value),
                                            format_stimp(value),
                                            format_clock(value),
                                            format_entry_clock(value),
                                            format_speed(value, units),
                                            format_time(value),
                                            format_degrees(value),
                                            format_percent(value),
                                            format_half_percent(value),
                                            format_putts(value),
                                            format_spot(value),
                                            format_height(value, units),
                                            format_level_putt(value, units),
                                            aim_words(value, units),
                                            aim_short(value, units),
                                            apex_words(value, value, value, units),
                                            entry_words(value),
                                            arrival_words(value, value, value, units),
                                            level_putt_words(value, units),
                                            room_words(value, value, value, value, units),
                                            chance_words(value),
                                            odds_words(value, value, value, value, units),
                                            direction_words(value, value, value)}) {
                INFO(value << ": " << said);
                REQUIRE(said.find("nan") == std::string::npos);
                REQUIRE(said.find("inf") == std::string::npos);
                REQUIRE(said.find("-0") == std::string::npos);
                REQUIRE(said.find("−0") == std::string::npos);
            }
        }
    }
}
