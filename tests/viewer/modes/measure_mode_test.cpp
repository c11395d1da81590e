#include "viewer/modes/measure/measure_mode.hpp"

#include <catch2/catch.hpp>

#include "tests/support/allocations.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viewer/modes/drawn_mode.hpp"
#include "viewer/modes/faults.hpp"
#include "viewer/practice/measure/measure_words.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

struct InFolder {
    Measures remembered() const { return Memory(folder.path()).measures(); }
    TemporaryFolder folder;
};
/// The mode in a memory of its own, come to the front.
struct Measuring : InFolder, DrawnMode<MeasureMode> {
    explicit Measuring(const Player& player = {})
        : DrawnMode(quiet_look(), MeasureStart{folder.path(), player, 3}) {
        mode.arrived(std::nullopt);
        draw();
    }
    double called_m() const { return told("called_m"); }
    void strike(const std::string& characters) {
        for (const char c : characters) {
            shell.press({c});
            shell.enter(std::string(1, c));
        }
        press({{key::enter}});
    }
    /// Far off what was called, too. After the last of a round another begins.
    void keep(const std::string& stop) {
        if (!shell.typing()) press({{key::enter}});
        type(stop);
        if (told<bool>("has_stop")) press({{key::enter}});
    }
    /// So far off what is called, of the length.
    void balls(int count, double off) {
        for (int i = 0; i < count; ++i)
            type(std::to_string(called_m() * (1 + off + 0.05 * (i % 3 - 1))) + "m");
    }
};

Player with_stroke_table() {
    Player player;
    player.stimp_ft = 10;
    player.stroke_table = {{0.1, 1}, {0.2, 4}};
    return player;
}

}  // namespace

TEST_CASE("each ball of the pace test is on the disk before the next is called", "[measure]") {
    Measuring m;
    for (int i = 1; i <= 3; ++i) {
        const double called = m.called_m();
        m.strike("10in short");
        const auto balls = m.remembered().balls;
        REQUIRE(balls.size() == static_cast<std::size_t>(i));
        CHECK(balls.back().called_m == called);
        CHECK_THAT(balls.back().stopped_m, WithinAbs(called - 10 * metres_per_inch, 1e-12));
    }
    m.strike("somewhere");
    CHECK(m.remembered().balls.size() == 3);
    CHECK_FALSE(m.shell.message().empty());
}

TEST_CASE("a ball is put on the floor by mouse, and a mistyped one taken back", "[measure]") {
    Measuring m;
    const double called = m.called_m();
    const Vec2 flag = m.place("called");
    m.drag(flag + Vec2(30, 0), flag);
    m.draw();
    CHECK(m.remembered().balls.empty());
    m.click(What::button);
    REQUIRE(m.remembered().balls.size() == 1);
    CHECK_THAT(m.remembered().balls[0].stopped_m, WithinAbs(called, 0.6 * metres_per_inch));
    m.press({{key::escape}, {key::erase}});
    CHECK(m.remembered().balls.empty());
    CHECK(m.called_m() == called);
}

TEST_CASE("what is taken back says so, and undo brings it again", "[measure]") {
    Measuring m;
    for (int i = 0; i < 3; ++i) m.strike("10in short");
    const auto balls = [&] { return m.remembered().balls; };
    const std::string third = balls()[2].at;
    m.strike("foo");
    m.press({{key::escape}, {key::back}, {key::back}});  // as one who means the word does
    CHECK(balls().size() == 3);
    m.press({{key::erase}});
    CHECK(balls().size() == 2);
    CHECK(m.shell.message() == "Ball 3 taken back: Ctrl Z brings it again.");
    CHECK(m.says("Ball 3 of 20"));
    m.press({{'z', true}});
    REQUIRE(balls().size() == 3);
    CHECK(balls()[2].at == third);
    CHECK(m.says("Ball 4 of 20"));
    m.press({{'y', true}});
    CHECK(balls().size() == 2);
    m.strike("1in long");
    m.press({{'z', true}});  // what was taken back before another was kept stays so
    CHECK(balls().size() == 3);
    m.press({{key::escape}, {'l'}, {key::up}, {key::left}});
    m.click(What::measured, measured_take_back);
    CHECK(m.shell.message() == "Stroke 2 taken back: Ctrl Z brings it again.");
    m.press({{'z', true}});
    REQUIRE(m.remembered().strokes.size() == 2);
    CHECK(m.remembered().strokes[1].passed == Passed::left);
    CHECK(m.says("Stroke 3 of 20"));
}

TEST_CASE("a ball far off what was called is asked about before it is kept", "[measure]") {
    Measuring m;
    const double called = m.called_m();
    m.type(std::to_string(0.6 * called) + "m");
    CHECK(m.remembered().balls.size() == 1);
    for (const bool again : {false, true}) {
        const std::string far = std::to_string(0.4 * m.called_m()) + "m";
        const std::size_t before = m.remembered().balls.size();
        m.type(far);
        CHECK(m.remembered().balls.size() == before);
        CHECK(m.shell.message().find("is that right?") != std::string::npos);
        CHECK_FALSE(m.shell.typing());
        if (again) {  // the same once more is an answer too
            m.strike(far);
        } else {
            m.press({{key::enter}});
        }
        CHECK(m.remembered().balls.size() == before + 1);
    }
    const double next = m.called_m();
    m.type(std::to_string(1.6 * next) + "m");
    m.strike(std::to_string(1.1 * next) + "m");  // it was a slip of the hand
    REQUIRE(m.remembered().balls.size() == 4);
    CHECK_THAT(m.remembered().balls.back().stopped_m, WithinAbs(1.1 * next, 1e-6));
}

TEST_CASE("through, left and right by key and by click; the gate follows", "[measure]") {
    Measuring m;
    m.press({{key::escape}, {'l'}});
    m.press({{key::left}, {key::up}, {key::right}});
    m.click(What::measured, measured_through);
    const auto strokes = m.remembered().strokes;
    REQUIRE(strokes.size() == 4);
    CHECK(strokes[0].passed == Passed::left);
    CHECK(strokes[1].passed == Passed::through);
    CHECK(strokes[2].passed == Passed::right);
    CHECK(strokes[3].passed == Passed::through);
    LinePosterior known;
    for (const GateStroke& s : strokes) known.add(s.gate, s.passed);
    const GateSize next = known.next(usual_gates(false), strokes.back().gate);
    CHECK(m.told("gate_width_m") == next.width_m);
    CHECK(m.told("gate_away_m") == next.away_m);
    m.click(What::measured, measured_take_back);
    CHECK(m.remembered().strokes.size() == 3);
}

TEST_CASE("what was measured becomes the player's spread, with where it is from", "[measure]") {
    Measuring m;
    m.press({{key::escape}, {'t'}});
    CHECK(m.shell.take_wishes().empty());
    m.press({{'w'}});
    m.balls(10, 0);
    m.press({{key::escape}});
    m.click(What::measured, measured_take);
    const auto wishes = m.shell.take_wishes();
    REQUIRE(wishes.size() == 1);
    REQUIRE(wishes[0].kind == Wish::Kind::remember_spread);
    CHECK(wishes[0].text == "10 balls");
    CHECK(*wishes[0].spread == spread_by(measured(m.remembered()), Spread{}));
    CHECK(wishes[0].spread->pace < Spread{}.pace);
    CHECK(m.says("Of level putts of 8 ft"));
}

TEST_CASE("a floor too short is timed to a line, and the drill calls the lengths of the bias",
          "[measure]") {
    Measuring m;
    m.balls(20, 0.2);
    m.press({{key::escape}});
    m.click(What::measured, measured_drill);
    REQUIRE(m.shell.typing());
    m.press({{key::escape}});
    m.shell.begin_typing(FocusStop::on(What::answer, measure_line));
    m.type("5ft");
    m.press({{'w'}});
    const double called = m.called_m();
    m.keep("0.7");
    const PaceBall ball = m.remembered().balls.back();
    CHECK(ball.called_m == called);
    CHECK(ball.stopped_m == *roll_by_time_m({0, 5 * metres_per_foot}, 0.7, 10));
    m.shell.begin_typing(FocusStop::on(What::answer, measure_from));
    m.type("30ft");
    CHECK_FALSE(m.shell.message().empty());  // longer than the longest
}

TEST_CASE("another mode begins a drill, and the words are those of the end of practice",
          "[measure]") {
    Measuring m;
    m.balls(20, 0.2);
    m.press({{key::escape}, {'l'}});
    for (int i = 0; i < 12; ++i) m.press({{i % 3 == 0 ? key::up : key::left}});
    const Measured found = measured(m.remembered());
    m.mode.begin("pace");
    CHECK(m.says("Ball 1 of 10"));
    CHECK(m.says("Drill: " + drill_words(*found.pace, Units{})));
    m.press({{key::escape}});
    m.mode.begin("line");
    CHECK(m.says("Stroke 1 of 10"));
    CHECK(m.says("Drill: " + drill_words(*found.line, Units{})));
    CHECK(m.told("gate_width_m") == gate_drill(*found.line, usual_gates(false)).width_m);
}

TEST_CASE("two marks on a short floor, and the floor's speed by the stroke table", "[measure]") {
    Measuring m(with_stroke_table());
    const auto last = [&] { return m.remembered().balls.back().stopped_m; };
    for (const char* stop : {"1.2m back 10cm", "4.8m back 20cm", "1.2m, back 10cm"}) m.keep(stop);
    CHECK(m.says("By your stroke table this floor is stimp 12 ("));
    m.press({{key::escape}});
    m.shell.begin_typing(FocusStop::on(What::answer, measure_line));
    m.type("3ft, 6ft");
    CHECK(m.says("from 3 ft to 6 ft"));
    CHECK(m.says("Timed a twentieth of a second short"));
    m.shell.begin_typing(FocusStop::on(What::answer, measure_stimp));
    m.type("1.2m back 10cm");
    m.press({{'w'}});
    m.keep("0.6");
    CHECK_THAT(
        last(),
        WithinAbs(*roll_by_time_m({3 * metres_per_foot, 6 * metres_per_foot}, 0.6, 12), 1e-9));
    m.keep("5ft");  // stopped before the line
    CHECK_THAT(last(), WithinAbs(5 * metres_per_foot, 1e-12));
}

TEST_CASE("the floor's speed is worked out once a ball, not in every frame", "[measure]") {
    Measuring m(with_stroke_table());
    const auto taken_to_tell = [&] {
        const long before = oracle::allocations();
        m.mode.as_text();
        return oracle::allocations() - before;
    };
    // What grows with the balls grows from the 32nd to the 33rd.
    for (int i = 0; i < 32; ++i) m.keep(i % 2 ? "4.8m back 20cm" : "1.2m back 10cm");
    REQUIRE(m.remembered().balls.size() == 32);
    const long for_32 = taken_to_tell();
    CHECK(m.says("By your stroke table this floor is stimp 12 ("));
    m.keep("1.2m back 10cm");
    REQUIRE(m.remembered().balls.size() == 33);
    CHECK(taken_to_tell() == for_32);
}

TEST_CASE("nothing is clipped and no texts meet in Measure", "[measure]") {
    Measuring m;
    m.balls(8, 0.1);
    m.press({{key::escape}});
    // The floor and the months lie where others have their strips.
    const auto one_page = [](Layout& layout) {
        layout.green = layout.roll_strip = layout.setup_strip = layout.rows_strip = {};
    };
    for (const char view : {'p', 'l', 'm', 't'}) {
        m.press({{key::escape}, {view == 't' ? 'p' : view}});
        if (view == 't') {  // timed, with a message above
            m.shell.begin_typing(FocusStop::on(What::answer, measure_line));
            m.type("3ft, 6ft");
            m.press({{'w'}});
            m.type("somewhere");
        }
        if (view == 'l')
            for (int i = 0; i < 8; ++i) m.press({{key::up}});
        m.press({{key::escape}});
        check_layout(m, one_page, {{1280, 800}, {1024, 640}, {1920, 1080}, {900, 1200}});
    }
}
