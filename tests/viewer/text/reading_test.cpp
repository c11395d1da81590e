#include "viewer/text/reading.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <string>

#include "tests/viewer/terminal/typed.hpp"
#include "tests/viewer/text/both_units.hpp"

using namespace dewtrail;
using namespace dewtrail::typed;
using Catch::WithinAbs;

TEST_CASE("A pair of readings tells the level's own error", "[quantity]") {
    // a = s + e and b = -s + e: s = 1.25 and e = 0.35 degrees.
    const SlopeReading pair = parse_level_reading("1.6deg/-0.9deg");
    REQUIRE_THAT(pair.slope, WithinAbs(std::tan(1.25 * std::numbers::pi / 180.0), round_off));
    REQUIRE(pair.instrument_error);
    REQUIRE_THAT(*pair.instrument_error,
                 WithinAbs(std::tan(0.35 * std::numbers::pi / 180.0), round_off));

    const SlopeReading turned = parse_level_reading("-0.9deg/1.6deg");
    REQUIRE_THAT(turned.slope, WithinAbs(-pair.slope, round_off));
    REQUIRE_THAT(*turned.instrument_error, WithinAbs(*pair.instrument_error, round_off));

    for (const char* text : {"1.6/-0.9", "1.6%/-0.9", "1.6/-0.9%"}) {
        INFO(text);
        REQUIRE_THAT(parse_level_reading(text).slope, WithinAbs(0.0125, round_off));
        REQUIRE_THAT(*parse_level_reading(text).instrument_error, WithinAbs(0.0035, round_off));
    }
    REQUIRE_THAT(*parse_level_reading("0.5/-1.5").instrument_error, WithinAbs(-0.005, round_off));
    REQUIRE_FALSE(parse_level_reading("2%").instrument_error);
    REQUIRE_FALSE(parse_level_reading("6mm/60cm").instrument_error);
}

TEST_CASE("Readings along the line", "[reading]") {
    const PlacedReading first = parse_line_reading("0,up 1%,left 2%", imperial);
    REQUIRE(first.at_m);
    REQUIRE(*first.at_m == 0.0);
    REQUIRE_THAT(first.up, WithinAbs(0.01, round_off));
    REQUIRE_THAT(first.falls_left, WithinAbs(0.02, round_off));

    const PlacedReading second = parse_line_reading("5paces, right 1% ,down 0.5%", imperial);
    REQUIRE_THAT(*second.at_m, WithinAbs(4.5, round_off));
    REQUIRE_THAT(second.up, WithinAbs(-0.005, round_off));
    REQUIRE_THAT(second.falls_left, WithinAbs(-0.01, round_off));

    const PlacedReading hole = parse_line_reading("hole,right 1:50", imperial);
    REQUIRE_FALSE(hole.at_m);
    REQUIRE(hole.up == 0.0);
    REQUIRE_THAT(hole.falls_left, WithinAbs(-0.02, round_off));

    const PlacedReading pair = parse_line_reading("6ft,down 1.2%/-0.6%,left 2%/-2.4%", imperial);
    REQUIRE_THAT(pair.up, WithinAbs(-0.009, round_off));
    REQUIRE_THAT(pair.falls_left, WithinAbs(0.022, round_off));
    REQUIRE_THAT(*pair.instrument_error, WithinAbs(0.003, round_off));

    const PlacedReading flat = parse_line_reading("ball,level", imperial);
    REQUIRE(*flat.at_m == 0.0);
    REQUIRE(flat.up == 0.0);
    REQUIRE_FALSE(std::signbit(parse_line_reading("0,down 0", imperial).up));
}

TEST_CASE("Readings that are none are refused", "[reading]") {
    check_bad([](const std::string& text) { return parse_line_reading(text, imperial).up; },
              {{"", "is not a place and one or two slopes"},
               {"0", "is not a place and one or two slopes"},
               {"0,up 1%,left 2%,left 1%", "is not a place and one or two slopes"},
               {"0,1%", "without up, down, left or right"},
               {"0,up 1,5%", "without up, down, left or right"},
               {"0,up 1%,down 1%", "says one direction twice"},
               {"0,left 1%,right 1%", "says one direction twice"},
               {"0,up", "reading up is empty"},
               {"0,up 25%", "reading up 25 % is outside 0-20 %; is it 2.5 %?"},
               {"-1ft,up 1%", "is negative"},
               {"50m,up 1%", "outside 0-40 m"},
               {"there,up 1%", "reading place 'there'"},
               {"0,up -1%", "is negative"}});
}
