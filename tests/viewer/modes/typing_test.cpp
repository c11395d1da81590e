#include <catch2/catch.hpp>

#include "viewer/modes/every_mode.hpp"
#include "viewer/modes/practised.hpp"

/// Nothing that is typed is lost silently, or taken for a command.
using namespace dewtrail;
using Catch::WithinAbs;

namespace {

constexpr double nanometre = 1e-9;
const FocusStop aim = FocusStop::on(What::answer, answer_aim),
                pace = FocusStop::on(What::answer, answer_pace);

/// Come to the front, and typing.
std::unique_ptr<Shell> measuring(const TemporaryFolder& folder) {
    auto shell = Shell::with<MeasureMode>(quiet_look(), MeasureStart{folder.path(), {}, 5});
    shell->arrive(quiet_look(), std::nullopt);
    shell->frame(type_width);
    return shell;
}

}  // namespace

TEST_CASE("a digit where nothing is focused begins what Practise asks", "[typing]") {
    Practised p;
    strike(p.shell, "3 cups left");
    CHECK(p.shell.typed_text() == "3 cups left");
    CHECK(p.mode.stage() == PractiseMode::Stage::asking);
    CHECK_FALSE(p.shell.units().metric);
    p.press({{key::enter}});
    CHECK_THAT(p.mode.said().aim.offset_m,
               WithinAbs(-(hole_radius_m + 6 * hole_radius_m), nanometre));
    CHECK(p.told<std::string>("help").empty());
    Practised by_pace(Drill::pace);
    strike(by_pace.shell, "14 ft");
    by_pace.press({{key::enter}});
    CHECK_THAT(by_pace.mode.said().level_putt_m, WithinAbs(14 * metres_per_foot, nanometre));
}

TEST_CASE("a digit begins the value that a mode is first about, and a letter none", "[typing]") {
    EveryMode every;
    for (const auto& shell : every.shells) {
        INFO(words_for(shell->name()));
        const auto first = shell->mode().first_value();
        CHECK(first.has_value() == (shell->name() != ModeName::green));  // no spot is chosen
        strike(*shell, "#");
        CHECK_FALSE(shell->typing());
        strike(*shell, "17");
        CHECK(shell->typed_text() == (first ? "17" : ""));
    }
    Shell& green = *every.shells[4];
    green.press({'a'});
    green.press({key::escape});
    green.frame(type_width);
    strike(green, "2% 95");
    CHECK(green.typed_text() == "2% 95");
    Shell& read = *every.shells[0];
    read.press({key::enter});
    CHECK_THAT(static_cast<const ReadMode&>(read.mode()).setup().distance_m,
               WithinAbs(17 * metres_per_foot, nanometre));
}

TEST_CASE("Tab after typing leads to the next value, and what follows is typed there", "[typing]") {
    Practised p;
    p.click(What::answer, answer_aim);
    strike(p.shell, "1 cup right");
    p.press({{key::tab}});
    CHECK_THAT(p.mode.said().aim.offset_m, WithinAbs(3 * hole_radius_m, nanometre));
    CHECK(p.shell.focus() == pace);
    strike(p.shell, "38");
    p.press({{key::tab, false, true}});
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(38 * metres_per_foot, nanometre));
    CHECK(p.shell.focus() == aim);
    strike(p.shell, "nowhere");
    p.press({{key::tab}});
    CHECK_FALSE(p.shell.message().empty());
    CHECK(p.shell.focus() == aim);  // to be typed again
    CHECK_THAT(p.mode.said().aim.offset_m, WithinAbs(3 * hole_radius_m, nanometre));
}

TEST_CASE("Tab begins with the values, goes as things are drawn, and ends at the top", "[typing]") {
    Practised p;
    std::vector<FocusStop> walked;
    for (p.press({{key::tab}}); walked.empty() || *p.shell.focus() != walked.front();
         p.press({{key::tab}}))
        walked.push_back(*p.shell.focus());
    REQUIRE(walked.size() > 4);
    const std::vector<FocusStop> first(walked.begin(), walked.begin() + 4);
    CHECK(first ==
          std::vector{aim, pace, FocusStop::on(What::sure, 0), FocusStop::on(What::sure, 1)});
    const auto at = std::find(walked.begin(), walked.end(), FocusStop::on(What::help_level, 0));
    REQUIRE(walked.end() - at > 2);
    CHECK(*(at + 1) == FocusStop::on(What::help_level, 1));
    CHECK(*(at + 2) == FocusStop::on(What::help_level, 2));
    CHECK(walked.back() == FocusStop::on(What::help));
    CHECK(find_target(p.shell.targets(), What::sure, 0)->hit.x <
          find_target(p.shell.targets(), What::sure, 1)->hit.x);
}

TEST_CASE("after a command Enter is no more the word's at the top where Tab has led", "[typing]") {
    Practised p;
    p.press({{key::enter}});
    p.wait(0.1);
    const auto to_read = [&] {
        for (int i = 0; i < 40 && !p.shell.focused(What::mode, 0); ++i) p.press({{key::tab}});
        REQUIRE(p.shell.focused(What::mode, 0));
    };
    to_read();
    p.press({{key::space}});
    p.shell.take_wishes();
    p.press({{key::enter}});
    CHECK_FALSE(wants_another_mode(p.shell));
    CHECK(p.shell.playback.running);
    to_read();
    p.press({{key::enter}});
    CHECK(wants_another_mode(p.shell));  // but meant it is one
}

TEST_CASE("another mode is gone to while typing, and what is half typed waits", "[typing]") {
    const TemporaryFolder folder;
    const auto shell = measuring(folder);
    for (const char* half : {"", "8 f"}) {
        REQUIRE(shell->typing());
        strike(*shell, half);
        shell->press({'3', true});
        CHECK(wants_another_mode(*shell));
        shell->arrive(quiet_look(), std::nullopt);
        shell->enter("6");  // some systems write a digit with Ctrl
        shell->frame(type_width);
        CHECK(shell->typed_text() == half);
    }
    shell->press({'p', true});
    CHECK_FALSE(shell->sheet_open());  // it would leave what is typed behind
    CHECK(shell->typed_text() == "8 f");
    shell->press({'z', true});
    CHECK_FALSE(shell->typing());
    shell->press({'w'});
    shell->press({'p', true});
    CHECK(shell->sheet_open());
}

TEST_CASE("Backspace edits the value that has the focus, and is no command", "[typing]") {
    Practised p;
    p.click(What::answer, answer_pace);
    p.press({{key::back}});
    REQUIRE(p.shell.typing());
    CHECK(p.shell.typed_text().empty());
    EveryMode every;
    for (const auto& shell : every.shells) {
        INFO(words_for(shell->name()));
        shell->take_actions();
        shell->press({key::back});
        CHECK(shell->take_actions().empty());
    }
}
