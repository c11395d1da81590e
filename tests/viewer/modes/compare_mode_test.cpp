#include "viewer/modes/compare/compare_mode.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "viewer/comparison/compare_words.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/files/faults.hpp"
#include "viewer/text/aim.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

struct Comparing : InShell<CompareMode> {
    explicit Comparing(const std::string& show = "") : InShell(appearance(), start(show)) {
        shell.frame(half_em);
    }
    static Appearance appearance() {
        Appearance a;
        a.less_motion = true;
        a.modes = {ModeName::read, ModeName::compare, ModeName::practise, ModeName::review};
        return a;
    }
    static CompareStart start(const std::string& show) {
        CompareStart s;
        s.show = show;
        return s;
    }
    void press(std::initializer_list<KeyPress> keys) {
        for (const KeyPress& key : keys) shell.press(key);
    }
    Frame wait(double seconds) {
        for (; seconds > 0; seconds -= 1.0 / 60) shell.advance(1.0 / 60);
        return shell.frame(half_em);
    }
    double told(const std::string& name) const {
        for (const auto& [key, value] : shell.state())
            if (key == name) return std::get<double>(value);
        return NAN;
    }
};

bool says(const Frame& frame, const std::string& words) {
    std::string all;
    for (const Text& text : all_of<Text>(frame.picture)) all += text.words + " ";
    return all.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("Compare begins with uphill and downhill, and says what the command line says") {
    Comparing c;
    const Demonstration shown = demonstrate("uphill", Units{});
    REQUIRE(c.mode.comparison().putts.size() == 2);
    for (std::size_t i = 0; i < 2; ++i)
        CHECK(*c.mode.comparison().putts[i].read->aim_offset_m ==
              *shown.comparison.putts[i].read->aim_offset_m);
    const Frame frame = c.shell.frame(half_em);
    for (const ComparedPutt& putt : shown.comparison.putts)
        CHECK(says(frame, aim_short(*putt.read->aim_offset_m, Units{})));
    CHECK(says(frame, shown.say[0].substr(0, 30)));
}

TEST_CASE("the picture freezes when the first drops, and goes on when it is released") {
    Comparing c;
    const auto& putts = c.mode.comparison().putts;
    const double first =
        std::min(Trail(*putts[0].shown()).end_s(), Trail(*putts[1].shown()).end_s());
    c.press({{key::space}});
    c.wait(10);
    CHECK(c.mode.frozen());
    CHECK_THAT(c.shell.playback.time_s, WithinAbs(first, 1e-9));
    CHECK(says(c.shell.frame(half_em), "dropped"));
    c.press({{key::space}});
    c.wait(10);
    CHECK_FALSE(c.mode.frozen());
    CHECK(c.shell.playback.complete());
    // Rolled again it freezes again.
    c.press({{key::space}});
    c.wait(10);
    CHECK(c.mode.frozen());
}

TEST_CASE("who guesses does not see the aims before the balls have rolled") {
    Comparing c;
    const std::string aim = aim_short(*c.mode.comparison().putts[0].read->aim_offset_m, Units{});
    c.press({{key::right}, {key::right, false, true}});
    CHECK_THAT(*c.mode.compared().guesses[0], WithinAbs(1.25 * metres_per_inch, 1e-12));
    CHECK_FALSE(says(c.shell.frame(half_em), aim));
    c.press({{'a'}});
    c.shell.typed("two cups out right");
    CHECK_THAT(*c.mode.compared().guesses[0], WithinAbs(5 * hole_radius_m, 1e-6));
    c.press({{'a'}});
    c.shell.typed("a bit right");
    CHECK_THAT(*c.mode.compared().guesses[0], WithinAbs(5 * hole_radius_m, 1e-6));
    CHECK_FALSE(c.shell.message().empty());
    c.press({{key::space}});
    CHECK(says(c.wait(10), aim));
}

TEST_CASE("with the aims swapped each misses where the roll says") {
    Comparing c;
    const auto swapped = swap_aims(c.mode.comparison(), usual_past_m);
    REQUIRE(swapped);
    c.press({{'w'}});
    const Frame frame = c.wait(20);
    for (const ComparedPutt& putt : *swapped)
        CHECK(says(frame, outcome_words(outcome_of(putt.plan.putt, *putt.rolled), Units{})));
    CHECK(says(frame, swap_sentence(*swapped, Units{}).substr(0, 25)));
    c.press({{'w'}});
    CHECK(c.told("aim_m0") == *c.mode.comparison().putts[0].read->aim_offset_m);
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
        CHECK(says(c.shell.frame(half_em), "chance to hole"));
    }
}

TEST_CASE("in Compare no label meets another, and nothing leaves its panel") {
    int faults = 0;
    for (const char* show : {"uphill", "apex", "low"}) {
        Comparing c(show);
        for (const char* stage : {"begun", "frozen"}) {
            for (const auto& [w, h] :
                 {std::pair(1280, 800), std::pair(1024, 640), std::pair(1920, 1080)})
                for (int text = 0; text < 3; ++text) {
                    c.press({{'0', true}});
                    for (int i = 0; i < text; ++i) c.press({{'+', true}});
                    c.shell.resize(w, h);
                    const Frame frame = c.shell.frame(half_em);
                    Layout whole = c.shell.layout();
                    whole.green = whole.setup_strip = whole.rows_strip = {};
                    whole.note = {1e9, 1e9, 0, 0};  // Compare has none
                    for (const std::string& fault : Faults(whole, frame).found) {
                        UNSCOPED_INFO(fmt::format("{} {} {}x{} text {}: {}", show, stage, w, h,
                                                  100 + 25 * text, fault));
                        ++faults;
                    }
                }
            c.press({{key::space}});
            c.wait(10);
        }
    }
    CHECK(faults == 0);
}
