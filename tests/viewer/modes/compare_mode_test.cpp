#include "viewer/modes/compare/compare_mode.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "tests/support/gsl_roll.hpp"
#include "tests/support/plane_putt.hpp"
#include "tests/support/putts.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/modes/faults.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

struct Comparing : DrawnMode<CompareMode> {
    explicit Comparing(const std::string& show = "") : DrawnMode(quiet_look(), start(show)) {}
    static CompareStart start(const std::string& show) {
        CompareStart s;
        s.show = show;
        return s;
    }
    void roll() {
        press({{key::space}});
        wait(10);
    }
};

constexpr double solved = 1e-9;  // of a closed form, in metres

/// 'Uphill and downhill' as it is set up, read by the second closed form.
struct KnownPutt {
    explicit KnownPutt(double clock_h)
        : putt(oracle::bare_putt(10, 0.02, 12, clock_h, oracle::inches_past(12))),
          line(oracle::solve({{0, 0.02}, putt.resistance, putt.line(), putt.finish}).lines.at(0)) {}
    double aim_m() const {
        return putt.distance_m() * std::tan(static_cast<double>(line.angle_rad));
    }
    /// How far right it passes the hole when it is aimed elsewhere, at its own pace.
    double passes_m(double aim_m) const {
        const Stroke stroke{std::atan(aim_m / putt.distance_m()),
                            static_cast<double>(line.speed_m_s)};
        oracle::GslOptions options;
        options.hole = putt.hole;
        const auto rolled =
            oracle::gsl_roll(*putt.surface, putt.resistance, putt.launch(stroke), options);
        return in_player_frame(putt, rolled.pass.value().at).offset_m;
    }
    Putt putt;
    oracle::PlaneLine line;
};
const KnownPutt downhill(1.5), uphill(4.5);

}  // namespace

TEST_CASE("Compare begins with uphill and downhill, and says what they are") {
    Comparing c;
    REQUIRE(c.told("putts") == 2);
    CHECK_THAT(c.told("aim_m0"), WithinAbs(downhill.aim_m(), solved));
    CHECK_THAT(c.told("aim_m1"), WithinAbs(uphill.aim_m(), solved));
    // Hidden: nothing of the answer, until it is asked for or guessed.
    const Frame hidden = c.draw();
    for (const KnownPutt& known : {downhill, uphill})
        CHECK_FALSE(says(hidden, aim_short(known.aim_m(), Units{})));
    CHECK_FALSE(says(hidden, "half a second"));
    CHECK(says(hidden, "Show me"));
    c.press({{'w'}});
    CHECK_FALSE(c.says("With the aims swapped"));
    c.press({{key::enter}});
    for (const KnownPutt& known : {downhill, uphill})
        CHECK(c.says(aim_short(known.aim_m(), Units{})));
    const double longer_s = static_cast<double>(downhill.line.time_s - uphill.line.time_s);
    REQUIRE_THAT(longer_s, WithinAbs(0.5, 0.05));  // what is called half a second
    CHECK(c.says("half a second"));
}

TEST_CASE("the picture freezes when the first drops, and goes on when it is released") {
    Comparing c;
    c.roll();
    CHECK(c.told<bool>("frozen"));
    // The uphill ball is there first. It drops between rim and centre, and takes a while to sink.
    const double centre_s = static_cast<double>(uphill.line.time_s);
    CHECK(c.told("time_s") > centre_s - 0.1);
    CHECK(c.told("time_s") < centre_s + 0.2);
    CHECK(c.says("dropped"));
    c.roll();
    CHECK_FALSE(c.told<bool>("frozen"));
    // The other comes slowly: from the rim it takes at most the radius over its speed at the
    // centre.
    const double end_s = static_cast<double>(downhill.line.time_s);
    CHECK(c.told("time_s") >
          end_s - hole_radius_m / static_cast<double>(downhill.line.hole_speed_m_s));
    CHECK(c.told("time_s") < end_s + 0.5);
    CHECK(c.told("time_s") == c.told("end_s"));
    // Rolled again it freezes again.
    c.roll();
    CHECK(c.told<bool>("frozen"));
}

TEST_CASE("who guesses does not see the aims before the balls have rolled") {
    Comparing c;
    const std::string aim = aim_short(downhill.aim_m(), Units{});
    c.press({{key::right}, {key::right, false, true}});
    CHECK_THAT(c.told("guess_m0"), WithinAbs(1.25 * metres_per_inch, 1e-12));
    CHECK_FALSE(c.says(aim));
    CHECK_FALSE(c.says("Show me"));  // now the button rolls
    c.press({{'a'}});
    c.type("two cups out right");
    CHECK_THAT(c.told("guess_m0"), WithinAbs(5 * hole_radius_m, 1e-6));
    c.press({{'a'}});
    c.type("a bit right");
    CHECK_THAT(c.told("guess_m0"), WithinAbs(5 * hole_radius_m, 1e-6));
    CHECK_FALSE(c.shell.message().empty());
    c.roll();
    CHECK(c.says(aim));
}

TEST_CASE("a guess is told as it was typed, until it is moved") {
    Comparing c;
    c.press({{'a'}});
    c.type("11in right");
    CHECK(c.says("11 in right"));
    CHECK_FALSE(c.says("2 cups"));
    c.press({{'k'}, {key::right, false, true}});
    CHECK_FALSE(c.says("11 in right"));
    CHECK(c.says("2 cups"));
}

TEST_CASE("with the aims swapped each misses where the roll says") {
    const double first = downhill.passes_m(uphill.aim_m()),
                 second = uphill.passes_m(downhill.aim_m());
    REQUIRE(first < -hole_radius_m);  // both break to the left, so left is low
    REQUIRE(second > hole_radius_m);
    Comparing c;
    c.press({{key::enter}, {'w'}});
    c.wait(20);
    CHECK(c.says(format_length(first, Units{}) + " low"));
    CHECK(c.says(format_length(second, Units{}) + " high"));
    CHECK(c.says("With the aims swapped"));
    c.press({{'w'}});
    CHECK_THAT(c.told("aim_m0"), WithinAbs(downhill.aim_m(), solved));
}

TEST_CASE("a demonstration that is changed becomes one's own putts, and undo brings it back") {
    Comparing c;
    c.press({{key::down}, {']'}});
    CHECK(c.mode.compared().show.empty());
    REQUIRE(c.mode.compared().putts.size() == 2);
    CHECK_THAT(c.mode.compared().putts[1].clock_h, WithinAbs(4.5 + 1.0 / 12, 1e-9));
    CHECK_THAT(c.mode.compared().putts[0].clock_h, WithinAbs(1.5, 1e-9));
    c.press({{'q'}, {'q'}});
    CHECK(c.mode.comparison().putts.size() == 4);
    c.press({{'q'}});
    CHECK(c.mode.comparison().putts.size() == 4);
    CHECK_FALSE(c.shell.message().empty());
    c.press({{'q', false, true}});
    CHECK(c.mode.comparison().putts.size() == 3);
    for (int i = 0; i < 4; ++i) c.press({{'z', true}});
    CHECK(c.mode.compared().show == "uphill");
}

TEST_CASE("undo takes away the putt that was chosen, and another is") {
    Comparing c;
    c.press({{'q'}, {'q'}});
    REQUIRE(c.mode.comparison().putts.size() == 4);
    REQUIRE(find_target(c.shell.targets(), What::putt, 3));
    c.click(What::putt, 3);
    c.press({{'z', true}, {'z', true}});
    REQUIRE(c.mode.comparison().putts.size() == 2);
    c.press({{']'}});  // what is chosen now is there to be edited
    CHECK(c.mode.compared().putts.size() == 2);
}

TEST_CASE("a putt that Read brings stands beside itself the other way up the slope") {
    Comparing c;
    Setup putt;
    set_clock(putt, 1);
    c.shell.arrive(c.shell.appearance(), putt);
    REQUIRE(c.mode.compared().putts.size() == 2);
    CHECK_THAT(c.mode.compared().putts[1].clock_h, WithinAbs(5, 1e-9));
}

TEST_CASE("every demonstration can be shown, rolled to its end and pictured") {
    for (const auto& name : demonstration_names()) {
        INFO(name.key);
        Comparing c{std::string(name.key)};
        c.press({{key::space}});
        c.wait(15);
        c.press({{key::space}, {'h'}, {'g'}, {'k'}});
        c.wait(15);
        CHECK(c.told("time_s") == c.told("end_s"));
        CHECK(c.says("chance to hole"));
    }
}

TEST_CASE("large type loses nothing of Compare: its panel scrolls") {
    Comparing c;
    c.press({{key::enter}});
    c.shell.resize(1024, 640);
    c.press({{'+', true}, {'+', true}});
    CHECK_FALSE(c.says("Ready demonstrations"));
    c.shell.wheel(-30, {800, 300}, {});
    CHECK(c.says("Ready demonstrations"));
    for (const auto& name : demonstration_names()) CHECK(c.says(std::string(name.title)));
    c.shell.wheel(30, {800, 300}, {});
    CHECK_FALSE(c.says("Ready demonstrations"));
}

TEST_CASE("misses have a legend, and the apex demonstration its triangle, once they are shown") {
    Comparing low("low"), apex("apex");
    CHECK_FALSE(low.says("missed, seeing"));
    CHECK_FALSE(low.says(" in low"));  // nor what becomes of the ball
    const auto triangles = [&] { return all_of<Polygon>(apex.draw().picture).size(); };
    const std::size_t before = triangles();
    low.roll();
    apex.roll();
    CHECK(low.says("missed, seeing"));
    CHECK(triangles() > before);
    CHECK(apex.says("apex"));
}

TEST_CASE("a bar shows the share of the break that is played, once it is told") {
    // Aimed at its apex a ball plays about 57 % of the break: the parabola of a putt on a plane
    // gives a half, slowing down more (derived here). The player of 'most misses are low' sees 72
    // %.
    for (const auto& [show, least, most] : {std::tuple("apex", 50, 65), {"low", 72, 72}}) {
        Comparing c(show);
        CHECK_FALSE(c.says("the whole break"));
        c.roll();
        CHECK(c.says("the whole break"));
        bool found = false;
        for (int share = least; share <= most; ++share)
            found |= c.says(fmt::format("{} %, played", share));
        CHECK(found);
    }
    Comparing reads("uphill");
    reads.roll();
    CHECK_FALSE(reads.says("the whole break"));
}

TEST_CASE("the button of Compare is in sight at any size of type") {
    for (const double text : {1.0, 1.25, 1.5}) {
        Appearance look = quiet_look();
        look.width = 1024, look.height = 640, look.text = text;
        DrawnMode<CompareMode> c(look, CompareStart{});
        const auto button = find_target(c.shell.targets(), What::button, 0);
        REQUIRE(button);
        INFO(text);
        CHECK(button->hit.bottom() < c.shell.layout().roll_strip.y);
    }
}

TEST_CASE("in Compare no label meets another, and nothing leaves its panel") {
    for (const char* show : {"uphill", "apex", "low"}) {
        Comparing c(show);
        for (const char* stage : {"begun", "frozen"}) {
            INFO(show << ", " << stage);
            check_layout(c, without_note);
            c.roll();
        }
    }
}
