#include "viewer/text/quantity.hpp"
#include "viewer/text/clock_and_angle.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <locale>
#include <numbers>
#include <string>

#include "greens/input_error.hpp"
#include "tests/viewer/terminal/typed.hpp"
#include "tests/viewer/text/both_units.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using namespace dewtrail::typed;
using Catch::WithinAbs;
using Catch::Matchers::Contains;

TEST_CASE("Distances carry any unit of length", "[quantity]") {
    check_good(
        with(parse_distance_m, imperial, "distance"),
        {{"12", 3.6576},        {"12ft", 3.6576},       {"12 FT", 3.6576},   {"12 feet", 3.6576},
         {"12'", 3.6576},       {"12′", 3.6576},        {"12ft6in", 3.81},   {"12 ft 6 in", 3.81},
         {"12'6\"", 3.81},      {"12′6″", 3.81},        {"12’6”", 3.81},     {"12'6''", 3.81},
         {"12ft 6½in", 3.8227}, {"3.6m", 3.6},          {"3.6 metres", 3.6}, {"45cm", 0.45},
         {"350mm", 0.35},       {"18in", 0.4572},       {"18\"", 0.4572},    {"4yd", 3.6576},
         {"4½paces", 4.05},     {"4 ½ paces", 4.05},    {"4.5paces", 4.05},  {"1pace", 0.9},
         {"5 paces", 4.5},      {"12\u00a0ft", 3.6576}, {" 12ft ", 3.6576},  {".5m", 0.5},
         {"½m", 0.5},           {"1/2m", 0.5},          {"3/16m", 0.1875},   {"2¾ft", 0.8382},
         {"10⅛ft", 3.0861},     {"15cm", 0.15},         {"40m", 40.0}});
    check_good(with(parse_distance_m, Units{.metric = true, .pace_m = 0.8}, "distance"),
               {{"3.6", 3.6}, {"12ft", 3.6576}, {"5 paces", 4.0}});
}

TEST_CASE("Distances that are none are refused", "[quantity]") {
    check_bad(with(parse_distance_m, imperial, "distance"),
              {{"", "distance is empty"},
               {"   ", "distance is empty"},
               {"ft", "'ft' is not understood"},
               {"10 6", "'10 6' is not understood"},
               {"4 1/2 ft", "is not understood"},
               {"12ft6", "does not say what the last figure is"},
               {"12'6", "does not say what the last figure is"},
               {"12ft12in", "not whole feet and less than 12 in"},
               {"12ft14in", "not whole feet and less than 12 in"},
               {"12.5ft6in", "not whole feet and less than 12 in"},
               {"6in12ft", "is not understood"},
               {"1m20cm", "is not understood"},
               {"1ft2in3in", "is not understood"},
               {"-3ft", "'-3ft' is negative"},
               {"−3ft", "is negative"},
               {"-0", "is negative"},
               {"+3ft", "is not understood"},
               {"2,5m", "has a comma"},
               {"2.1,5", "has a comma"},
               {"1.2.3m", "is not understood"},
               {"nan", "is not understood"},
               {"inf", "is not understood"},
               {"0x10", "unknown unit, 'x'"},
               {"1e400", "unknown unit, 'e'"},
               {"1e1", "unknown unit, 'e'"},
               {"1/0m", "is not understood"},
               {"1.5/2m", "is not understood"},
               {"1/20m", "is not understood"},
               {"12 furlongs", "unknown unit, 'furlongs'"},
               {"12%", "'12%' is not a length"},
               {"12deg", "is not a length"},
               {"12m/s", "is not a length"},
               {"0", "distance 0 ft is outside 0.15-40 m"},
               {"14cm", "distance 14 cm is outside 0.15-40 m"},
               {"60m", "distance 60 m is outside 0.15-40 m (½-131 ft); is it 60 ft?"},
               {"144", "distance 144 ft is outside 0.15-40 m (½-131 ft); is it 144 in?"},
               {"200ft", "is it 200 in?"},
               {"132ft6in", "distance 132 ft 6 in is outside"},
               {std::string(400, '9'), "is not understood"},
               {"12\nft", "'12 ft' is not understood"},
               {"１２", "is not understood"}});
}

TEST_CASE("A long text is cut in the message, between characters", "[quantity]") {
    std::string text;
    for (int i = 0; i < 100; ++i) text += "½";
    try {
        parse_distance_m(text + "x", imperial);
        FAIL("taken");
    } catch (const InputError& error) {
        const std::string message = error.what();
        REQUIRE(message.size() < 120);
        REQUIRE_THAT(message, Contains("½…'"));
    }
}

TEST_CASE("The name of the quantity is in its message", "[quantity]") {
    check_bad(with(parse_distance_m, imperial, "--distance"), {{"x", "--distance 'x'"}});
}

TEST_CASE("Past the hole: lengths and words", "[quantity]") {
    check_good(with(parse_past_m, imperial, "past"), {{"12", 0.3048},
                                                      {"12in", 0.3048},
                                                      {"12in past", 0.3048},
                                                      {"1ft", 0.3048},
                                                      {"30cm", 0.3},
                                                      {"0", 0.0},
                                                      {"barely", 0.0762},
                                                      {"Barely in", 0.0762},
                                                      {"a foot past", 0.3048},
                                                      {"firm", 0.6096},
                                                      {"dying", 0.0},
                                                      {"3m", 3.0}});
    check_good(with(parse_past_m, metric, "past"), {{"30", 0.3}, {"barely in", 0.0762}});
    check_bad(with(parse_past_m, imperial, "past"),
              {{"30ft", "past 30 ft is outside 0-3 m (0-118 in); is it 30 in?"},
               {"3.1m", "past 3.1 m is outside"},
               {"hard", "'hard' is not understood"},
               {"", "past is empty"},
               {"12%", "is not a length"}});
}

TEST_CASE("Speeds, in the chosen system when bare", "[quantity]") {
    check_good(with(parse_hole_speed_m_s, imperial, "hole speed"),
               {{"0.7m/s", 0.7}, {"4ft/s", 1.2192}, {"2", 0.6096}, {"0", 0.0}, {"3m/s", 3.0}});
    check_good(with(parse_hole_speed_m_s, metric, "hole speed"), {{"1.2", 1.2}, {"1.2 m/s", 1.2}});
    check_good(with(parse_speed_m_s, imperial, "speed"), {{"6.8", 2.07264}, {"19m/s", 19.0}});
    check_bad(with(parse_hole_speed_m_s, imperial, "hole speed"),
              {{"3.1m/s", "hole speed 3.1 m/s is outside 0-3 m/s"},
               {"12", "hole speed 12 ft/s is outside"},
               {"12in", "is not a speed"},
               {"-1m/s", "is negative"},
               {"1m/s 2", "is not understood"}});
}

TEST_CASE("Slopes: percent, degrees, ratio, shim, a pair", "[quantity]") {
    check_good(with(parse_slope, "slope"),
               {{"2", 0.02},
                {"2%", 0.02},
                {"2 %", 0.02},
                {"1¾ %", 0.0175},
                {"½%", 0.005},
                {"1/2 %", 0.005},
                {"0", 0.0},
                {"20%", 0.2},
                {"1.1deg", std::tan(1.1 * std::numbers::pi / 180.0)},
                {"1.1°", std::tan(1.1 * std::numbers::pi / 180.0)},
                {"1:40", 0.025},
                {"1 : 40", 0.025},
                {"0:40", 0.0},
                {"6mm/60cm", 0.01},
                {"½in/24in", 0.5 / 24.0},
                {"1.6deg/-0.9deg", std::tan(1.25 * std::numbers::pi / 180.0)},
                {"1.6°/−0.9°", std::tan(1.25 * std::numbers::pi / 180.0)},
                {"2%/-1%", 0.015}});
    check_bad(with(parse_slope, "slope"), {{"25%", "slope 25 % is outside 0-20 %; is it 2.5 %?"},
                                           {"25", "slope 25 % is outside 0-20 %; is it 2.5 %?"},
                                           {"250", "slope 250 % is outside 0-20 %; is it 2.5 %?"},
                                           {"12deg", "slope 12° is outside 0-20 %"},
                                           {"190deg", "slope 190° is outside 0-20 %"},
                                           {"1:2", "slope 1:2 is outside 0-20 %"},
                                           {"1/40", "is not understood"},
                                           {"1:0", "is not rise:run"},
                                           {"1cm:40cm", "is not rise:run"},
                                           {"1:", "is empty"},
                                           {"20cm/60cm", "slope 20 cm/60 cm is outside"},
                                           {"6mm/0cm", "is not a shim"},
                                           {"6mm/60", "is not a shim"},
                                           {"-6mm/60cm", "is negative"},
                                           {"1.6deg/-0.9%", "not a pair of readings in one unit"},
                                           {"1.6deg/0.9deg", "has the same sign twice"},
                                           {"-0.9deg/1.6deg", "averages to less than nothing"},
                                           {"60%/-20%", "outside 0-20 %"},
                                           {"2ft", "is not a slope"},
                                           {"2m/s", "is not a slope"},
                                           {"-2%", "is negative"},
                                           {"2,1%", "has a comma"},
                                           {"nan", "is not understood"},
                                           {"", "slope is empty"}});
}

TEST_CASE("Stimp: feet in both systems, and words", "[quantity]") {
    check_good(with(parse_stimp_ft, "stimp"), {{"10", 10.0},
                                               {"9½", 9.5},
                                               {"10ft", 10.0},
                                               {"10ft6in", 10.5},
                                               {"3m", 3.0 / 0.3048},
                                               {"300cm", 3.0 / 0.3048},
                                               {"slow", 8.0},
                                               {"medium", 9.5},
                                               {"Quick", 11.0},
                                               {"fast", 12.5},
                                               {"3", 3.0},
                                               {"18", 18.0}});
    check_bad(with(parse_stimp_ft, "stimp"),
              {{"95", "stimp 95 ft is outside 3-18 ft; is it 9.5 ft?"},
               {"2.9", "stimp 2.9 ft is outside 3-18 ft"},
               {"18.1", "outside 3-18 ft"},
               {"6m", "stimp 6 m is outside"},
               {"4 paces", "is not a length"},
               {"10%", "is not a length"},
               {"lightning", "is not understood"},
               {"-10", "is negative"}});
    check_good(with(parse_stimp_change_ft, "stimp"), {{"0.5ft", 0.5}, {"½", 0.5}, {"6in", 0.5}});
}

TEST_CASE("Clock times", "[quantity]") {
    check_good(with(parse_clock_h, "clock"), {{"3", 3.0},
                                              {"3:30", 3.5},
                                              {"03:30", 3.5},
                                              {"10.5", 10.5},
                                              {"3½", 3.5},
                                              {"12", 12.0},
                                              {"0", 12.0},
                                              {"0:00", 12.0},
                                              {"12:00", 12.0},
                                              {"12:30", 0.5},
                                              {"0:30", 0.5},
                                              {"11:59", 11.0 + 59.0 / 60.0},
                                              {"3 o'clock", 3.0}});
    check_bad(with(parse_clock_h, "clock"), {{"3:75", "no minutes from 00 to 59"},
                                             {"3:60", "no minutes from 00 to 59"},
                                             {"3:5", "no minutes from 00 to 59"},
                                             {"3:", "no minutes from 00 to 59"},
                                             {"3:1a", "no minutes from 00 to 59"},
                                             {"13", "'13' is outside 0:00-12:59"},
                                             {"3.5:30", "is not understood"},
                                             {":30", "is not understood"},
                                             {"-3", "is negative"},
                                             {"3h", "unknown unit"},
                                             {"3ft", "is not a clock time"},
                                             {"3,5", "has a comma"},
                                             {"", "clock is empty"}});
}

TEST_CASE("Angles are right of the line, by sign or by side", "[quantity]") {
    const double degree = std::numbers::pi / 180.0;
    check_good(with(parse_angle_rad, "angle"), {{"5.9", 5.9 * degree},
                                                {"-5.9", -5.9 * degree},
                                                {"−5.9°", -5.9 * degree},
                                                {"+5.9", 5.9 * degree},
                                                {"5.9deg left", -5.9 * degree},
                                                {"5.9 right", 5.9 * degree},
                                                {"0.1rad", 0.1},
                                                {"-0", 0.0},
                                                {"0 left", 0.0},
                                                {"180", std::numbers::pi},
                                                {"-180", std::numbers::pi}});
    check_bad(with(parse_angle_rad, "angle"), {{"181", "outside -180 to 180"},
                                               {"-5 left", "a sign and a side"},
                                               {"--5", "is negative"},
                                               {"5ft", "is not an angle"},
                                               {"left", "is not understood"},
                                               {"", "angle is empty"}});
}

TEST_CASE("Times, shares, other lengths", "[quantity]") {
    check_good(with(parse_time_s, "time"), {{"2.7", 2.7}, {"2.7s", 2.7}, {"2.7 sec", 2.7}});
    check_bad(with(parse_time_s, "time"),
              {{"0", "time 0 s is outside"}, {"121", "outside"}, {"2ft", "is not a time"}});
    check_good(with(parse_fraction, "share"),
               {{"14%", 0.14}, {"14", 0.14}, {"0", 0.0}, {"100", 1.0}});
    check_bad(with(parse_fraction, "share"),
              {{"101", "share 101 % is outside 0-100 %"}, {"14ft", "is not a percentage"}});
    check_good(with(parse_short_length_m, imperial, "rise"), {{"10in", 0.254}, {"10", 0.254}});
    check_good(with(parse_short_length_m, metric, "rise"), {{"25", 0.25}});
    check_good(with(parse_level_roll_m, imperial, "level putt"), {{"12", 3.6576}, {"0", 0.0}});
    check_good(with(parse_pace_m, imperial, "pace"),
               {{"3", 0.9144}, {"0.9m", 0.9}, {"35in", 0.889}});
    check_bad(with(parse_pace_m, imperial, "pace"),
              {{"1 pace", "is not a length"}, {"0.9", "pace 0.9 ft is outside 0.3-1.5 m"}});
}

TEST_CASE("What is typed in round figures is the double nearest to it", "[quantity]") {
    // Exact on purpose: JSON prints these back.
    REQUIRE(parse_past_m("12in", imperial) == 0.3048);
    REQUIRE(parse_distance_m("12ft", imperial) == 3.6576);
    REQUIRE(parse_distance_m("12ft6in", imperial) == 3.81);
    REQUIRE(parse_distance_m("7in", imperial) == 0.1778);
    REQUIRE(parse_past_m("35cm", imperial) == 0.35);
    REQUIRE(parse_stimp_ft("9½") == 9.5);
    REQUIRE(parse_stimp_ft("10ft6in") == 10.5);
    REQUIRE(parse_slope("2%") == 0.02);
    REQUIRE(parse_past_m("firm", imperial) == 0.6096);
    REQUIRE(parse_past_m("barely in", imperial) == 0.0762);
}

TEST_CASE("The locale has no say in figures", "[quantity]") {
    struct CommaFigures : std::numpunct<char> {
        char do_decimal_point() const override { return ','; }
        char do_thousands_sep() const override { return '.'; }
        std::string do_grouping() const override { return "\3"; }
    };
    const std::locale before =
        std::locale::global(std::locale(std::locale::classic(), new CommaFigures));
    const double distance_m = parse_distance_m("3.6m", imperial);
    const std::string time = format_time(2.71);
    const std::string spot = format_spot(1.234);
    std::locale::global(before);
    REQUIRE_THAT(distance_m, WithinAbs(3.6, round_off));
    REQUIRE(time == "2.7 s");
    REQUIRE(spot == "1234 mm");
}
