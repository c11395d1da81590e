#include "viewer/text/aim.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "tests/support/units.hpp"
#include "tests/viewer/terminal/typed.hpp"
#include "tests/viewer/text/both_units.hpp"

using namespace dewtrail;
using namespace dewtrail::typed;
using oracle::inch;

TEST_CASE("Aims: lengths from the centre, cups and balls outside the edge", "[aim]") {
    check_good(with(parse_aim_offset_m, imperial, "aim"),
               {{"15in right", 15.0 * inch},
                {"15 right", 15.0 * inch},
                {"15in r", 15.0 * inch},
                {"38cm left", -0.38},
                {"3½ ft left", -42.0 * inch},
                {"1ft3in right", 15.0 * inch},
                {"centre", 0.0},
                {"straight", 0.0},
                {"0in left", 0.0},
                {"1 cup right", 6.375 * inch},
                {"2cups left", -10.625 * inch},
                {"three cups out right", 14.875 * inch},
                {"one and a half cups out left", -8.5 * inch},
                {"1½ cups l", -8.5 * inch},
                {"half a cup right", 4.25 * inch},
                {"half a ball out right", 2.965 * inch},
                {"a ball out left", -3.805 * inch},
                {"two balls out right", 5.485 * inch},
                {"2 putter heads right", 10.125 * inch},
                {"right edge", 2.125 * inch},
                {"inside left", -0.875 * inch},
                {"inside right edge", 1.5 * inch},
                {"three feet left", -36.0 * inch},
                {"two and a half feet right", 30.0 * inch}});
    check_good(with(parse_aim_offset_m, metric, "aim"), {{"38 right", 0.38}});
    check_bad(with(parse_aim_offset_m, imperial, "aim"),
              {{"15in", "names no side"},
               {"3 cups", "names no side"},
               {"right", "does not say how far"},
               {"out right", "does not say how far"},
               {"cups right", "does not say how many"},
               {"some cups right", "does not say how many"},
               {"-3in right", "is negative"},
               {"2% right", "is not a length"},
               {"400 cups left", "more than 40 m"},
               {"", "aim is empty"}});
}

TEST_CASE("What aim_words says can be typed back", "[aim]") {
    for (const Units& units : {imperial, metric}) {
        for (const AimUnit unit : {AimUnit::words, AimUnit::cups, AimUnit::balls,
                                   AimUnit::putter_heads, AimUnit::inches, AimUnit::centimetres}) {
            for (double inches = -80.0; inches <= 80.0; inches += 0.25) {
                const std::string said = aim_words(inches * 0.0254, units, unit);
                // Rounded figures that fall back over a bound: 2½ ft is 30 in, where the table
                // still counts cups; half an inch is told as 1 cm, and that is the centre.
                if (said.starts_with("two and a half feet")) continue;
                if (said.starts_with("1 cm")) continue;
                // Half a cup out is 4¼ in, which is told in inches.
                if (said.starts_with("half a cup") && unit == AimUnit::words) continue;
                const std::string again = aim_words(parse_aim_offset_m(said, units), units, unit);
                INFO(inches << " in: " << said);
                REQUIRE(again == said);
            }
        }
    }
}

TEST_CASE("Aims in the words of the table", "[aim]") {
    struct Row {
        double inches;
        std::string right;
    };
    // Bounds of product convention; each is met from both sides.
    const std::vector<Row> rows = {{0.0, "centre"},
                                   {0.49, "centre"},
                                   {0.5, "½ in right"},
                                   {1.25, "1¼ in right"},
                                   {2.1, "2 in right"},
                                   {2.95, "3 in right"},
                                   {4.49, "4 in right"},
                                   {4.5, "half a cup out right"},
                                   {5.0, "half a cup out right"},
                                   {5.3, "half a cup out right"},
                                   {5.32, "one cup out right"},
                                   {6.4, "one cup out right"},
                                   {7.4, "one cup out right"},
                                   {7.5, "one and a half cups out right"},
                                   {8.5, "one and a half cups out right"},
                                   {10.6, "two cups out right"},
                                   {14.9, "three cups out right"},
                                   {30.0, "six and a half cups out right"},
                                   {30.1, "two and a half feet right"},
                                   {36.0, "three feet right"},
                                   {39.1, "three and a half feet right"},
                                   {180.0, "15 feet right"}};
    for (const auto& [inches, right] : rows) {
        INFO(inches);
        REQUIRE(aim_words(inches * inch, imperial) == right);
        std::string left = right;
        if (const auto at = left.find("right"); at != std::string::npos)
            left.replace(at, 5, "left");
        REQUIRE(aim_words(-inches * inch, imperial) == left);
    }
    REQUIRE(aim_words(nothing, imperial) == "–");
    REQUIRE(aim_words(0.06, metric) == "6 cm right");
    REQUIRE(aim_words(0.378, metric) == "three cups out right");
    REQUIRE(aim_words(0.83, metric) == "80 cm right");
    REQUIRE(aim_words(1.23, metric) == "1.20 m right");
}

TEST_CASE("A coach can choose what an aim is counted in", "[aim]") {
    const double aim_m = 14.9 * inch;
    REQUIRE(aim_words(aim_m, imperial, AimUnit::cups) == "three cups out right");
    REQUIRE(aim_words(aim_m, imperial, AimUnit::balls) == "seven and a half balls out right");
    REQUIRE(aim_words(aim_m, imperial, AimUnit::putter_heads) == "three putter heads out right");
    REQUIRE(aim_words(-aim_m, imperial, AimUnit::inches) == "15 in left");
    REQUIRE(aim_words(-aim_m, imperial, AimUnit::centimetres) == "38 cm left");
    REQUIRE(aim_words(1.7 * inch, imperial, AimUnit::inches) == "1¾ in right");
    REQUIRE(aim_words(1.7 * inch, imperial, AimUnit::cups) == "inside right edge");
    REQUIRE(aim_words(2.6 * inch, imperial, AimUnit::cups) == "right edge");
    REQUIRE(aim_words(4.3 * inch, imperial, AimUnit::cups) == "half a cup out right");
    REQUIRE(aim_short(aim_m, imperial) == "3 cups");
    REQUIRE(aim_short(8.5 * inch, imperial) == "1½ cups");
    REQUIRE(aim_short(-3.8 * inch, imperial) == "4 in");
    REQUIRE(aim_short(-3.8 * inch, imperial, AimUnit::balls) == "1 ball");
    REQUIRE(aim_short(-2.2 * inch, imperial) == "2¼ in");
    REQUIRE(aim_short(-2.2 * inch, imperial, AimUnit::cups) == "edge");
    REQUIRE(aim_short(0.06, metric) == "6 cm");
    REQUIRE(aim_short(6.4 * inch, imperial) == "1 cup");
    REQUIRE(aim_short(0.0, imperial) == "straight");
    REQUIRE(aim_short(42.0 * inch, imperial) == "3½ ft");
}

TEST_CASE("A typed aim is echoed in words only where they mean just that", "[aim]") {
    const std::pair<const char*, const char*> echoes[] = {{"5in left", "5 in left"},
                                                          {"6 l", "6 in left"},
                                                          {"15in right", "15 in right"},
                                                          {"3½ in right", "3½ in right"},
                                                          {"2 cups left", "two cups out left"},
                                                          {"0.7 cups left", "0.7 cups left"},
                                                          {"2 balls out left", "2 balls out left"},
                                                          {"right edge", "right edge"},
                                                          {"three feet left", "three feet left"},
                                                          {"1ft3in right", "1 ft 3 in right"},
                                                          {"centre", "centre"},
                                                          {"0in left", "centre"}};
    for (const auto& [typed, echo] : echoes) {
        INFO(typed);
        CHECK(aim_echo(typed, imperial) == echo);
        CHECK_THAT(parse_aim_offset_m(echo, imperial),
                   Catch::WithinAbs(parse_aim_offset_m(typed, imperial), 1e-12));
    }
    CHECK(aim_echo("13 left", metric) == "13 cm left");
}

TEST_CASE("an aim is told as it was said, in short and to be edited too") {
    const SaidAim inches = parse_said_aim("11.5in right", imperial);
    CHECK(inches.words(imperial) == "11.5 in right");
    CHECK(inches.in_short(imperial) == "11.5 in right");
    CHECK(inches.to_edit(imperial) == "11.5 in right");
    const SaidAim cups = parse_said_aim("2 cups right", imperial);
    CHECK(cups.words(imperial) == "two cups out right");
    CHECK(cups.in_short(imperial) == "2 cups");
    const SaidAim moved{inches.offset_m};
    CHECK(moved.words(imperial) == "two cups out right");
    CHECK(moved.in_short(imperial) == "2 cups");
    CHECK(moved.to_edit(imperial) == "12 in right");
}
