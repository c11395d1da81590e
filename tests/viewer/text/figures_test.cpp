#include "viewer/text/figures.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <string>

#include "tests/support/units.hpp"
#include "tests/viewer/text/both_units.hpp"

using namespace dewtrail;
using oracle::foot;
using oracle::inch;

TEST_CASE("Distances in figures", "[figures]") {
    REQUIRE(format_distance(12.0 * foot, imperial) == "12 ft");
    REQUIRE(format_distance(7.0 * foot + inch, imperial) == "7 ft 1 in");
    REQUIRE(format_distance(11.99 * foot, imperial) == "12 ft");
    REQUIRE(format_distance(8.0 * inch, imperial) == "8 in");
    REQUIRE(format_distance(11.6 * inch, imperial) == "1 ft");
    REQUIRE(format_distance(3.6576, metric) == "3.66 m");
    REQUIRE(format_distance(0.853, metric) == "85 cm");
    REQUIRE(format_distance(0.996, metric) == "1.00 m");
    REQUIRE(format_distance(nothing, imperial) == "–");
}

TEST_CASE("Short lengths in figures", "[figures]") {
    REQUIRE(format_length(15.2 * inch, imperial) == "15 in");
    REQUIRE(format_length(1.7 * inch, imperial) == "1¾ in");
    REQUIRE(format_length(0.3 * inch, imperial) == "¼ in");
    REQUIRE(format_length(0.1 * inch, imperial) == "0 in");
    REQUIRE(format_length(2.9 * inch, imperial) == "3 in");
    REQUIRE(format_length(3.4 * inch, imperial) == "3 in");
    REQUIRE(format_length(31.0 * inch, imperial) == "31 in");
    REQUIRE(format_length(35.6 * inch, imperial) == "3 ft");
    REQUIRE(format_length(38.0 * inch, imperial) == "3 ft 2 in");
    REQUIRE(format_length(-15.2 * inch, imperial) == "15 in");
    REQUIRE(format_length(0.381, metric) == "38 cm");
    REQUIRE(format_length(2.16, metric) == "2.16 m");
    REQUIRE(format_past(nothing, metric) == "–");
    REQUIRE(format_aim(std::numeric_limits<double>::infinity(), imperial) == "–");
    REQUIRE(format_height(0.5 * inch, imperial) == "+½ in");
    REQUIRE(format_height(-1.0 * inch, imperial) == "−1 in");
    REQUIRE(format_height(-0.01 * inch, imperial) == "0 in");
    REQUIRE(format_height(0.015, metric) == "+1½ cm");
}

TEST_CASE("A given figure is not rounded into another", "[figures]") {
    REQUIRE(format_given_percent(0.0035) == "0.35 %");
    REQUIRE(format_given_percent(0.005) == "½ %");
    REQUIRE(format_given_percent(0.14) == "14 %");
    REQUIRE(format_given_percent(0.125) == "12½ %");
    REQUIRE(format_given_percent(0.0) == "0 %");
    REQUIRE(format_given_percent(nothing) == "–");
    REQUIRE(format_given_degrees(1.85) == "1.85°");
    REQUIRE(format_given_degrees(1.6) == "1.6°");
}

TEST_CASE("What was typed is set like a figure, not rounded", "[figures]") {
    REQUIRE(as_typed("12", "ft") == "12 ft");
    REQUIRE(as_typed("12.3ft", "ft") == "12.3 ft");
    REQUIRE(as_typed("12ft6in", "ft") == "12 ft 6 in");
    REQUIRE(as_typed("4½paces", "ft") == "4½ paces");
    REQUIRE(as_typed("2%", "%") == "2 %");
    REQUIRE(as_typed("1.1deg", "%") == "1.1°");
    REQUIRE(as_typed("1.1°", "%") == "1.1°");
    REQUIRE(as_typed("1:40", "%") == "1:40");
    REQUIRE(as_typed("11.2", "") == "11.2");
    REQUIRE(as_typed("quick", "").empty());
    REQUIRE(as_typed("1.6deg/-0.9deg", "%").empty());
}

TEST_CASE("Slope, stimp, clock, speed, time, angle, shares in figures", "[figures]") {
    REQUIRE(format_slope(0.02) == "2 %");
    REQUIRE(format_slope(0.0174) == "1¾ %");
    REQUIRE(format_slope(0.0026) == "¼ %");
    REQUIRE(format_slope(-0.005) == "−½ %");
    REQUIRE(format_slope(-0.001) == "0 %");
    REQUIRE(format_slope(nothing) == "–");
    REQUIRE(format_stimp(10.1) == "10");
    REQUIRE(format_stimp(9.4) == "9½");
    REQUIRE(format_clock(3.5) == "3:30");
    REQUIRE(format_clock(3.1) == "3:00");
    REQUIRE(format_clock(12.0) == "12:00");
    REQUIRE(format_clock(0.0) == "12:00");
    REQUIRE(format_clock(11.95) == "12:00");
    REQUIRE(format_clock(12.3) == "12:15");
    REQUIRE(format_clock(nothing) == "–");
    REQUIRE(format_entry_clock(5.57) == "5:34");
    REQUIRE(format_speed(2.08, imperial) == "6.8 ft/s");
    REQUIRE(format_speed(2.08, metric) == "2.1 m/s");
    REQUIRE(format_time(2.71) == "2.7 s");
    REQUIRE(format_degrees(5.906) == "5.9°");
    REQUIRE(format_degrees(-13.7) == "−13.7°");
    REQUIRE(format_degrees(-0.04) == "0.0°");
    REQUIRE(format_degrees(-0.0) == "0.0°");
    REQUIRE(format_percent(0.142) == "14 %");
    REQUIRE(format_percent(-0.003) == "0 %");
    REQUIRE(format_half_percent(-0.046) == "−4½ %");
    REQUIRE(format_half_percent(0.0531) == "5½ %");
    REQUIRE(format_putts(1.949) == "1.95");
    REQUIRE(format_spot(0.0313) == "31 mm");
}

TEST_CASE("A mirrored putt shows mirrored figures", "[figures]") {
    for (double value = 0.0; value < 4.0; value += 0.0625) {
        INFO(value);
        const std::string plus = format_quarters(value);
        const std::string minus = format_quarters(-value);
        REQUIRE(minus == (plus == "0" ? "0" : "−" + plus));
    }
}
