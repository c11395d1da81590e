#include "viewer/survey/green_draft.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/viewer/modes/drawn_mode.hpp"
#include "viewer/survey/green_save.hpp"
#include "viewer/survey/kept_green.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace {

bool same(const Vec2& a, const Vec2& b) {
    return (a - b).norm() < 1e-9;
}

const Units feet{}, metric{.metric = true};

GreenDraft lawn() {
    GreenDraft draft;
    draft.name = "Test lawn";
    for (const Vec2& at : {Vec2(3, 2), Vec2(-3, 2), Vec2(0, -4), Vec2(2, -2)})
        draft.spots.push_back({at, Vec2(0.01, 0.02)});
    draft.spots.push_back({{1, 1}, {}});
    return draft;
}

}  // namespace

TEST_CASE("what a level shows is typed as one says it", "[green_draft]") {
    const double degree = std::tan(std::numbers::pi / 180);
    CHECK(same(parse_spot_reading("2% 90"), {-0.02, 0}));
    CHECK(same(parse_spot_reading("2 toward 180°"), {0, 0.02}));
    CHECK(same(parse_spot_reading("1deg to 0 deg"), {0, -degree}));
    CHECK(same(parse_spot_reading("6mm/60cm, 270"), {0.01, 0}));
    CHECK(same(parse_spot_reading("1.5%/-0.5% 90"), {-0.01, 0}));  // turned end for end
    CHECK(same(parse_spot_reading("up 1%, left 2%"), {0.02, 0.01}));
    CHECK(same(parse_spot_reading("right 2%"), {-0.02, 0}));
    CHECK(same(parse_spot_reading("up 1deg"), {0, degree}));
    CHECK(same(parse_spot_reading("up 1deg facing 180 deg"), {0, -degree}));
    CHECK(same(parse_spot_reading("Up 1%, left 2% facing 90"), {0.01, -0.02}));
    CHECK(same(parse_spot_reading("level"), {0, 0}));
    for (const char* text :
         {"", "2%", "90", "2% 400", "2% north", "30% 90", "1%, 2%", "up 1%, up 2%", "up",
          "up 1% facing", "-2% 90", "nan 90", "2% 90 90x"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_spot_reading(text), InputError);
    }
    for (const char* text : {"2.0% 90", "1.3% 355", "level"})
        CHECK(spot_reading_text(parse_spot_reading(text)) == text);
}

TEST_CASE("where a spot is, is measured from the hole or walked", "[green_draft]") {
    const Vec2 hole(10, 5), last(1, 1);
    CHECK(same(parse_spot_place("4m right, 2m up", metric, hole, last), {14, 7}));
    CHECK(same(parse_spot_place("4, -2", metric, hole, last), {14, 3}));
    CHECK(same(parse_spot_place("10ft left, 0", feet, hole, last), {10 - 3.048, 5}));
    CHECK(same(parse_spot_place("5 paces 90", feet, hole, last), {1 + 4.5, 1}));
    CHECK(same(parse_spot_place("2m 180°", feet, hole, last), {1, -1}));
    for (const char* text :
         {"", "4", "4m", "4m up, 2m right", "1,2,3", "5 paces", "5 paces 361", "250m, 0", "x, y"}) {
        INFO(text);
        CHECK_THROWS_AS(parse_spot_place(text, feet, hole, last), InputError);
    }
    CHECK(spot_place_text({14, 3}, hole, metric) == "4.00 m right, 2.00 m down");
}

TEST_CASE("an outline goes round its places at the margin", "[green_draft]") {
    const Outline outline(outline_round({{0, 0}, {6, 0}, {3, 5}}, 1));
    for (const Vec2& at : {Vec2(0, 0), Vec2(6, 0), Vec2(3, 5)})
        CHECK_THAT(outline.inside_by(at), WithinAbs(1, 0.03));
    CHECK(outline.inside_by({3, -1.1}) < 0);

    GreenDraft draft = lawn();
    draft.corners = {{-9, -9}, {9, -9}, {9, 9}, {-9, 9}};
    CHECK(outline_of(draft) == draft.corners);
    draft.ball = Vec2(12, 0);  // the corners no longer hold all
    CHECK(Outline(outline_of(draft)).inside_by({12, 0}) > 0.9);
}

TEST_CASE("a draft is saved, read back, and never replaces another unasked", "[green_draft]") {
    const TemporaryFolder folder;
    GreenDraft draft = lawn();
    draft.ball = Vec2(-2, -3);
    const auto saved = save_draft(folder.path(), draft, false);
    REQUIRE(saved.done);
    const Green green = load_green(folder.path() / "test-lawn.toml");
    CHECK(green.name == "Test lawn");
    CHECK(green.survey->levels.size() == 4);  // what is not read is not saved
    CHECK(same(green.balls.at("ball"), {-2, -3}));
    const Vec2 slope = green.surface->at(0, 0).gradient();
    CHECK_THAT((slope - Vec2(0.01, 0.02)).norm(), WithinAbs(0, 2e-5));
    const std::size_t files = folder.count();
    CHECK_FALSE(save_draft(folder.path(), draft, false).done);
    CHECK(save_draft(folder.path(), draft, true).done);
    CHECK(folder.count() == files);

    // A green whose surface is a wall is not put there.
    draft.name = "../Wall";
    draft.spots[0].gradient = draft.spots[1].gradient = Vec2(0.6, 0.3);
    CHECK_THROWS_AS(save_draft(folder.path(), draft, false), InputError);
    CHECK_FALSE(std::filesystem::exists(folder.path() / "wall.toml"));
    CHECK_FALSE(std::filesystem::exists(folder.path() / "../Wall.toml"));
}

TEST_CASE("a green's own survey is a draft, and comes out the same", "[green_draft]") {
    const auto meadow = shipped_green("meadow");
    const auto draft = draft_of(*meadow);
    REQUIRE(draft);
    CHECK(draft->spots.size() == meadow->survey->levels.size());
    const auto again = green_of(*draft, fit_draft(*draft));
    const Vec2 at = meadow->holes.at("flag");
    CHECK_THAT((again->surface->at(at.x(), at.y()).gradient() -
                meadow->surface->at(at.x(), at.y()).gradient())
                   .norm(),
               WithinAbs(0, 1e-9));
    CHECK_FALSE(draft_of(*shipped_green("bench")));
}

TEST_CASE("a survey that was not saved is found again", "[green_draft]") {
    const TemporaryFolder folder;
    const auto path = folder.path() / "survey.toml";
    CHECK_FALSE(kept_green(path));
    GreenDraft draft = lawn();
    draft.name = R"(It's "new")";
    draft.ball = Vec2(1, -2);
    draft.level_sd = 0.003;
    draft.corners = {{-9, -9}, {9, -9}, {9, 9}, {-9, 9}};
    draft.heights = std::make_shared<const std::vector<HeightReading>>(
        std::vector<HeightReading>{{{1, 2}, 0.25, 0.004}});
    keep_green(path, draft);
    const auto back = kept_green(path);
    REQUIRE(back);
    CHECK(*back->heights == *draft.heights);
    GreenDraft same_heights = *back;
    same_heights.heights = draft.heights;
    CHECK(same_heights == draft);
    folder.write("survey.toml", "name = 3");
    CHECK_FALSE(kept_green(path));
    keep_green(path, std::nullopt);
    CHECK_FALSE(std::filesystem::exists(path));
}

TEST_CASE("a survey that nothing can be fitted to is set aside, and told", "[green_draft]") {
    const TemporaryFolder folder;
    const auto path = folder.path() / "survey.toml";
    const std::string head = "name = 'a'\nstimp = 10\nhole = 'h'\n",
                      spots =
                          "spots = [[0, 0], [900, 0], [0, 900]]\n"
                          "gradients = [[0, 0], [0, 0], [0, 0]]\n",
                      holes = "[holes]\nh = [1, 1]\n";
    for (const std::string& text :
         {head + "heights_at = [[0, 0]]\nheights = [[0.1, 0]]\n" + holes,
          head + "heights_at = [[0, 0]]\nheights = [[0.1, -1]]\n" + holes,
          head + "spacing_m = 0.2\n" + spots + holes,
          head + "corners = [[0, 0], [1, 1], [1, 0], [0, 1]]\n" + holes}) {
        CAPTURE(text);
        folder.write("survey.toml", text);
        std::string told;
        CHECK_FALSE(kept_green(path, [&](const std::string& words) { told += words; }));
        CHECK_THAT(told, Contains(path.string()) && Contains(".damaged"));
        CHECK_FALSE(std::filesystem::exists(path));
    }
    CHECK(folder.count() == 4);
}
