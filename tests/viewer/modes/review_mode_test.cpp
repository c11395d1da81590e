#include "viewer/modes/review/review_mode.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "greens/temporary_folder.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/files/faults.hpp"
#include "viewer/practice/review/review_log.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

struct Reviewing : private TemporaryFolder, InShell<ReviewMode> {
    Reviewing() : InShell(appearance(), start(path())) { shell.frame(half_em); }
    static Appearance appearance() {
        Appearance a;
        a.less_motion = true;
        a.modes = {ModeName::read, ModeName::practise, ModeName::review};
        return a;
    }
    static ReviewStart start(const std::filesystem::path& memory) {
        ReviewStart s;
        s.memory_folder = memory;
        return s;
    }
    void press(std::initializer_list<KeyPress> keys) {
        for (const KeyPress& key : keys) shell.press(key);
    }
    std::vector<LoggedPutt> logged() const { return Memory(path()).putts(); }
};

bool says(const Frame& frame, const std::string& words) {
    for (const Text& text : all_of<Text>(frame.picture))
        if (text.words.find(words) != std::string::npos) return true;
    return false;
}

}  // namespace

TEST_CASE("a ball is put down by mouse, moved by keys, and typed; one drag is one step of undo") {
    Reviewing r;
    Vec2 hole = Vec2::Zero();
    for (const auto& [name, at] : r.shell.places())
        if (name == "hole") hole = at;
    r.shell.pointer_pressed(hole + Vec2(-60, 30), Button::left, {});
    r.shell.pointer_moved(hole + Vec2(-80, 50), {});
    r.shell.pointer_released(hole + Vec2(-80, 50));
    REQUIRE(r.mode.putt().end);
    const PlayerPoint dropped = *r.mode.putt().end;
    r.press({{key::up}, {key::right, false, true}});
    CHECK_THAT(r.mode.putt().end->along_m - dropped.along_m, WithinAbs(metres_per_inch, 1e-12));
    CHECK_THAT(r.mode.putt().end->offset_m - dropped.offset_m, WithinAbs(metres_per_foot, 1e-12));
    r.press({{'z', true}, {'z', true}});
    CHECK(r.mode.putt().end->along_m == dropped.along_m);
    r.press({{'z', true}});
    CHECK_FALSE(r.mode.putt().end);
    r.press({{'w'}});
    r.shell.typed("2ft past 6in left");
    REQUIRE(r.mode.putt().end);
    CHECK_THAT(r.mode.putt().end->offset_m, WithinAbs(-6 * metres_per_inch, 1e-12));
    r.press({{'w'}});
    r.shell.typed("somewhere");
    CHECK_THAT(r.mode.putt().end->offset_m, WithinAbs(-6 * metres_per_inch, 1e-12));
    CHECK_FALSE(r.shell.message().empty());
}

TEST_CASE("the window's review is the log's review") {
    Reviewing r;
    r.press({{'w'}});
    r.shell.typed("2ft past 6in left");
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
    r.shell.typed("5in right");
    r.press({{'w'}});
    r.shell.typed("12in past 10in left");
    const Frame frame = r.shell.frame(half_em);
    CHECK(says(frame, "The plan itself was"));
}

TEST_CASE("what is entered is logged, and the next putt of the green begins") {
    Reviewing r;
    r.press({{key::enter}});
    CHECK(r.logged().empty());
    CHECK_FALSE(r.shell.message().empty());
    r.press({{'w'}});
    r.shell.typed("18in past 4in left");
    r.press({{key::enter}});
    REQUIRE(r.logged().size() == 1);
    CHECK(r.logged()[0].date == today());
    CHECK_THAT(*r.logged()[0].past_m, WithinAbs(18 * metres_per_inch, 1e-12));
    CHECK_FALSE(r.mode.putt().end);
    CHECK(r.mode.kept() == 1);
    r.press({{'h'}, {key::enter}});
    REQUIRE(r.logged().size() == 2);
    CHECK(r.logged()[1].holed);
    CHECK(r.mode.kept() == 1);  // a putt that was holed says nothing of a miss
    r.press({{'w'}});
    r.shell.typed("2ft past 8in left");
    REQUIRE(r.mode.split());
    CHECK(r.mode.split()->putts == 2);
}

TEST_CASE("in Review no label meets another, and nothing leaves its panel") {
    Reviewing r;
    int faults = 0;
    for (const char* end : {"", "2ft past 6in left", "3ft short 1ft right"}) {
        r.press({{'w'}});
        r.shell.typed(end);
        for (const auto& [w, h] :
             {std::pair(1280, 800), std::pair(1024, 640), std::pair(1920, 1080)})
            for (int text = 0; text < 3; ++text) {
                r.press({{'0', true}});
                for (int i = 0; i < text; ++i) r.press({{'+', true}});
                r.shell.resize(w, h);
                const Frame frame = r.shell.frame(half_em);
                for (const std::string& fault : Faults(r.shell.layout(), frame).found) {
                    UNSCOPED_INFO(
                        fmt::format("'{}' {}x{} text {}: {}", end, w, h, 100 + 25 * text, fault));
                    ++faults;
                }
            }
    }
    CHECK(faults == 0);
}
