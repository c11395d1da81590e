#include <algorithm>
#include <catch2/catch.hpp>

#include "greens/input_error.hpp"
#include "viewer/modes/practised.hpp"
#include "viewer/modes/shell/modes.hpp"
#include "viewer/modes/shell/pupil_desk.hpp"

namespace dewtrail {
namespace {

/// A second mode to go to: it only remembers what came along.
class Blank final : public Mode {
  public:
    Blank(Shell& shell, int) : Mode(shell) {}
    ModeName name() const override { return ModeName::compare; }
    Commands commands() override { return {}; }
    Layout lay_out() const override { return dewtrail::lay_out(shell_.appearance(), true); }
    void paint(const Canvas&) const override {}
    std::optional<Drag> grab(const Grip&) override { return std::nullopt; }
    std::vector<Value> fields() override { return {}; }
    bool advance(double) override { return false; }
    void arrived(const std::optional<Setup>& putt) override { brought = putt; }
    void begin(const std::string& what) override { begun = what; }
    std::optional<Setup> brought;
    std::string begun;
};

Modes read_and_compare() {
    ReadStart start = quiet_start();
    start.modes = {ModeName::read, ModeName::compare};
    Modes modes(Shell::with<ReadMode>(start, start));
    modes.offer(ModeName::compare, [](const Appearance& a) { return Shell::with<Blank>(a, 0); });
    return modes;
}

std::vector<Wish> wishes_for_modes(Shell& shell) {
    auto wishes = shell.take_wishes();
    std::erase_if(wishes, [](const Wish& w) { return w.kind != Wish::Kind::change_mode; });
    return wishes;
}

}  // namespace

TEST_CASE("Ctrl and a number ask for their mode and take the putt along", "[scene]") {
    Modes modes = read_and_compare();
    modes.now().press({'1', true});
    CHECK(wishes_for_modes(modes.now()).empty());  // it is there already
    modes.now().press({'2', true});
    const auto wishes = wishes_for_modes(modes.now());
    REQUIRE(wishes.size() == 1);
    CHECK(wishes[0].mode == ModeName::compare);
    REQUIRE(wishes[0].putt);
    CHECK(wishes[0].putt->clock_h == 3);
}

TEST_CASE("what is to begin in another mode is told it once", "[scene]") {
    Modes modes = read_and_compare();
    modes.change(ModeName::compare, std::nullopt, "pace");
    CHECK(static_cast<const Blank&>(modes.now().mode()).begun == "pace");
    modes.change(ModeName::read, std::nullopt);
    modes.now().change_mode(ModeName::compare, "line");
    const auto wishes = wishes_for_modes(modes.now());
    REQUIRE(wishes.size() == 1);
    CHECK(wishes[0].text == "line");
}

TEST_CASE("A mode looks as the one before did, and is found again as it was left", "[scene]") {
    Modes modes = read_and_compare();
    modes.now().press({'d'});
    modes.now().press({'u'});
    modes.now().press({'+', true});
    modes.now().resize(1400, 900);
    Setup putt;
    putt.clock_h = 4.5;
    modes.change(ModeName::compare, putt);
    REQUIRE(modes.now().name() == ModeName::compare);
    CHECK(modes.now().appearance().theme == Theme::dusk);
    CHECK(modes.now().units().metric);
    CHECK(modes.now().text() == 1.25);
    CHECK(modes.now().appearance().width == 1400);
    CHECK(dynamic_cast<Blank&>(modes.now().mode()).brought->clock_h == 4.5);
    const Shell* second = &modes.now();
    modes.change(ModeName::read, std::nullopt);
    CHECK(modes.now().appearance().theme == Theme::dusk);
    modes.change(ModeName::compare, std::nullopt);
    CHECK(&modes.now() == second);
}

TEST_CASE("For another player every mode is made anew but those that hold nothing of one",
          "[scene]") {
    Modes modes = read_and_compare();
    ReadStart start = quiet_start();
    start.setup.spread.line_deg = 2.5;
    modes.offer(ModeName::read,
                [start](const Appearance& a) { return Shell::with<ReadMode>(a, start); });
    modes.offer(
        ModeName::compare, [](const Appearance& a) { return Shell::with<Blank>(a, 0); },
        Modes::Holds::nothing);
    modes.change(ModeName::compare, std::nullopt);
    const Shell* second = &modes.now();
    modes.change(ModeName::read, std::nullopt);
    auto& first = dynamic_cast<ReadMode&>(modes.now().mode());
    CHECK(first.setup().spread.line_deg != 2.5);
    modes.now().press({'x'});  // the putt at hand is another than at the start
    const double clock_h = first.setup().clock_h;
    Appearance look = modes.now().appearance();
    look.pupil = "Anna";
    modes.renew(look);
    const auto& renewed = dynamic_cast<ReadMode&>(modes.now().mode());
    CHECK(renewed.setup().spread.line_deg == 2.5);
    CHECK(renewed.setup().clock_h == clock_h);
    CHECK(says(modes.now().frame(type_width), "Anna"));
    modes.change(ModeName::compare, std::nullopt);
    CHECK(&modes.now() == second);
    CHECK(modes.now().appearance().pupil == "Anna");
}

TEST_CASE("Where another player's mode cannot be made all is as it was", "[scene]") {
    Modes modes = read_and_compare();
    modes.offer(ModeName::read, [](const Appearance&) -> std::unique_ptr<Shell> {
        throw InputError("player.toml is damaged", "Take it away.");
    });
    const Shell* before = &modes.now();
    Appearance look = modes.now().appearance();
    look.pupil = "Anna";
    CHECK_THROWS_AS(modes.renew(look), InputError);
    CHECK(&modes.now() == before);
    CHECK(modes.now().appearance().pupil.empty());
}

TEST_CASE("Pupils are chosen from a list, and one is added by typing a name", "[scene]") {
    Drawn drawn;
    Shell& shell = drawn.shell;
    const auto wished = [&](Wish::Kind kind) -> std::optional<std::string> {
        for (const Wish& wish : shell.take_wishes())
            if (wish.kind == kind) return wish.text;
        return std::nullopt;
    };
    shell.press({'u', true});
    CHECK(wished(Wish::Kind::pupils));
    drawn.click(What::pupil);
    CHECK(wished(Wish::Kind::pupils));
    shell.open_pupils({"Anna", "Ben"});
    for (const char* row : {"My own putts", "Anna", "Ben", "Add a pupil …"})
        CHECK(says(drawn.draw(), row));
    shell.press({key::down});
    shell.press({key::down});
    shell.press({key::enter});
    CHECK(wished(Wish::Kind::choose_pupil) == "Ben");
    shell.open_pupils({"Anna", "Ben"});
    drawn.draw();
    drawn.click(What::page, 0);  // whose putts they are already
    CHECK(shell.take_wishes().empty());
    Appearance bens = shell.appearance();
    bens.pupil = "Ben";
    shell.arrive(bens, std::nullopt);
    shell.open_pupils({"Anna", "Ben"});
    drawn.draw();
    drawn.click(What::page, 0);
    CHECK(wished(Wish::Kind::choose_pupil) == "");
    shell.open_pupils({});
    drawn.draw();
    drawn.click(What::page, 1);
    CHECK(says(drawn.draw(), "A new pupil"));
    REQUIRE(shell.typing());
    for (const char* letter : {"C", "l", "o", "e"}) {
        shell.press({letter[0]});
        shell.enter(letter);
    }
    CHECK(says(drawn.draw(), "Cloe"));
    shell.press({key::enter});
    CHECK(wished(Wish::Kind::add_pupil) == "Cloe");
    drawn.draw();
    CHECK_FALSE(shell.sheet_open());
    // By thumb it is the button that adds, and a tap beside the sheet that does not. A keyboard on
    // a screen writes without a key, whatever key was a command before.
    shell.press({'u', true});
    shell.open_pupils({});
    drawn.draw();
    drawn.click(What::page, 1);
    shell.enter("B");
    drawn.click(What::button);
    CHECK(wished(Wish::Kind::add_pupil) == "B");
    drawn.draw();
    CHECK_FALSE(shell.sheet_open());
    shell.open_pupils({});
    drawn.draw();
    drawn.click(What::page, 1);
    shell.press({'b'});
    shell.enter("B");
    shell.pointer_pressed({2, 2}, Button::left, {});
    drawn.draw();
    CHECK_FALSE(shell.sheet_open());
    CHECK_FALSE(wished(Wish::Kind::add_pupil));
    // Esc gives up.
    shell.open_pupils({});
    drawn.draw();
    drawn.click(What::page, 1);
    shell.press({key::escape});
    drawn.draw();
    CHECK_FALSE(shell.sheet_open());
    CHECK_FALSE(wished(Wish::Kind::add_pupil));
}

TEST_CASE("A session with answers is not cut short for another pupil unasked", "[scene]") {
    const TemporaryFolder folder;
    const auto practise = [&](const Appearance& look) {
        return Shell::with<PractiseMode>(look, practise_start_in(folder.path()));
    };
    Modes modes(practise(quiet_look()));
    modes.offer(ModeName::practise, practise);
    modes.offer(ModeName::compare, [](const Appearance& a) { return Shell::with<Blank>(a, 0); });
    const PupilDesk desk{.names = [] { return std::vector<std::string>{"Anna"}; },
                         .choose = [](const std::string&) { return Units{}; }};
    const Wish anna{Wish::Kind::choose_pupil, "Anna"};
    CHECK(grant_pupil_wish(modes, desk, anna));  // nothing is answered yet
    Shell& session = modes.now();
    session.frame(type_width);
    session.press({key::enter});
    session.advance(20);
    modes.change(ModeName::compare, std::nullopt);  // it is asked from wherever one is
    for (const bool leaves : {false, true}) {
        CHECK_FALSE(grant_pupil_wish(modes, desk, anna));
        CHECK(says(modes.now().frame(type_width), "1 of 10 putts answered"));
        if (leaves) modes.now().press({key::down});
        modes.now().press({key::enter});
        const auto wishes = modes.now().take_wishes();
        REQUIRE(wishes.size() == (leaves ? 1 : 0));
        if (leaves) CHECK(grant_pupil_wish(modes, desk, wishes[0]));
    }
    CHECK(modes.now().appearance().pupil == "Anna");
}

TEST_CASE("Where there are putts of nobody's, the list of pupils gives them a name", "[scene]") {
    Drawn drawn;
    Shell& shell = drawn.shell;
    shell.open_pupils({"Anna"}, true);
    for (const char* row : {"My own putts", "Anna", "Add a pupil …", "Give my own putts a name …"})
        CHECK(says(drawn.draw(), row));
    drawn.click(What::page, 2);
    CHECK(says(drawn.draw(), "Whose putts were these?"));
    REQUIRE(shell.typing());
    shell.enter("Ben");
    shell.press({key::enter});
    const auto wishes = shell.take_wishes();
    REQUIRE(wishes.size() == 1);
    CHECK(wishes[0].kind == Wish::Kind::adopt_own);
    CHECK(wishes[0].text == "Ben");
    drawn.draw();
    CHECK_FALSE(shell.sheet_open());
}

TEST_CASE("A mode that cannot be made is told, and nothing changes", "[scene]") {
    Modes modes = read_and_compare();
    modes.offer(ModeName::practise, [](const Appearance&) -> std::unique_ptr<Shell> {
        throw InputError("memory.db is not a memory of putts", "Name another folder.");
    });
    modes.change(ModeName::practise, std::nullopt);
    CHECK(modes.now().name() == ModeName::read);
    CHECK(modes.now().message() == "Practise: memory.db is not a memory of putts");
    modes.change(ModeName::green, std::nullopt);
    CHECK(modes.now().name() == ModeName::read);
    CHECK(modes.now().message() == "Green is not in this window.");
}

TEST_CASE("A putt that is brought to Read is read, and undone like any change", "[scene]") {
    Drawn drawn;
    const double before = drawn.mode.solved().read->stroke.angle_rad;
    Setup putt = drawn.mode.setup();
    putt.clock_h = 9;
    drawn.shell.arrive(drawn.shell.appearance(), putt);
    CHECK(drawn.mode.setup().clock_h == 9);
    CHECK(drawn.mode.solved().read->stroke.angle_rad * before < 0);
    drawn.shell.press({'z', true});
    CHECK(drawn.mode.setup().clock_h == 3);
}

TEST_CASE("A putt that is brought leaves the player's spread as it is", "[scene]") {
    ReadStart start = quiet_start();
    start.setup.spread.line_deg = 2.5;
    Drawn drawn(start);
    Setup putt;  // a mode that knows nothing of spreads brings the usual one
    putt.clock_h = 9;
    drawn.shell.arrive(drawn.shell.appearance(), putt);
    drawn.wait(2);
    CHECK(drawn.mode.setup().spread.line_deg == 2.5);
    for (const Wish& wish : drawn.shell.take_wishes())
        CHECK(wish.kind != Wish::Kind::remember_spread);
}

TEST_CASE("A figure that is not on the screen is not typed, and keys go on to work", "[scene]") {
    Drawn drawn;
    drawn.shell.press({'c'});  // commit: every number is hidden
    drawn.draw();
    drawn.shell.press({'t'});
    drawn.shell.press({key::enter});
    REQUIRE_FALSE(drawn.shell.typing());
    drawn.shell.press({'d'});
    CHECK(drawn.shell.appearance().theme == Theme::dusk);
}

TEST_CASE("Every page that Read offers can be asked for by keys", "[scene]") {
    Drawn drawn;
    drawn.shell.press({'p', true});
    Frame frame = drawn.draw();
    std::vector<std::string> words;
    for (const Text& text : all_of<Text>(frame.picture)) words.push_back(text.words);
    for (const char* page : {"This read", "Ladder for this stimp", "Blank form for a survey"})
        CHECK(std::count(words.begin(), words.end(), page) == 1);
    drawn.shell.press({key::down});
    drawn.shell.press({key::enter});
    std::vector<Wish> wishes = drawn.shell.take_wishes();
    std::erase_if(wishes, [](const Wish& w) { return w.kind != Wish::Kind::print; });
    REQUIRE(wishes.size() == 1);
    CHECK(wishes[0].text == "ladder");
    CHECK(wishes[0].putt.has_value());
}

}  // namespace dewtrail
