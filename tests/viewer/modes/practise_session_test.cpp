#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <set>

#include "tests/support/tolerances.hpp"
#include "viewer/modes/every_mode.hpp"
#include "viewer/modes/practised.hpp"
#include "viewer/practice/habits/practice_words.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using oracle::round_off;

TEST_CASE("ten putts by keyboard alone, remembered, and an end that counts them") {
    Practised p;
    for (int i = 0; i < 10; ++i) {
        REQUIRE(p.mode.stage() == PractiseMode::Stage::asking);
        CHECK(p.told<std::string>("view") == "eye");
        for (int k = 0; k < i; ++k) p.press({{key::left}});
        // Inches below 5 in, from there cups: 5 in is 2.9 in outside the edge, 9 in is 6.9 in.
        if (i > 0 && i < 5) CHECK(p.says(fmt::format("{} in left", i)));
        if (i == 5) CHECK(p.says("half a cup out left"));
        if (i == 9) CHECK(p.says("one and a half cups out left"));
        p.press({{key::enter}});
        p.wait(20);
        REQUIRE(p.mode.stage() == PractiseMode::Stage::told);
        CHECK(p.told<std::string>("view") == "plan");
        p.press({{key::enter}});
    }
    CHECK(p.mode.stage() == PractiseMode::Stage::over);
    CHECK(p.remembered().size() == 10);
    // Straight at the hole or to its left, ten times: the end tells what that comes to.
    const EndWords end = end_words(p.mode.session(), Units{});
    CHECK(end.counts.find("10 putts, ") == 0);
    for (const std::string& words : {end.counts, end.finding, end.instruction, end.costs}) {
        INFO(words);
        CHECK(says(p.draw(), words));
    }
    CHECK(says(p.draw(), next_drill_words(p.mode.session().end().next)));
    p.press({{'g'}});
    CHECK(p.says("10 putts practised"));
}

namespace {

/// Answers straight at the hole, or so many inches to its left, and goes on.
void answer_putts(Practised& p, int putts, int left_in = 0) {
    for (int i = 0; i < putts; ++i) {
        for (int k = 0; k < left_in; ++k) p.shell.press({key::left});
        p.press({{key::enter}});
        p.wait(20);
        p.press({{key::enter}});
    }
}

}  // namespace

TEST_CASE("at the end every putt can be looked at again, and Enter leads back and on") {
    Practised p;
    answer_putts(p, 10, 3);
    REQUIRE(p.mode.stage() == PractiseMode::Stage::over);
    const Marked third = p.mode.session().marked()[2];
    p.click(What::putt, 2);
    CHECK(p.says("Putt 3 again"));
    // No dot is lit as the newest: this one is not.
    const auto lit = all_of<Disc>(p.draw().picture);
    CHECK(std::none_of(lit.begin(), lit.end(), [&](const Disc& disc) {
        return disc.colour == palette(Theme::dew).heather &&
               disc.centre.x() > p.shell.layout().note.x;
    }));
    CHECK(p.says(diagnosis_sentence(third.mark, Units{})));
    CHECK(p.says("aim spot"));
    p.press({{key::enter}});
    CHECK(p.says(end_words(p.mode.session(), Units{}).costs));
    const NextDrill next = p.mode.session().end().next;
    p.press({{key::enter}});
    CHECK(p.mode.stage() == PractiseMode::Stage::asking);
    CHECK(p.mode.session().plan().drill == next.drill);
    CHECK(p.mode.session().putts() == next.putts);
}

TEST_CASE("the end tells what to practise at home, and a click begins it there") {
    Practised p;
    answer_putts(p, 10, 3);
    REQUIRE(p.mode.stage() == PractiseMode::Stage::over);
    CHECK_FALSE(p.says("At home"));
    Measures measures;
    for (const double called : called_lengths_m(2, 6, 20, 3))
        measures.balls.push_back({.at = "2026-05-01T10:00:00",
                                  .called_m = called,
                                  .stopped_m = called * (measures.balls.size() % 2 ? 1.15 : 1.2)});
    Memory(p.folder.path()).add(measures);
    p.mode.arrived(std::nullopt);  // from another mode
    const auto home = home_drill(measured(measures), Fault::pace, Units{});
    REQUIRE(home);
    for (const char* view : {"end", "progress"}) {
        INFO(view);
        if (view == std::string("progress")) p.press({{'g'}});
        CHECK(p.says(home->words));
        p.shell.take_wishes();
        p.click(What::measured);
        const auto wishes = p.shell.take_wishes();
        REQUIRE(wishes.size() == 1);
        CHECK(wishes[0].kind == Wish::Kind::change_mode);
        CHECK(wishes[0].mode == ModeName::measure);
        CHECK(wishes[0].text == "pace");
    }
}

TEST_CASE("who comes back is told what the putts before came to, at the first putt alone") {
    const TemporaryFolder folder;
    const auto session = [&] {
        return DrawnMode<PractiseMode>(quiet_look(), practise_start_in(folder.path()));
    };
    {
        auto first = session();
        CHECK_FALSE(first.says("From your putts before"));
        for (int i = 0; i < 10; ++i) {  // straight at the hole
            first.press({{key::enter}});
            first.wait(20);
            first.press({{key::enter}});
        }
        REQUIRE_FALSE(instruction_words(first.mode.session().finding()).empty());
    }
    auto back = session();
    CHECK(back.says("From your putts before"));
    CHECK(back.says(instruction_words(back.mode.session().finding())));
    back.press({{key::enter}});
    back.wait(20);
    back.press({{key::enter}});
    CHECK_FALSE(back.says("From your putts before"));
}

TEST_CASE("quiet putts are the player's choice, and only once a trend was told") {
    Practised p;
    p.press({{'o', true}});
    CHECK(p.says("Quiet putts"));
    const auto quiet = [&] {
        for (int i = 0; i < 6; ++i) p.shell.press({key::down});
        p.press({{key::enter}});
    };
    quiet();
    CHECK(p.mode.session().plan().quiet);
    CHECK(p.says("until there is a trend"));
    for (int i = 0; i < 10; ++i) {
        p.press({{key::enter}});
        p.wait(20);
        const bool told = p.mode.session().marked().back().answer.told;
        CHECK((told || i >= 6));
        CHECK(p.says("Remembered.") == !told);
        CHECK(p.says("strokes") == told);
        p.press({{key::enter}});
    }
    CHECK(p.mode.session().kept_back());
    // All of them are told at the end.
    for (const Marked& marked : p.mode.session().marked())
        CHECK(p.says(diagnosis_rows(marked.mark, Units{})[0].truth));
    p.press({{'o', true}});
    quiet();
    CHECK_FALSE(p.mode.session().plan().quiet);
}

TEST_CASE("the putt of the day says that it counts once") {
    Practised p;
    for (const bool again : {false, true}) {
        p.press({{'o', true}, {key::down}, {key::down}, {key::down}, {key::enter}});
        CHECK(p.mode.session().plan().occasion == Occasion::day);
        CHECK(p.says("counted already") == again);
        answer_putts(p, 1);
    }
    CHECK(p.remembered().size() == 2);
    p.press({{'g'}});
    CHECK(p.says("1 putt practised"));
}

TEST_CASE("progress opens with the finding, over time, and says which way is better") {
    Practised p;
    answer_putts(p, 10, 2);
    p.press({{'g'}});
    const Frame frame = p.draw();
    const auto texts = all_of<Text>(frame.picture);
    const std::string finding = finding_words(p.mode.session().findings().lead());
    REQUIRE(says(frame, finding));
    // Nothing on the page is larger or, but for the count of putts, above it.
    const auto first = std::find_if(texts.begin(), texts.end(), [&](const Text& text) {
        return finding.find(text.words) == 0 && text.words.size() > 10;
    });
    REQUIRE(first != texts.end());
    const Rect page{0, 56, 904, 744};
    for (const Text& text : texts) {
        if (!page.contains(text.at) || text.words == "10 putts practised") continue;
        CHECK(text.at.y() >= first->at.y());
        CHECK(text.size <= first->size);
    }
    CHECK(says(frame, "lower is better"));
    CHECK(says(frame, "1 May"));  // the day of the plan
}

TEST_CASE("the slope drill types four values, remembers the spot, and tells what was felt") {
    Practised p;
    p.press({{'o', true}});
    for (int i = 0; i < 5; ++i) p.press({{key::down}});
    p.press({{key::enter}});
    CHECK(p.says("Spot 1 of 6"));
    p.press({{key::enter}});
    CHECK(p.mode.stage() == PractiseMode::Stage::slope);
    for (const char* text : {"1.5%", "4", "2%", "3:30"}) {
        CHECK(p.says("Type it"));
        p.type(text);
    }
    CHECK(p.says("Spot 1 of 6"));
    REQUIRE(p.remembered().size() == 1);
    CHECK(p.remembered()[0].drill == Drill::slope);
    CHECK_THAT(*p.remembered()[0].slope_said, WithinAbs(0.015, round_off));
    CHECK_THAT(*p.remembered()[0].falls_shown_deg, WithinAbs(105, round_off));
    CHECK(p.says("You feel 1.5 % where it is 2.0 %; the fall is 15° off."));
    CHECK(p.says("Next spot"));
    p.press({{key::enter}});
    CHECK(p.says("Spot 2 of 6"));
    CHECK_FALSE(p.says("You feel 1.5 %"));
    for (const char* before : {"1.5 %", "4:00", "2.0 %", "3:30"})
        CHECK_FALSE(opacity_of(p.draw(), before));
    p.type("steep");
    CHECK_FALSE(p.shell.message().empty());
    CHECK(p.remembered().size() == 1);
}

TEST_CASE("a digit begins the next spot of the slope drill, and its round ends with a count") {
    Practised p;
    p.press({{'o', true}});
    for (int i = 0; i < 5; ++i) p.press({{key::down}});
    p.press({{key::enter}});
    for (int spot = 1; spot <= usual_spots; ++spot) {
        strike(p.shell, "1.5%");
        CHECK(p.says(fmt::format("Spot {} of 6", spot)));
        CHECK_FALSE(p.says("You feel 1.5 %"));
        p.press({{key::enter}});
        for (const char* text : {"4", "2%", "3:30"}) p.type(text);
        CHECK(p.says("You feel 1.5 %"));
    }
    CHECK(p.says("Spot 6 of 6"));
    CHECK(p.says("6 spots more"));
    p.press({{key::enter}});
    CHECK(p.says("Spot 1 of 6"));
    CHECK(p.remembered().size() == 6);
}

TEST_CASE("each value of the slope drill has a label of its own") {
    std::set<std::string> labels;
    for (int i = 0; i < SlopeSpot::values; ++i) labels.insert(SlopeSpot::label(i));
    CHECK(labels.size() == SlopeSpot::values);
}
