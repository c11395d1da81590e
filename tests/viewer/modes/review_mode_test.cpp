#include "viewer/modes/review/review_mode.hpp"

#include <catch2/catch.hpp>

#include "tests/support/temporary_folder.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/modes/faults.hpp"
#include "viewer/practice/review/review_log.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

ReviewStart start_in(const std::filesystem::path& memory) {
    ReviewStart start;
    start.memory_folder = memory;
    return start;
}

/// The mode in a memory of its own.
struct RememberingPutts {
    std::vector<LoggedPutt> logged() const { return Memory(folder.path()).putts(); }
    TemporaryFolder folder;
};
struct Reviewing : RememberingPutts, DrawnMode<ReviewMode> {
    Reviewing() : DrawnMode(quiet_look(), start_in(folder.path())) {}
    /// Where the ball ended, as typed.
    void ends(const std::string& where) {
        press({{'w'}});
        type(where);
    }
};

/// A putt of which there is much to say.
void far_off_plan(Reviewing& r) {
    for (const auto& [field, typed] : {std::pair(Field::distance, "6ft6in"),
                                       {Field::slope, "3%"},
                                       {Field::ball_at, "8:30"},
                                       {Field::stimp, "10.5"}}) {
        r.shell.begin_typing(FocusStop::on(What::field, static_cast<int>(field)));
        r.type(typed);
    }
    r.press({{'a'}});
    r.type("7in left");
    r.ends("15in past 15in right");
    REQUIRE(r.mode.split());
}

}  // namespace

TEST_CASE("a ball is put down by mouse, moved by keys, and typed; one drag is one step of undo") {
    Reviewing r;
    const Vec2 hole = r.place("hole");
    r.drag(hole + Vec2(-60, 30), hole + Vec2(-80, 50));
    REQUIRE(r.mode.putt().end);
    const PlayerPoint dropped = *r.mode.putt().end;
    r.press({{key::up}, {key::right, false, true}});
    CHECK_THAT(r.mode.putt().end->along_m - dropped.along_m, WithinAbs(metres_per_inch, 1e-12));
    CHECK_THAT(r.mode.putt().end->offset_m - dropped.offset_m, WithinAbs(metres_per_foot, 1e-12));
    r.press({{'z', true}, {'z', true}});
    CHECK(r.mode.putt().end->along_m == dropped.along_m);
    r.press({{'z', true}});
    CHECK_FALSE(r.mode.putt().end);
    r.ends("2ft past 6in left");
    REQUIRE(r.mode.putt().end);
    CHECK_THAT(r.mode.putt().end->offset_m, WithinAbs(-6 * metres_per_inch, 1e-12));
    r.ends("somewhere");
    CHECK_THAT(r.mode.putt().end->offset_m, WithinAbs(-6 * metres_per_inch, 1e-12));
    CHECK_FALSE(r.shell.message().empty());
}

TEST_CASE("the window's review is the log's review") {
    Reviewing r;
    r.ends("2ft past 6in left");
    REQUIRE(r.mode.split());
    LoggedPutt putt = parse_putt({{"distance", "12ft"},
                                  {"slope", "2%"},
                                  {"clock", "3"},
                                  {"stimp", "10"},
                                  {"left", "2ft past 6in left"}},
                                 Units{});
    const auto played = played_putt(putt, Player{});
    REQUIRE(played);
    const auto split = split_of({*played}, doubts_of(Spread{}));
    REQUIRE(split);
    for (int i = 0; i < cause_count; ++i) {
        // The log tells a rest by hand a little less sharply (5 % of what is left).
        CHECK_THAT(r.mode.split()->parts[i].size,
                   WithinAbs(split->parts[i].size, 0.05 * split->parts[i].sd));
    }
    CHECK(r.mode.split()->likely.front() == split->likely.front());
}

TEST_CASE("a plan that was too low is told before anything else") {
    Reviewing r;
    r.press({{'a'}});
    r.type("5in right");
    r.ends("12in past 10in left");
    CHECK(r.says("The plan itself was"));
}

TEST_CASE("an aim that was meant is told as it was typed, in the note and on the green") {
    Reviewing r;
    r.press({{'a'}});
    r.type("11in right");
    int told = 0;
    for (const Text& text : all_of<Text>(r.draw().picture)) told += text.words == "11 in right";
    CHECK(told == 2);
    CHECK_FALSE(r.says("cups out right"));
    r.press({{'z', true}});
    CHECK(r.says("cups out right"));
}

TEST_CASE("what is entered is logged, and the next putt of the green begins") {
    Reviewing r;
    r.press({{key::enter}});
    CHECK(r.logged().empty());
    CHECK_FALSE(r.shell.message().empty());
    r.ends("18in past 4in left");
    r.press({{key::enter}});
    REQUIRE(r.logged().size() == 1);
    CHECK(r.logged()[0].date == today());
    CHECK_THAT(*r.logged()[0].past_m, WithinAbs(18 * metres_per_inch, 1e-12));
    CHECK_FALSE(r.mode.putt().end);
    CHECK(r.mode.kept() == 1);
    CHECK(r.says("Putt 2: where did it stop?"));
    r.press({{'h'}, {key::enter}});
    REQUIRE(r.logged().size() == 2);
    CHECK(r.logged()[1].holed);
    CHECK(r.mode.kept() == 1);  // a putt that was holed says nothing of a miss
    r.ends("2ft past 8in left");
    REQUIRE(r.mode.split());
    CHECK(r.mode.split()->putts == 2);
}

TEST_CASE("no height of the ground stands in the words of where the ball finished") {
    Reviewing r;
    far_off_plan(r);
    r.shell.forget_ground();
    const Frame frame = r.draw();
    int heights = 0;
    for (const Text& height : all_of<Text>(frame.ground)) {
        ++heights;
        for (const Text& word : all_of<Text>(frame.picture)) {
            INFO(height.words << " in " << word.words);
            CHECK_FALSE(rect_of(height, type_width).meets(rect_of(word, type_width)));
        }
    }
    CHECK(heights > 0);
}

TEST_CASE("every cause has its bar, however much there is to say; what has no room scrolls") {
    Reviewing r;
    far_off_plan(r);
    CHECK(r.says("One putt cannot tell"));
    for (const double height : {800.0, 720.0, 640.0}) {
        r.shell.resize(1280, height);
        INFO(height);
        int bars = 0;
        for (const Text& words : all_of<Text>(r.draw().picture))
            for (const char* cause : {"start line: ", "pace: ", "slope: ", "green speed: "})
                bars += words.words.starts_with(cause);
        CHECK(bars == 4);
    }
}

TEST_CASE("in Review no label meets another, and nothing leaves its panel") {
    Reviewing r;
    for (const char* end : {"", "2ft past 6in left", "3ft short 1ft right"}) {
        INFO("'" << end << "'");
        r.ends(end);
        check_layout(r);
    }
}
