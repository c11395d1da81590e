#include "viewer/modes/green/green_mode.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "tests/viewer/modes/faults.hpp"
#include "tests/viewer/terminal/on_page.hpp"
#include "viewer/picture/keys.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

struct Surveying : DrawnMode<GreenMode> {
    explicit Surveying(GreenStart start = {}) : DrawnMode(quiet_look(), std::move(start)) {}
    /// A spot, and what the level reads there.
    void spot(const std::string& place, const std::string& reading) {
        press({{'a'}});
        type(reading);
        press({{'w'}});
        type(place);
    }
};

GreenStart meadow() {
    GreenStart start;
    start.draft = draft_of(*shipped_green("meadow"));
    return start;
}

}  // namespace

TEST_CASE("three readings typed by keyboard alone make a green", "[green_mode]") {
    Surveying s;
    CHECK(s.says("Put the level down"));
    s.spot("3m right, 0", "2% 180");
    CHECK(s.says("2 more spots make a slope"));
    s.spot("3m left, 0", "2% 180");
    s.press({{key::enter}});
    CHECK(s.shell.take_wishes().empty());  // nothing to use yet
    s.spot("0, 4m up", "up 2%");
    REQUIRE(s.mode.fitted());
    const Vec2 slope = s.mode.fit().surface->at(0, 0).gradient();
    CHECK_THAT((slope - Vec2(0, 0.02)).norm(), WithinAbs(0, 1e-6));
    CHECK(s.says("3 spots, fitted within 0.0 %"));

    s.press({{key::enter}});
    const auto wishes = s.shell.take_wishes();
    REQUIRE(wishes.size() == 1);
    CHECK(wishes[0].kind == Wish::Kind::change_mode);
    CHECK(wishes[0].mode == ModeName::read);
    REQUIRE(wishes[0].putt);
    CHECK(wishes[0].putt->green->outline.inside_by(wishes[0].putt->ball) > 0);
    CHECK_THAT(slope_at_hole(*wishes[0].putt), WithinAbs(0.02, 1e-6));
}

TEST_CASE("a ball, a name and a speed leave the surface as it was fitted", "[green_mode]") {
    Surveying s(meadow());
    const auto fitted = s.mode.fit().surface;
    s.press({{'b'}, {key::left}, {'t'}});
    s.type("11");
    CHECK(s.mode.draft().stimp_ft == 11);
    CHECK(s.mode.fit().surface == fitted);
    REQUIRE(s.mode.next());
    const Vec2 next = s.mode.next()->at;
    for (int i = 0; i < 4; ++i) s.press({{key::up}});
    CHECK(s.mode.next()->at != next);
    s.press({{']'}, {'.'}});
    CHECK(s.mode.fit().surface != fitted);
}

TEST_CASE("a spot is moved, turned, made steeper, taken away, and all is undone", "[green_mode]") {
    Surveying s(meadow());
    const GreenDraft before = s.mode.draft();
    s.press({{']'}, {key::right}, {key::up, false, true}});
    const Spot moved = s.mode.draft().spots[0];
    CHECK_THAT(moved.at.x() - before.spots[0].at.x(), WithinAbs(metres_per_foot, 1e-9));
    CHECK_THAT(moved.at.y() - before.spots[0].at.y(), WithinAbs(metres_per_inch, 1e-9));
    s.press({{key::left, true}, {'.'}});
    const Spot turned = s.mode.draft().spots[0];
    CHECK_THAT(turned.gradient->norm() - moved.gradient->norm(), WithinAbs(0.001, 1e-9));
    const double turn = std::remainder(bearing_of(*turned.gradient) - bearing_of(*moved.gradient),
                                       2 * std::numbers::pi);
    CHECK_THAT(turn, WithinAbs(-5 * std::numbers::pi / 180, 1e-9));
    s.press({{key::erase}});
    CHECK(s.mode.draft().spots.size() == before.spots.size() - 1);
    for (int i = 0; i < 5; ++i) s.press({{'z', true}});
    CHECK(s.mode.draft() == before);
    s.press({{'y', true}});
    CHECK(s.mode.draft() != before);
}

TEST_CASE("a spot and its drop are dragged; one drag is one step, and Esc takes it back",
          "[green_mode]") {
    Surveying s(meadow());
    const GreenDraft before = s.mode.draft();
    const auto drag = [&](const std::string& what, const Vec2& by) {
        s.drag(s.place(what), s.place(what) + by);
    };
    drag("spot-3", {40, -30});
    CHECK((s.place("spot-3") - s.place("hole")).norm() > 1);
    CHECK(s.mode.draft().spots[2].at.y() > before.spots[2].at.y());
    const double slope = s.mode.draft().spots[2].gradient->norm();
    const Vec2 arm = s.place("drop") - s.place("spot-3");
    drag("drop", 28 * arm.normalized());
    CHECK_THAT(s.mode.draft().spots[2].gradient->norm() - slope, WithinAbs(0.02, 0.0011));
    s.pull(s.place("spot-3"), s.place("spot-3") + Vec2(60, 0));
    s.press({{key::escape}});
    s.shell.pointer_released({0, 0});
    s.press({{'z', true}, {'z', true}});
    CHECK(s.mode.draft() == before);
}

TEST_CASE("the reading that disagrees most is named, and its row stays in its place",
          "[green_mode]") {
    GreenStart start = meadow();
    start.draft->spots[6].gradient = *start.draft->spots[6].gradient + Vec2(0.03, 0.02);
    Surveying s(start);
    CHECK(s.says("Spot 7 disagrees by"));
    for (int i = 1; i <= 8; ++i) {
        s.press({{']'}});
        CHECK(s.told("spot") == i);
    }
    double above = 0;
    for (const Target& target : s.shell.targets())
        if (target.what == What::spot) {
            CHECK(target.hit.y > above);
            above = target.hit.y;
        }
}

TEST_CASE("an empty reading shows how it is written, and the level turns as it is typed",
          "[green_mode]") {
    Surveying s(meadow());
    s.press({{'a'}});
    CHECK(s.says("2% 95"));
    CHECK(s.says("0 is up the plan"));
    const std::size_t before = all_of<Disc>(s.draw().picture).size();
    const auto type = [&](const char* text) {
        for (; *text; ++text) {
            s.shell.press({*text == ' ' ? key::space : *text});
            s.shell.enter(std::string(1, *text));
        }
        return s.draw();
    };
    const Frame typed = type("3% 90");
    CHECK(says(typed, "3.0 %"));  // it is not taken yet
    CHECK_FALSE(s.mode.draft().spots.back().gradient);
    CHECK(all_of<Disc>(typed.picture).size() > before);
}

TEST_CASE("a ball that is put down is in sight, and so is the place to read next", "[green_mode]") {
    Surveying s(meadow());
    for (const auto& [w, h] : {std::pair(1280, 800), std::pair(1024, 640)}) {
        s.shell.resize(w, h);
        s.press({{'b'}});
        REQUIRE(s.mode.next());
        const Rect green = s.shell.layout().green;
        CHECK(green.contains(s.place("ball")));
        CHECK(s.says("read here next"));
        s.press({{'z', true}});
    }
}

TEST_CASE("undo takes the ball away though it was chosen", "[green_mode]") {
    Surveying s(meadow());
    s.press({{'b'}});
    REQUIRE(s.mode.draft().ball);
    s.press({{'z', true}});
    CHECK_FALSE(s.mode.draft().ball);
}

TEST_CASE("with a ball down it says where to read next, and the reading helps", "[green_mode]") {
    Surveying s(meadow());
    CHECK(s.says("B puts a ball down"));
    s.press({{'b'}});
    REQUIRE(s.mode.next());
    CHECK(s.says("read here next"));
    const NextSpot next = *s.mode.next();
    CHECK(next.after.along + next.after.across < next.before.along + next.before.across);
    s.press({{'a'}});
    const Vec2 at = s.mode.draft().spots.back().at;
    CHECK((at - next.at).norm() < metres_per_inch);
    const Vec2 there = s.mode.fit().surface->at(at.x(), at.y()).gradient();
    s.type(spot_reading_text(there));
    CHECK(s.mode.next()->before.along + s.mode.next()->before.across <
          next.before.along + next.before.across);
}

TEST_CASE("no line begins with the per cent of a figure before it", "[green_mode]") {
    const std::string words = "known to 0.07 % along, 0.11 % across and 12 % of all";
    for (double most = 60; most < 500; most += 5)
        for (const std::string& line : wrapped(words, Face::book, 16, most, type_width)) {
            CAPTURE(most, line);
            CHECK_FALSE(line.starts_with('%'));
        }
}

TEST_CASE("a green is opened, saved, and kept until it is saved", "[green_mode]") {
    std::optional<GreenDraft> kept;
    int saves = 0;
    GreenStart start;
    start.greens = [] { return std::vector<std::string>{"bench", "meadow"}; };
    start.load = [](const std::string& name) { return shipped_green(name); };
    start.keep = [&](const std::optional<GreenDraft>& draft) { kept = draft; };
    start.save = [&](const GreenDraft&, bool replace) -> SavedGreen {
        ++saves;
        return replace ? SavedGreen{"Saved.", true} : SavedGreen{"There is one already.", false};
    };
    Surveying s(start);
    s.press({{'o', true}, {key::enter}});
    CHECK(s.says("was made up"));
    s.press({{'o', true}, {key::down}, {key::enter}});
    REQUIRE(s.mode.fitted());
    CHECK_FALSE(kept);  // it is saved
    s.press({{'g'}});
    s.type("Another name");
    REQUIRE(kept);
    CHECK(kept->name == "Another name");
    s.press({{'s', true}});
    CHECK(s.says("There is one already."));
    CHECK(kept);
    s.press({{'s', true}});
    CHECK(saves == 2);
    CHECK_FALSE(kept);
    s.press({{'n', true}});
    CHECK(s.mode.draft().spots.empty());
    s.press({{'z', true}});
    CHECK(s.mode.draft().name == "Another name");
}

TEST_CASE("a putt's green comes along, but never in place of an unsaved survey", "[green_mode]") {
    Setup putt;
    put_on_green(putt, shipped_green("saddle"));
    Surveying fresh;
    fresh.shell.arrive(quiet_look(), putt);
    CHECK(fresh.mode.draft().name == putt.green->name);
    CHECK(fresh.mode.draft().ball == putt.ball);
    CHECK(fresh.mode.next());

    Surveying busy;
    busy.spot("3m right, 0", "2% 180");
    busy.shell.arrive(quiet_look(), putt);
    CHECK(busy.mode.draft().spots.size() == 1);
    CHECK(busy.says("is not saved yet"));
}

TEST_CASE("what cannot be read as typed says how to write it and changes nothing", "[green_mode]") {
    Surveying s(meadow());
    const GreenDraft before = s.mode.draft();
    s.press({{'r'}});
    CHECK(s.says("Choose a spot first"));
    s.press({{']'}, {'r'}});
    s.type("steep");
    CHECK(s.says("2% 95"));
    s.press({{'t'}});
    s.type("99");
    CHECK(s.mode.draft() == before);
}

TEST_CASE("nothing overlaps or leaves the window, at every size and type", "[green_mode]") {
    GreenStart start = meadow();
    start.draft->spots[6].gradient = *start.draft->spots[6].gradient + Vec2(0.03, 0.02);
    Surveying s(start);
    s.press({{'b'}, {']'}});
    check_layout(s, {}, {{1280, 800}, {1024, 640}, {1920, 1080}, {900, 1200}});
}

TEST_CASE("no name stands on the edge of a surveyed green, at any size and type", "[green_mode]") {
    Surveying s;
    for (const auto& [place, reading] : {std::pair("3m right, 0", "2% 190"),
                                         {"3m left, 1m up", "1.5% 160"},
                                         {"0, 4m up", "2.5% 185"},
                                         {"1m right, 3m down", "1% 200"},
                                         {"4m left, 4m up", "3% 150"},
                                         {"4m right, 4m up", "2% 220"}})
        s.spot(place, reading);
    s.press({{'b'}});
    for (const auto& [w, h] : usual_sizes)
        for (int text = 0; text < 3; ++text) {
            s.press({{'0', true}});
            for (int i = 0; i < text; ++i) s.press({{'+', true}});
            s.shell.resize(w, h);
            s.shell.forget_ground();
            const Frame frame = s.draw();
            INFO(w << "x" << h << ", type at " << 100 + 25 * text << " %");
            int names = 0, edges = 0;
            for (const Text& name : all_of<Text>(frame.picture)) {
                if (name.words != "hole" && name.words != "ball" && name.words != "read here next")
                    continue;
                ++names;
                for (const Line& edge : all_of<Line>(frame.ground)) {
                    if (!edge.closed) continue;
                    ++edges;
                    std::vector<Vec2> points(edge.points.begin(), edge.points.end());
                    points.push_back(points.front());
                    for (std::size_t i = 1; i < points.size(); ++i)
                        CHECK_FALSE(
                            runs_through(letters_of(name, type_width), points[i - 1], points[i]));
                }
            }
            CHECK(names >= 2);
            CHECK(edges > 0);
        }
}
