// The page's pupils, without a browser: the same host of the modes, on files in a folder.

#include "tests/support/variable.hpp"
#include "viewer/modes/drawn_mode.hpp"
#include "viewer/modes/every_mode.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/pupils.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/web/page.hpp"

using namespace dewtrail;

namespace {

/// A browser's storage with nothing in it.
struct Storage {
    TemporaryFolder folder;
    Variable home{"HOME", folder.path().c_str()}, data{"XDG_DATA_HOME", nullptr},
        config{"XDG_CONFIG_HOME", nullptr}, state{"XDG_STATE_HOME", nullptr};
};

/// A page as it opens, touched by a finger.
struct Opened {
    Opened() : page({390, 844, false, true}, browser()) { draw(); }

    void draw() {
        page.grant_wishes();
        page.shell().frame(type_width);
    }
    /// What is changed is solved in full, and kept.
    void settle() {
        for (int i = 0; i < 90; ++i) page.shell().advance(1.0 / 60);
        draw();
    }
    void tap(What what, int index = 0) {
        const auto target = find_target(page.shell().targets(), what, index);
        REQUIRE(target);
        page.shell().pointer_pressed(target->hit.centre(), Button::left, {false, false, true});
        page.shell().pointer_released(target->hit.centre());
        draw();
    }
    void press(KeyPress pressed) {
        page.shell().press(pressed);
        draw();
    }
    /// The list of all whose page it can be: nobody's first, a new one's last.
    void choose(int row) {
        tap(What::pupil);
        tap(What::page, row);
        leave_session();
    }
    /// Where putts of a session are answered that is asked first: their rest is left.
    void leave_session() {
        if (page.shell().sheet_open() && !page.shell().typing()) tap(What::page, 1);
    }
    void add(const std::string& name, int row) {
        choose(row);
        REQUIRE(page.shell().typing());
        strike(page.shell(), name);
        draw();
        tap(What::button);
        leave_session();
    }
    void answer_a_putt() {
        if (page.shell().name() != ModeName::practise) press({'3', true});
        REQUIRE(page.shell().name() == ModeName::practise);
        press({key::enter});
        page.shell().advance(20);
        draw();
    }
    std::size_t answers() { return Memory(page.memory_folder()).answers().size(); }
    std::string shown() { return page.shell().appearance().pupil; }
    const Setup& putt() { return dynamic_cast<ReadMode&>(page.shell().mode()).setup(); }

    Browser browser() {
        return {[](const std::string&) {}, [] {}, [](double) {}, [] {},
                [this](const std::string& name, const std::string& pages) {
                    printed_name = name;
                    printed = pages;
                }};
    }
    std::string printed_name, printed;  ///< the last that was
    Page page;
};

}  // namespace

TEST_CASE("A page keeps pupils apart, and opens again as whose it was", "[web]") {
    const Storage storage;
    {
        Opened page;
        CHECK(page.shown().empty());
        page.add("anna", 1);
        CHECK(page.shown() == "anna");
        CHECK(page.page.pupil() == "anna");
        page.answer_a_putt();
        CHECK(page.answers() == 1);
        page.choose(0);
        CHECK(page.shown().empty());
        CHECK(page.answers() == 0);
        page.answer_a_putt();
        page.press({key::enter});
        page.answer_a_putt();
        CHECK(page.answers() == 2);
        page.choose(1);
        CHECK(page.shown() == "anna");
        CHECK(page.answers() == 1);
        CHECK(answers_as_csv(page.page.memory_folder()) != answers_as_csv(memory_folder_of("")));
    }
    Opened again;
    CHECK(again.shown() == "anna");
    CHECK(again.answers() == 1);
    again.choose(0);
    CHECK(Opened().shown().empty());
}

TEST_CASE("A page's pupil has a putt and units of their own", "[web]") {
    const Storage storage;
    Opened page;
    page.press({'u'});  // metres: the one who is added thinks in them
    page.add("anna", 1);
    page.press({'x'});
    page.settle();
    const double annas = page.putt().clock_h;
    page.choose(0);
    CHECK_FALSE(page.page.shell().units().metric);
    CHECK(page.putt().clock_h == annas);  // the putt on the green stays
    page.settle();
    page.press({'.'});
    page.settle();
    const double longer = page.putt().distance_m;
    CHECK(kept_putt(last_putt_file_of(""), {})->distance_m == longer);
    CHECK(kept_putt(last_putt_file_of("anna"), {})->distance_m < longer);
    page.choose(1);
    CHECK(page.page.shell().units().metric);
}

TEST_CASE("Spread and what is brought from a file go to the pupil whose page it is", "[web]") {
    const Storage storage;
    Opened page;
    page.answer_a_putt();
    storage.folder.write("answers.csv", answers_as_csv(page.page.memory_folder()));
    page.add("anna", 2);
    CHECK(add_to_memory(page.page.memory_folder(), storage.folder / "answers.csv") ==
          "1 answers added.");
    CHECK(page.answers() == 1);
    Wish spread{Wish::Kind::remember_spread};
    spread.spread = Spread{};
    spread.spread->line_deg = 2.5;
    page.page.shell().wish(spread);
    page.draw();
    CHECK(load_player(player_file_of("anna")).spread.line_deg == 2.5);
    CHECK(load_player().spread.line_deg != 2.5);
}

TEST_CASE("What was putted without a name on the page becomes a pupil's", "[web]") {
    const Storage storage;
    {
        Opened page;
        page.answer_a_putt();
        page.add("anna", 1);  // the row between those who are there and a new one
        CHECK(page.shown() == "anna");
        CHECK(page.answers() == 1);
        page.answer_a_putt();
        CHECK(page.answers() == 2);
        CHECK_FALSE(has_own_putts());
        page.choose(0);
        CHECK(page.answers() == 0);
    }
    Opened again;
    again.choose(1);
    CHECK(again.answers() == 2);
}

TEST_CASE("A pupil's name or file that cannot be leaves the page whose it was", "[web]") {
    const Storage storage;
    {
        Opened page;
        page.add("anna", 1);
        page.choose(0);
        page.add("anna", 2);
        CHECK(page.shown().empty());
        CHECK(page.page.shell().message().find("already") != std::string::npos);
        page.add("a/b", 2);
        CHECK(page.shown().empty());
        page.choose(1);
        CHECK(page.shown() == "anna");
    }
    std::ofstream(*player_file_of("anna")) << "format = 1\nhandicap = 'low'\n";
    Opened damaged;
    CHECK(damaged.shown().empty());
    CHECK(damaged.page.shell().message().find("player.toml") != std::string::npos);
    damaged.choose(1);
    CHECK(damaged.shown().empty());
    // What says whose it was need not be right either.
    for (const char* text : {"pupil = 'a/b'", "pupil = 'Zoe'", "pupil = 3", "["}) {
        std::ofstream(*state_path("page.toml")) << text;
        CHECK(Opened().shown().empty());
    }
}

TEST_CASE("A page prints what its modes print, a pupil's under their name", "[web]") {
    const Storage storage;
    Opened page;
    const auto print = [&](int which) {
        page.press({'p', true});
        page.tap(What::page, which);
    };
    print(0);
    CHECK(page.printed_name.starts_with("read-"));
    CHECK(page.printed.starts_with("<svg"));
    page.add("anna", 1);
    page.answer_a_putt();
    print(1);
    CHECK(page.printed_name == "progress-anna");
    CHECK(page.printed.find("anna") != std::string::npos);
    print(2);
    CHECK(page.printed_name == "lesson-anna");
    print(3);
    CHECK(page.printed_name == "results");
}
