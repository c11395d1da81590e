/// A lesson as a view of Practise: seen, chosen, begun, kept, opened again, printed.

#include <catch2/catch.hpp>
#include <fstream>

#include "tests/support/contrast.hpp"
#include "tests/viewer/modes/practised.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/modes/every_mode.hpp"
#include "viewer/practice/coach/kept_lessons.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/words.hpp"

using namespace dewtrail;

namespace {

/// Practise with its lesson in view, in a window this large.
struct Taught : Practised {
    explicit Taught(double width = 1280, double height = 2400) {
        shell.resize(width, height);
        draw();
        press({{'t'}});
    }
    TaughtLesson lesson() const {
        const auto lesson = mode.lesson_to_print();
        REQUIRE(lesson);
        return *lesson;
    }
    std::vector<Wish> wished(Wish::Kind kind) {
        auto wishes = shell.take_wishes();
        std::erase_if(wishes, [&](const Wish& wish) { return wish.kind != kind; });
        return wishes;
    }
    /// A row of the list that `key` opens.
    void choose(char key, int row) {
        press({{key}});
        for (int i = 0; i < row; ++i) press({{key::down}});
        press({{key::enter}});
    }
};

}  // namespace

TEST_CASE("a word of Practise and a key lead to the lesson, and it says what is printed") {
    for (const bool by_mouse : {false, true}) {
        Practised p;
        p.shell.resize(1280, 2400);
        p.draw();
        by_mouse ? p.click(What::lesson, lesson_seen) : p.press({{'t'}});
        CHECK(p.told<std::string>("view") == "lesson");
        const auto lesson = p.mode.lesson_to_print();
        REQUIRE(lesson);
        CHECK(lesson->theme == "uphill");  // nothing is known of whoever putts here
        Greenkeeper keeper(practise_start_in("").green_folders);
        const ToldLesson told = dewtrail::told(*lesson, usual_past_m, keeper, Units{});
        for (const LessonPart part :
             {LessonPart::show, LessonPart::drills, LessonPart::ladder, LessonPart::homework})
            CHECK(p.says(heading_of(part, told)));
        CHECK(p.says(lesson->title));
        CHECK(p.says(lesson_setting(*lesson)));
        for (const TaughtDrill& drill : lesson->drills) CHECK(p.says(drill_words(drill)));
        for (const PlacedPutt& putt : told.home) CHECK(p.says(putt_words(putt, Units{})));
        // The putt that was asked is still there.
        p.press({{'e'}});
        CHECK(p.mode.stage() == PractiseMode::Stage::asking);
        CHECK(p.told<std::string>("view") == "eye");
    }
}

TEST_CASE("the numbers of a lesson's parts can be read in either theme") {
    for (const Theme theme : {Theme::dew, Theme::dusk}) {
        Taught t;
        if (theme == Theme::dusk) t.press({{'d'}});
        t.wait(2);
        int parts = 0;
        for (const Text& text : all_of<Text>(t.draw().picture)) {
            if (text.face != Face::book_bold || text.words.size() != 1) continue;
            ++parts;
            CHECK(contrast(text.colour, palette(theme).paper) >= 4.5);
        }
        CHECK(parts == 4);
    }
}

TEST_CASE("a theme is chosen by keys or by mouse, and the lesson stays until another is") {
    Taught t;
    t.choose('n', 6);
    CHECK(t.lesson().theme == "low");
    CHECK(t.says("Most misses are low"));
    t.press({{'e'}, {key::enter}});
    t.wait(20);
    t.press({{'t'}});
    CHECK(t.lesson().theme == "low");
    const auto homework = t.lesson().homework;
    t.click(What::lesson, lesson_other);
    t.click(What::page, 6);
    CHECK(t.lesson().theme == "low");
    CHECK(t.lesson().homework != homework);  // one more was putted: other putts for home
    t.choose('n', 0);
    CHECK(t.says("What my putts call for"));
}

TEST_CASE("the demonstration opens in Compare, ready to be guessed") {
    Taught t;
    t.choose('n', 5);
    for (const bool by_mouse : {false, true}) {
        by_mouse ? t.click(What::lesson, lesson_shown) : t.press({{key::enter}});
        const auto wishes = t.wished(Wish::Kind::change_mode);
        REQUIRE(wishes.size() == 1);
        CHECK(wishes[0].mode == ModeName::compare);
        CHECK(wishes[0].text == "apex");
    }
    DrawnMode<CompareMode> compare(quiet_look(), CompareStart{});
    compare.mode.begin("apex");
    CHECK(compare.mode.compared().show == "apex");
}

TEST_CASE("a drill of the lesson begins with a click or with Tab and Enter") {
    for (const bool by_mouse : {false, true}) {
        Taught t;
        const TaughtDrill second = t.lesson().drills[1];
        REQUIRE(second.drill == Drill::pace);
        if (by_mouse) {
            t.click(What::lesson, lesson_drill + 1);
        } else {
            for (int i = 0; i < 40 && !t.shell.focused(What::lesson, lesson_drill + 1); ++i)
                t.press({{key::tab}});
            REQUIRE(t.shell.focused(What::lesson, lesson_drill + 1));
            t.press({{key::enter}});
        }
        CHECK(t.mode.session().plan().drill == Drill::pace);
        CHECK(t.mode.session().putts() == second.putts);
        CHECK(t.mode.stage() == PractiseMode::Stage::asking);
        CHECK(t.told<std::string>("view") == "eye");
        CHECK(t.shell.message() == second.say);
    }
    Taught slope;
    slope.choose('n', 7);  // half a percent misread
    REQUIRE(slope.lesson().drills[0].drill == Drill::slope);
    slope.click(What::lesson, lesson_drill);
    CHECK(slope.mode.stage() == PractiseMode::Stage::slope);
    Taught halves;
    halves.choose('n', 8);
    REQUIRE(halves.lesson().drills[0].green == "saddle");
    halves.click(What::lesson, lesson_drill);
    REQUIRE(halves.mode.session().question());
    CHECK(halves.mode.session().question()->task.putt.green == "saddle");
}

TEST_CASE("a putt for home begins the homework from there on") {
    Taught t;
    const auto homework = t.lesson().homework;
    t.click(What::lesson, lesson_putt + 5);
    CHECK(t.mode.session().putts() == static_cast<int>(homework.size()) - 5);
    REQUIRE(t.mode.session().question());
    CHECK(t.mode.session().question()->task.putt == homework[5]);
    CHECK(t.mode.stage() == PractiseMode::Stage::asking);
    // The session after it deals its own.
    t.press({{'o', true}, {key::enter}});
    CHECK(t.mode.session().plan().set.empty());
}

TEST_CASE("a lesson is kept as text, changed by hand, and opened again") {
    Taught t;
    t.choose('n', 6);
    t.press({{'k'}});
    const auto files = kept_lessons(t.folder.path());
    REQUIRE(files.size() == 1);
    CHECK(t.shell.message().find(files[0].string()) != std::string::npos);
    std::string text = content_of(files[0]);
    CHECK(text == lesson_text(t.lesson()));
    CHECK(t.mode.as_text() == text);
    const std::string say = "No ball may miss low.";
    text.replace(text.find(say), say.size(), "Never below the hole, Anna.");
    std::ofstream(files[0]) << text;
    t.choose('n', 1);
    CHECK_FALSE(t.says("Never below the hole, Anna."));
    t.choose('o', 0);
    CHECK(t.says("Never below the hole, Anna."));
    CHECK(t.says(files[0].stem().string()));
    CHECK(t.lesson().theme == "low");
    // The click does what the key does.
    t.click(What::lesson, lesson_keep);
    CHECK(kept_lessons(t.folder.path()).size() == 1);
    t.click(What::lesson, lesson_open);
    CHECK(t.says("Kept lessons"));
    t.press({{key::escape}});
    // One that is no lesson says where it is wrong, and the lesson stays.
    std::ofstream(files[0]) << "format = 1\ntheme = \"lowest\"\n";
    t.choose('o', 0);
    CHECK(t.shell.message().find("low.toml:") != std::string::npos);
    CHECK(t.lesson().theme == "low");
}

TEST_CASE("the stimp of a lesson is typed, and its ladder and putts follow") {
    Taught t;
    t.click(What::answer, answer_stimp);
    t.press({{key::enter}});
    t.type("12");
    CHECK(t.lesson().stimp_ft == 12);
    CHECK(t.says("Today's ladder: stimp 12"));
    for (const DealtPutt& putt : t.lesson().homework) CHECK(putt.stimp_ft == 12);
    t.click(What::answer, answer_stimp);
    t.press({{key::enter}});
    t.type("40");
    CHECK(t.lesson().stimp_ft == 12);
    CHECK_FALSE(t.shell.message().empty());
    t.press({{key::escape}, {key::escape}, {'u'}});
    CHECK(t.says("level"));
    CHECK(t.lesson().stimp_ft == 12);
}

TEST_CASE("the lesson that is seen is the one that is printed") {
    Taught t;
    t.choose('n', 6);
    const auto printed = [&] {
        const auto wishes = t.wished(Wish::Kind::print);
        REQUIRE(wishes.size() == 1);
        CHECK(wishes[0].text == "lesson");
        REQUIRE(wishes[0].lesson);
        CHECK(lesson_text(*wishes[0].lesson) == lesson_text(t.lesson()));
    };
    t.click(What::lesson, lesson_print);
    printed();
    t.press({{'p', true}});
    CHECK(t.says("This lesson"));
    t.press({{key::enter}});
    printed();
}

TEST_CASE("on a pupil's page the lesson is theirs, is kept there, and can be printed") {
    const TemporaryFolder folder;
    Appearance look = quiet_look();
    look.pupil = "Anna";
    look.width = 390, look.height = 844;
    PractiseStart start = practise_start_in(folder.path());
    start.in_browser = true;
    DrawnMode<PractiseMode> page(look, start);
    page.click(What::lesson, lesson_seen);
    CHECK(page.says("A lesson for Anna"));
    CHECK(page.says("What Anna's putts call for"));
    CHECK(find_target(page.shell.targets(), What::lesson, lesson_print));
    page.click(What::lesson, lesson_keep);
    REQUIRE(kept_lessons(folder.path()).size() == 1);
    CHECK(page.shell.message().find("Kept in this page as 20") == 0);
    CHECK_FALSE(find_target(page.shell.targets(), What::made));
    CHECK(load_lesson(kept_lessons(folder.path())[0]).pupil == "Anna");
}

TEST_CASE("while a lesson is seen no key sets or rolls the putt behind it") {
    Taught t;
    const Said before = t.mode.said();
    t.press({{key::up}, {key::left}, {'s'}, {'h'}, {key::space}, {'a'}, {'v'}});
    CHECK(t.mode.said() == before);
    CHECK(t.mode.stage() == PractiseMode::Stage::asking);
    CHECK_FALSE(t.shell.typing());
    for (const char key : {'n', 'o', 'k'}) {  // and these are the lesson's alone
        Practised p;
        p.press({{key}});
        CHECK_FALSE(p.shell.sheet_open());
        CHECK(kept_lessons(p.folder.path()).empty());
    }
}

TEST_CASE("in the smallest window with the largest type all of a lesson is reached by keys") {
    Taught t(1024, 640);
    t.press({{'+', true}, {'+', true}});
    REQUIRE(t.shell.text() == 1.5);
    const int last = lesson_putt + static_cast<int>(t.lesson().homework.size()) - 1;
    CHECK_FALSE(find_target(t.shell.targets(), What::lesson, last));
    for (int i = 0; i < 200 && !find_target(t.shell.targets(), What::lesson, last); ++i)
        t.press({{key::down}});
    REQUIRE(find_target(t.shell.targets(), What::lesson, last));
    for (int i = 0; i < 60 && !t.shell.focused(What::lesson, last); ++i) t.press({{key::tab}});
    t.press({{key::enter}});
    CHECK(t.mode.session().putts() == 1);
}

TEST_CASE("a lesson's words meet nothing and leave nothing, whatever the window") {
    const auto one_page = [](Layout& layout) {
        layout.green = layout.roll_strip = layout.setup_strip = layout.rows_strip = {};
    };
    for (int theme = 1; theme <= 8; ++theme) {
        INFO(theme);
        Taught t;
        t.choose('n', theme);
        check_layout(t, one_page, {{1280, 800}, {1024, 640}, {1920, 1080}, {900, 1200}});
        for (int i = 0; i < 6; ++i) t.press({{key::down}});
        check_layout(t, one_page, {{1280, 800}, {1024, 640}});
    }
}
