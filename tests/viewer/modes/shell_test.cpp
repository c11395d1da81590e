#include <catch2/catch.hpp>
#include <regex>
#include <set>

#include "tests/support/contrast.hpp"
#include "viewer/modes/every_mode.hpp"

/// What all modes have in common: typing, keys and their table, sheets, drags.
using namespace dewtrail;
using Catch::WithinAbs;

namespace {

Vec2 place_of(const Frame& frame, const std::string& words) {
    for (const Text& text : all_of<Text>(frame.picture))
        if (text.words == words) {
            const Rect box = rect_of(text, type_width);
            return box.centre();
        }
    FAIL("nothing says " << words);
    return {};
}

}  // namespace

TEST_CASE("a printing key edits the value that has the focus, and is no command", "[shell]") {
    Drawn d;
    d.shell.press({'t'});
    strike(d.shell, "11.5");
    CHECK(d.shell.typing());
    CHECK_THAT(d.mode.setup().stimp_ft, WithinAbs(10, 1e-12));
    strike(d.shell, "d");  // dusk, where nothing is typed
    d.shell.press({key::back});
    CHECK(d.shell.appearance().theme == Theme::dew);
    d.shell.press({key::enter});
    CHECK_THAT(d.mode.setup().stimp_ft, WithinAbs(11.5, 1e-12));
    d.shell.press({key::escape});
    strike(d.shell, "d");
    CHECK(d.shell.appearance().theme == Theme::dusk);
}

TEST_CASE("what was made is opened from its message, and so is its folder", "[shell]") {
    Drawn d;
    d.shell.say("Print at actual size: /somewhere/read.pdf", "/somewhere/read.pdf");
    d.draw();
    for (const auto& [index, path] :
         {std::pair{0, "/somewhere/read.pdf"}, std::pair{1, "/somewhere"}}) {
        d.click(What::made, index);
        const std::vector<Wish> wishes = d.shell.take_wishes();
        REQUIRE(wishes.size() == 1);
        CHECK(wishes.front().kind == Wish::Kind::show_file);
        CHECK(wishes.front().text == path);
    }
    d.shell.say("Nothing was made.");
    d.draw();
    CHECK_FALSE(find_target(d.shell.targets(), What::made));
}

TEST_CASE("a digit is never a command", "[shell]") {
    EveryMode every;
    for (const auto& shell : every.shells) {
        INFO(words_for(shell->name()));
        shell->take_actions();
        strike(*shell, "0123456789");
        for (const std::string& action : shell->take_actions()) CHECK(action == "type");  // a value
        CHECK_FALSE(wants_another_mode(*shell));
    }
}

TEST_CASE("the letter that opens a value is not written into it", "[shell]") {
    EveryMode every;
    Shell& shell = *every.shells[2];
    strike(shell, "a5in right");
    shell.press({key::enter});
    const auto& said = static_cast<const PractiseMode&>(shell.mode()).said();
    CHECK_THAT(said.aim.offset_m, WithinAbs(5 * metres_per_inch, 1e-12));
}

TEST_CASE("what comes straight after Enter belongs to what is seen then", "[shell]") {
    EveryMode every;
    Shell& shell = *every.shells[3];
    strike(shell, "w2ft past 6in left");
    shell.press({key::enter});
    shell.press({key::enter});  // logs it, without a frame between
    CHECK(static_cast<const ReviewMode&>(shell.mode()).kept() == 1);
}

TEST_CASE("after a drag Enter does what the button says", "[shell]") {
    EveryMode every;
    Shell& shell = *every.shells[2];
    Vec2 aim = Vec2::Zero();
    for (const auto& [name, at] : shell.places())
        if (name == "aim") aim = at;
    shell.pointer_pressed(aim, Button::left, {});
    shell.pointer_moved(aim + Vec2(0, -40), {});
    shell.pointer_released(aim + Vec2(0, -40));
    shell.frame(type_width);
    shell.press({key::enter});
    CHECK_FALSE(shell.typing());
    CHECK(static_cast<const PractiseMode&>(shell.mode()).stage() == PractiseMode::Stage::rolling);
}

TEST_CASE("what is clicked is what stands there now, also before it is drawn", "[shell]") {
    Drawn d;
    const auto face = [&](int i) { return find_target(d.shell.targets(), What::face, i); };
    const Vec2 rows = face(static_cast<int>(SlopeFace::three_rows))->hit.centre();
    const Vec2 total = face(static_cast<int>(SlopeFace::total))->hit.centre();
    d.shell.press({'n'});  // the note goes, and the fields move
    d.shell.pointer_pressed(rows, Button::left, {});
    d.shell.pointer_released(rows);
    CHECK(d.mode.setup().face == SlopeFace::total);
    const Vec2 now = face(static_cast<int>(SlopeFace::three_rows))->hit.centre();
    CHECK((now - rows).norm() > 20);
    CHECK((now - total).norm() > 20);
}

TEST_CASE("a table names its keys once, as the help sheet shows them", "[shell]") {
    const auto keys = named_keys("Ctrl ←  Z");
    REQUIRE(keys.size() == 2);
    CHECK(keys[0].key.code == key::left);
    CHECK(keys[1].key.code == 'z');
    CHECK(keys[1].key.ctrl);
    CHECK(keys[1].any_shift);
    CHECK_FALSE(named_keys("Shift Q")[0].any_shift);

    int plain = 0, shifted = 0;
    bool possible = true;
    Commands c;
    c.add("shifted", "Shift Q", "", [&] { ++shifted; });
    c.add("plain", "P  Q", "", [&](const Cue& cue) { plain += 1 + cue.which; }).may = [&] {
        return possible;
    };
    const auto press = [&](KeyPress pressed) {
        const auto [command, cue] = command_of_key(c, pressed);
        if (command) command->does(cue);
        return command != nullptr;
    };
    CHECK(press({'q', false, true}));
    CHECK(press({'q'}));
    CHECK_FALSE(press({'q', true}));
    CHECK(shifted == 1);
    CHECK(plain == 2);
    possible = false;
    CHECK_FALSE(press({'p'}));
}

TEST_CASE("every key of the help sheet can be clicked there", "[shell]") {
    EveryMode every;
    for (const auto& shell : every.shells) {
        INFO(words_for(shell->name()));
        shell->press({key::f1});
        shell->press({key::enter});  // from the words on to the keys
        const Frame help = shell->frame(type_width);
        shell->pointer_pressed(place_of(help, "dew, dusk"), Button::left, {});
        shell->pointer_released({0, 0});
        CHECK(shell->appearance().theme == Theme::dusk);
        CHECK_FALSE(shell->sheet_open());
        CHECK(shell->take_actions().back() == "dusk");
    }
}

namespace {

/// All that can be clicked, over what the keys of a mode open one after the other.
std::set<What> clicked_places(Shell& shell) {
    std::set<What> seen;
    const auto look = [&] {
        shell.frame(type_width);
        for (const Target& target : shell.targets()) seen.insert(target.what);
    };
    look();
    shell.press({'?'});
    look();
    shell.press({key::escape});
    shell.complain("Something to close.");
    look();
    const Commands commands = shell.mode().commands();
    for (const ModeCommand& command : commands)
        for (const NamedKey& named : named_keys(command.keys)) {
            if (!shell.typing() && !shell.sheet_open()) shell.press(named.key);
            look();
            for (int i = 0; i < 40; ++i) shell.advance(0.5);
            look();
            shell.press({key::escape});  // out of typing, a sheet, a value
        }
    return seen;
}

}  // namespace

TEST_CASE("every key has a place to click", "[shell]") {
    EveryMode every;
    ReadStart with_odds = quiet_start();
    with_odds.outlook = true;
    every.shells[0] = Shell::with<ReadMode>(quiet_look(), with_odds);
    every.shells[0]->wait_until_settled();
    // These have one of their own, beside the list of keys.
    const std::set<std::string> own{"dusk",     "text",   "undo",   "copy", "swell", "commit",
                                    "sessions", "detail", "greens", "save", "ball"};
    for (const auto& shell : every.shells) {
        INFO(words_for(shell->name()));
        const std::set<What> seen = clicked_places(*shell);
        for (const int key : {int{key::escape}, int{key::escape}, int{'?'}, int{key::enter}})
            shell->press({key});
        const Frame keys = shell->frame(type_width);
        std::size_t listed = 0;
        for (const Target& target : shell->targets()) listed += target.what == What::key;
        std::size_t named = 0;
        for (const Commands& table : {shell->mode().commands(), shell->own_commands()})
            for (const ModeCommand& command : table) {
                if (*command.keys == '\0') continue;
                INFO(command.name << ", " << command.keys);
                const bool in_list = *command.help != '\0' && says(keys, command.help);
                const bool on_screen = command.at && seen.count(*command.at) > 0;
                CHECK((in_list || on_screen));
                if (own.count(command.name) > 0) CHECK(on_screen);
                if (in_list) named += named_keys(command.keys).size();
            }
        CHECK(listed == named);
    }
}

TEST_CASE("after a change of units every figure is in the other", "[shell]") {
    // A figure and its unit, or a unit after its figure; stimps are feet to everybody.
    const std::regex feet("[0-9½¼¾] (in|ft)\\b"), metres("[0-9] (cm|m)\\b");
    EveryMode every;
    every.shells[1]->press({key::enter});  // Compare tells
    for (const auto& shell : every.shells)
        for (const std::regex* gone : {&feet, &metres}) {
            INFO(words_for(shell->name()));
            shell->press({'u'});
            for (const Text& text : all_of<Text>(shell->frame(type_width).picture)) {
                INFO(text.words);
                if (text.words.find("stimp") == std::string::npos)
                    CHECK_FALSE(std::regex_search(text.words, *gone));
            }
        }
}

TEST_CASE("no row of a list leaves its sheet", "[shell]") {
    EveryMode every;
    for (const auto& shell : every.shells)
        for (const double width : {1280.0, 1024.0}) {
            shell->resize(width, width * 5 / 8);
            shell->press({width > 1100 ? '0' : '+', true});
            shell->press({'o', true});
            const Frame frame = shell->frame(type_width);
            const auto sheet = find_target(shell->targets(), What::sheet);
            if (!shell->sheet_open()) continue;  // nothing to open here
            REQUIRE(sheet);
            for (const Target& row : shell->targets()) CHECK(sheet->hit.holds(row.hit));
            const auto texts = all_of<Text>(frame.picture);
            const std::size_t rows = shell->targets().size() - 1;  // they are painted last
            for (std::size_t i = texts.size() - rows; i < texts.size(); ++i)
                CHECK(rect_of(texts[i], type_width).right() < sheet->hit.right());
            shell->press({key::escape});
        }
}

TEST_CASE("the sheet of words can be asked for looks, and stays for more", "[shell]") {
    Drawn d;
    d.press({{'?'}});
    d.click(What::text_size, 0);
    d.click(What::text_size, 0);
    d.click(What::dusk);
    CHECK(d.shell.sheet_open());
    CHECK(d.shell.appearance().text == 1.5);
    CHECK(d.shell.appearance().theme == Theme::dusk);
    d.click(What::page);
    d.press({{key::escape}});
    CHECK_FALSE(d.shell.sheet_open());
}

TEST_CASE("the three dots of a slope explain themselves, with a drawing", "[shell]") {
    Drawn d;
    const auto dot = find_target(d.shell.targets(), What::face, 1);
    REQUIRE(dot);
    const std::string sentence(explained(three_dots)->sentence);
    CHECK_FALSE(d.says(sentence));
    const std::size_t before = d.draw().picture.size();
    d.shell.pointer_moved(dot->hit.centre(), {});
    d.wait(1);
    CHECK(d.says(sentence));
    const auto lines = wrapped(sentence, Face::book, 19, 300, type_width).size();
    CHECK(d.draw().picture.size() > before + lines + 8);  // its box, and the drawing
}

TEST_CASE("paper over the window has an edge that is told from both sides, at dusk too",
          "[shell]") {
    Drawn d;
    for (const Theme theme : {Theme::dew, Theme::dusk}) {
        const Palette& c = palette(theme);
        d.press({{'?'}});
        const Picture picture = d.wait(1).picture;
        const auto is_paper = [&](const Shape& shape) {
            const auto* polygon = std::get_if<Polygon>(&shape);
            return polygon && polygon->colour == c.paper;
        };
        const auto paper = std::find_if(picture.rbegin(), picture.rend(), is_paper);
        REQUIRE(picture.rend() - paper > 2);
        const Colour edge = std::get<Polygon>(paper[1]).colour,
                     shade = std::get<Mesh>(paper[2]).vertices[0].colour;
        CHECK(contrast(edge, c.paper) >= 3);
        REQUIRE(shade.a < 255);
        for (const Colour ground : {c.paper, c.paper2, c.grass_light, c.grass_dark}) {
            const Colour shaded = blend(ground, {shade.r, shade.g, shade.b, 255}, shade.a / 255.0);
            CHECK(contrast(edge, shaded) >= 3);
        }
        d.press({{key::escape}, {'d'}});
    }
}

TEST_CASE("one line of text is edited by whole characters", "[shell]") {
    LineEdit edit("½ ball");
    edit.insert("2¾");  // all was selected
    CHECK(edit.text() == "2¾");
    edit.erase(true);
    CHECK(edit.text() == "2");
    edit.insert("½ ft");
    edit.jump(true, false);
    edit.step(false, false);
    edit.step(false, true);
    CHECK(edit.selected() == "½");
    edit.erase(false);
    CHECK(edit.text() == "2 ft");
    edit.select_all();
    edit.insert("");
    edit.erase(true);
    edit.erase(false);
    CHECK(edit.text().empty());
}

TEST_CASE("a word explains itself where the pointer rests, or at a click, and is not covered",
          "[shell]") {
    EveryMode every;
    for (const auto& shell : every.shells) {
        INFO(words_for(shell->name()));
        const Frame before = shell->frame(type_width);
        for (const Text& text : all_of<Text>(before.picture)) {
            const Explained* word = explained(text.words);
            if (!word || text.turned_rad != 0) continue;
            const Rect box = rect_of(text, type_width);
            INFO(text.words);
            shell->pointer_moved(box.centre(), {});
            shell->advance(0.1);
            CHECK_FALSE(says(shell->frame(type_width), std::string(word->sentence)));
            for (int i = 0; i < 6; ++i) shell->advance(0.1);
            const Frame told = shell->frame(type_width);
            CHECK(says(told, std::string(word->sentence)));
            // The last texts are the sentence's.
            for (const Text& line : all_of<Text>(told.picture))
                if (line.face == Face::book && word->sentence.find(line.words) != std::string::npos)
                    CHECK_FALSE(rect_of(line, type_width).meets(box));
            shell->pointer_moved({1, 1}, {});
            CHECK_FALSE(says(shell->frame(type_width), std::string(word->sentence)));
        }
    }
}

TEST_CASE("help opens with the words, and goes on to the keys", "[shell]") {
    EveryMode every;
    for (const auto& shell : every.shells)
        for (const auto& [w, h] : {std::pair(1280, 800), std::pair(1024, 640)}) {
            shell->resize(w, h);
            shell->press({'+', true});
            shell->press({'?'});
            const Frame words = shell->frame(type_width);
            for (const Explained& word : glossary()) CHECK(says(words, std::string(word.sentence)));
            const auto on = find_target(shell->targets(), What::page);
            REQUIRE(on);
            shell->pointer_pressed(on->hit.centre(), Button::left, {});
            CHECK(says(shell->frame(type_width), "dew, dusk"));
            shell->press({key::escape});
            CHECK_FALSE(shell->sheet_open());
        }
}
