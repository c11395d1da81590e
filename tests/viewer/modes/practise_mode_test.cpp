#include "viewer/modes/practise/practise_mode.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "greens/temporary_folder.hpp"
#include "viewer/files/faults.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

constexpr double exact = 1e-12;

PractiseStart start_in(const std::filesystem::path& folder, Drill drill = Drill::read) {
    PractiseStart start;
    start.memory_folder = folder;
    start.green_folders = {std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens"};
    start.plan.drill = drill;
    start.plan.seed = 7;
    start.plan.date = "2026-05-01";
    return start;
}

Appearance quiet() {
    Appearance appearance;
    appearance.less_motion = true;
    appearance.modes = {ModeName::read, ModeName::practise};
    return appearance;
}

/// The mode drawn once, in a memory of its own.
struct Practised : private TemporaryFolder, InShell<PractiseMode> {
    explicit Practised(Drill drill = Drill::read) : InShell(quiet(), start_in(path(), drill)) {
        shell.frame(half_em);
    }
    void press(std::initializer_list<KeyPress> keys) {
        for (const KeyPress& key : keys) shell.press(key);
    }
    Frame wait(double seconds) {
        for (; seconds > 0; seconds -= 0.05) shell.advance(0.05);
        return shell.frame(half_em);
    }
    std::vector<Answer> remembered() const { return Memory(path()).answers(); }
};

bool says(const Frame& frame, const std::string& words) {
    for (const Text& text : all_of<Text>(frame.picture))
        if (text.words.find(words) != std::string::npos && text.colour.a > 0) return true;
    return false;
}

}  // namespace

TEST_CASE("keys set aim and pace in their steps, and undo takes them back") {
    Practised p;
    const double pace = p.mode.said().level_putt_m;
    p.press({{key::right}, {key::right}, {key::left, false, true}, {key::up}});
    CHECK_THAT(p.mode.said().aim_m, WithinAbs(1.75 * metres_per_inch, exact));
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(pace + 3 * metres_per_inch, exact));
    p.press({{'s'}, {'z', true}, {'z', true}});
    CHECK_FALSE(p.mode.said().sure);
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(pace, exact));
    p.press({{'y', true}});
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(pace + 3 * metres_per_inch, exact));
}

TEST_CASE("an answer is typed in the trade's words, and a bad one leaves the old") {
    Practised p;
    p.shell.press({'a'});
    REQUIRE(p.shell.typing());
    p.shell.typed("two cups out right");
    CHECK_THAT(p.mode.said().aim_m, WithinAbs(5 * hole_radius_m, 1e-6));
    p.shell.press({'v'});
    p.shell.typed("14ft");
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(14 * metres_per_foot, exact));
    p.shell.press({'v'});
    p.shell.typed("hard");
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(14 * metres_per_foot, exact));
    CHECK(p.shell.message().find("'hard'") != std::string::npos);
}

TEST_CASE("another session begins from the list, as the plan it says, and is looked at anew") {
    Practised p;
    p.press({{'e'}, {'o', true}});
    const Frame list = p.shell.frame(half_em);
    CHECK(says(list, "Line: the pace is given"));
    p.press({{key::down}, {key::enter}});
    CHECK(p.mode.session().plan().drill == Drill::line);
    bool in_plan = false;
    for (const auto& [name, value] : p.shell.state())
        if (name == "view") in_plan = std::get<std::string>(value) == "plan";
    CHECK(in_plan);
}

TEST_CASE("a roll that is paused waits without asking for more frames") {
    Practised p;
    p.press({{key::enter}});
    CHECK(p.shell.advance(0.05));
    p.press({{key::space}});
    CHECK_FALSE(p.shell.advance(0.05));
    p.press({{key::space}});
    CHECK(p.shell.advance(0.05));
}

TEST_CASE("nothing of the truth is seen before the ball has rolled") {
    Practised p;
    const Frame before = p.shell.frame(half_em);
    const double slope = p.mode.session().question()->plan.putt.slope_at_hole();
    CHECK_FALSE(says(before, format_slope(slope)));
    CHECK_FALSE(says(before, "apex"));
    CHECK(says(before, "read it"));
    for (const Text& text : all_of<Text>(before.picture))
        CHECK_FALSE(text.colour == palette(Theme::dew).copper);
    p.press({{key::enter}});
    p.wait(20);
    const Frame after = p.wait(2);
    CHECK(p.mode.stage() == PractiseMode::Stage::told);
    CHECK(says(after, "apex"));
    CHECK(says(after, "true"));
}

TEST_CASE("an answer is on the disk before its ball has moved, marked as the terminal marks it") {
    Practised p;
    p.press({{key::right}, {key::right}, {key::right}, {'s'}, {key::enter}});
    CHECK(p.mode.stage() == PractiseMode::Stage::rolling);
    const auto answers = p.remembered();
    REQUIRE(answers.size() == 1);
    CHECK(answers[0].sure == true);
    CHECK_THAT(*answers[0].aim_m, WithinAbs(3 * metres_per_inch, exact));
    const Question& q = *p.mode.session().question();
    const auto marked = diagnose(q.plan.putt, Drill::read, *answers[0].aim_m,
                                 *answers[0].level_putt_m, Spread{}, usual_past_m);
    REQUIRE(marked);
    CHECK(answers[0].score == marked->score);
    CHECK_THAT(*answers[0].lost, WithinAbs(marked->lost, exact));
}

TEST_CASE("what a drill gives is given, and does not move") {
    Practised line(Drill::line), pace(Drill::pace);
    const double given_pace = line.mode.session().question()->best.level_putt_m;
    line.press({{key::up}, {key::right}});
    CHECK_THAT(line.mode.said().level_putt_m, WithinAbs(given_pace, exact));
    CHECK(line.mode.said().aim_m > 0);
    const double given_aim = *pace.mode.session().question()->best.aim_offset_m;
    pace.press({{key::right}, {key::up}});
    CHECK_THAT(pace.mode.said().aim_m, WithinAbs(given_aim, exact));
}

TEST_CASE("the diamond is dragged along its rail, and one drag is one step of undo") {
    Practised p;
    Vec2 aim = Vec2::Zero();
    for (const auto& [name, at] : p.shell.places())
        if (name == "aim") aim = at;
    const Vec2 hole = aim;  // it begins at the centre
    Vec2 rail = Vec2::Zero();
    for (int i = 0; i < 6; ++i) p.press({{key::right}});
    for (const auto& [name, at] : p.shell.places())
        if (name == "aim") rail = at - hole;
    for (int i = 0; i < 6; ++i) p.press({{'z', true}});
    p.shell.frame(half_em);
    p.shell.pointer_pressed(hole, Button::left, {});
    for (const double share : {0.3, 0.7, 1.0}) p.shell.pointer_moved(hole + share * rail, {});
    p.shell.pointer_released(hole + rail);
    CHECK_THAT(p.mode.said().aim_m, WithinAbs(6 * metres_per_inch, 1e-6));
    p.press({{'z', true}});
    CHECK(p.mode.said().aim_m == 0);
}

TEST_CASE("ten putts by keyboard alone, remembered, and an end that counts them") {
    Practised p;
    for (int i = 0; i < 10; ++i) {
        REQUIRE(p.mode.stage() == PractiseMode::Stage::asking);
        for (const auto& [name, value] : p.shell.state())
            if (name == "view")
                CHECK(std::get<std::string>(value) == (i % 3 == 2 ? "eye" : "plan"));
        for (int k = 0; k < i; ++k) p.press({{key::left}});
        if (i == 7) CHECK(says(p.shell.frame(half_em), "7 in left"));
        p.press({{key::enter}});
        p.wait(20);
        REQUIRE(p.mode.stage() == PractiseMode::Stage::told);
        p.press({{key::enter}});
    }
    CHECK(p.mode.stage() == PractiseMode::Stage::over);
    CHECK(p.remembered().size() == 10);
    // Straight at the hole or to its left, ten times: the end tells what that comes to.
    const auto end = session_end_words(p.mode.session());
    CHECK(end.front().find("10 putts, ") == 0);
    CHECK(says(p.shell.frame(half_em), "10 putts,"));
    CHECK(says(p.shell.frame(half_em), next_drill_words(p.mode.session().end().next)));
    p.press({{'g'}});
    CHECK(says(p.shell.frame(half_em), "10 putts practised"));
}

TEST_CASE("the slope drill types four values, remembers the spot, and tells what was felt") {
    Practised p;
    p.press({{'o', true}});
    for (int i = 0; i < 5; ++i) p.press({{key::down}});
    p.press({{key::enter}, {key::enter}});
    CHECK(p.mode.stage() == PractiseMode::Stage::slope);
    for (const char* text : {"1.5%", "4", "2%", "3:30"}) {
        p.shell.frame(half_em);
        REQUIRE(p.shell.typing());
        p.shell.typed(text);
    }
    REQUIRE(p.remembered().size() == 1);
    CHECK(p.remembered()[0].drill == Drill::slope);
    CHECK_THAT(*p.remembered()[0].slope_said, WithinAbs(0.015, exact));
    CHECK_THAT(*p.remembered()[0].falls_shown_deg, WithinAbs(105, exact));
    CHECK(says(p.shell.frame(half_em), "You feel 1.5 % where it is 2.0 %; the fall is 15° off."));
    p.press({{key::enter}});
    p.shell.frame(half_em);
    p.shell.typed("steep");
    CHECK_FALSE(p.shell.message().empty());
    CHECK(p.remembered().size() == 1);
}

TEST_CASE("the tick is off at first, and its ratio is free") {
    Practised p;
    const auto ratio = [&] {
        double last = -1;
        for (const Wish& wish : p.shell.take_wishes())
            if (wish.kind == Wish::Kind::tick) last = wish.ratio;
        return last;
    };
    CHECK(ratio() == -1);
    p.press({{'i'}});
    CHECK(ratio() == 2);
    p.press({{'i', false, true}});
    CHECK(ratio() == 2.5);
    p.press({{'i'}});
    CHECK(ratio() == 0);
}

TEST_CASE("in Practise no label meets another, and nothing leaves its panel") {
    Practised p;
    int faults = 0;
    for (const char* stage : {"asking", "told"}) {
        for (const char view : {'p', 'e', 'g'})
            for (const auto& [w, h] :
                 {std::pair(1280, 800), std::pair(1024, 640), std::pair(1920, 1080)})
                for (int text = 0; text < 3; ++text) {
                    p.press({{view}, {'0', true}});
                    for (int i = 0; i < text; ++i) p.press({{'+', true}});
                    p.shell.resize(w, h);
                    const Frame frame = p.shell.frame(half_em);
                    for (const std::string& fault : Faults(p.shell.layout(), frame).found) {
                        UNSCOPED_INFO(fmt::format("{} {} {}x{} text {}: {}", stage, view, w, h,
                                                  100 + 25 * text, fault));
                        ++faults;
                    }
                }
        p.press({{'p'}, {key::right}, {key::right}, {key::enter}});
        p.wait(20);
    }
    CHECK(faults == 0);
}
