#include "viewer/modes/practised.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/support/tolerances.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using oracle::round_off;

TEST_CASE("keys set aim and pace in their steps, and undo takes them back") {
    Practised p;
    const double pace = p.mode.said().level_putt_m;
    p.press({{key::right}, {key::right}, {key::left, false, true}, {key::up}});
    CHECK_THAT(p.mode.said().aim.offset_m, WithinAbs(1.75 * metres_per_inch, round_off));
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(pace + 3 * metres_per_inch, round_off));
    p.press({{'s'}, {'z', true}, {'z', true}});
    CHECK_FALSE(p.mode.said().sure);
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(pace, round_off));
    p.press({{'y', true}});
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(pace + 3 * metres_per_inch, round_off));
}

TEST_CASE("an answer is typed in the trade's words, and a bad one leaves the old") {
    Practised p;
    p.press({{'a'}});
    p.type("two cups out right");
    CHECK_THAT(p.mode.said().aim.offset_m, WithinAbs(5 * hole_radius_m, 1e-6));
    p.press({{'v'}});
    p.type("14ft");
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(14 * metres_per_foot, round_off));
    p.press({{'v'}});
    p.type("hard");
    CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(14 * metres_per_foot, round_off));
    CHECK(p.shell.message().find("'hard'") != std::string::npos);
}

TEST_CASE("another session begins from the list, as the plan it says, and is looked at anew") {
    Practised p;
    p.press({{'e'}, {'o', true}});
    CHECK(p.says("Line: the pace is given"));
    p.press({{key::down}, {key::enter}});
    CHECK(p.mode.session().plan().drill == Drill::line);
    CHECK(p.told<std::string>("view") == "eye");
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

TEST_CASE("a roll that is paused says so, and Enter goes on with it") {
    Practised p;
    p.press({{key::enter}});
    p.wait(0.1);
    CHECK(p.says("Rolling …"));
    CHECK_FALSE(p.says("Paused."));
    p.press({{key::space}});
    CHECK(p.says("Paused."));
    CHECK(p.says("Roll on"));
    const double time_s = p.shell.playback.time_s;
    p.press({{key::enter}});
    CHECK(p.says("Rolling …"));
    CHECK(p.shell.playback.time_s == time_s);
    p.wait(0.1);
    CHECK(p.shell.playback.time_s > time_s);
    CHECK(p.mode.stage() == PractiseMode::Stage::rolling);
}

TEST_CASE("where nothing is said of what is asked, the button names what Enter answers") {
    Practised line(Drill::line), pace(Drill::pace);
    line.press({{'a'}});
    CHECK_FALSE(line.says("Roll it:"));  // Enter takes what is typed
    line.press({{key::escape}});
    CHECK(line.says("Roll it: centre"));
    line.press({{key::right}});
    CHECK_FALSE(line.says("Roll it:"));
    const std::string begins = format_distance(pace.mode.said().level_putt_m, Units{});
    CHECK(pace.says("Roll it: " + begins));
    pace.press({{key::up}});
    CHECK_FALSE(pace.says("Roll it:"));
    for (Practised* p : {&line, &pace}) {  // and Space is no answer
        p->press({{key::space}});
        CHECK(p->remembered().empty());
    }
}

TEST_CASE("nothing of the truth is seen before the ball has rolled") {
    Practised p;
    const Frame before = p.draw();
    const double slope = p.mode.session().question()->plan.putt.slope_at_hole();
    CHECK_FALSE(says(before, format_slope(slope)));
    CHECK_FALSE(says(before, "apex"));
    CHECK_FALSE(says(before, "fall line"));
    CHECK_FALSE(says(before, "o’clock"));  // it would tell which side is low
    CHECK(says(before, "Ball at read it"));
    CHECK(says(before, "Slope read it"));
    for (const Text& text : all_of<Text>(before.ground)) CHECK(text.words.empty());  // no heights
    for (const Text& text : all_of<Text>(before.picture))
        CHECK_FALSE(text.colour == palette(Theme::dew).copper);
    p.press({{key::enter}});
    p.wait(20);
    const Frame after = p.wait(2);
    CHECK(p.mode.stage() == PractiseMode::Stage::told);
    CHECK(says(after, "apex"));
    CHECK(says(after, "true"));
}

namespace {

/// The rings of the rail: closed lines of the player's colour, and where their middles lie.
std::vector<Vec2> rail_of(const Frame& frame) {
    std::vector<Vec2> middles;
    for (const Line& line : all_of<Line>(frame.picture)) {
        const Colour heather = palette(Theme::dew).heather;
        if (!line.closed || line.colour.r != heather.r || line.colour.a > 240) continue;
        Vec2 sum(0, 0);
        for (const Vec2& p : line.points) sum += p;
        middles.push_back(sum / static_cast<double>(line.points.size()));
    }
    return middles;
}

/// Rise over run on the screen of the best straight line, up positive.
double lean_of(const std::vector<Vec2>& points) {
    Vec2 mean(0, 0);
    for (const Vec2& p : points) mean += p / static_cast<double>(points.size());
    double across = 0, both = 0;
    for (const Vec2& p : points) {
        across += (p.x() - mean.x()) * (p.x() - mean.x());
        both += (p.x() - mean.x()) * (mean.y() - p.y());
    }
    return both / across;
}

}  // namespace

TEST_CASE("an eye can see the tilt: the rail leans as the ground falls, the flagstick is plumb") {
    Practised p;
    int leaning = 0;
    for (int i = 0; i < 10; ++i) {
        const Putt& putt = p.mode.session().question()->plan.putt;
        const Frame frame = p.draw();
        const Vec2 ahead = putt.line().normalized();
        const double rises_right = putt.surface->at(putt.hole.x(), putt.hole.y())
                                       .gradient()
                                       .dot(Vec2(ahead.y(), -ahead.x()));
        const std::vector<Vec2> rail = rail_of(frame);
        REQUIRE(rail.size() >= 6);
        // All of the rail is as far away: what it rises to a side is seen as that slope, but for
        // the cosine of the look down (under 15 degrees).
        INFO("putt " << i << ", rises to the right by " << rises_right);
        CHECK_THAT(lean_of(rail), WithinAbs(rises_right, 0.05 * std::abs(rises_right) + 1e-4));
        leaning += std::abs(lean_of(rail)) > 0.005;
        const double hole_x = p.place("hole").x();
        const auto lines = all_of<Line>(frame.picture);
        CHECK(std::any_of(lines.begin(), lines.end(), [&](const Line& line) {
            return line.colour == palette(Theme::dew).ink && line.points.size() == 2 &&
                   std::abs(line.points[0].x() - line.points[1].x()) < 1e-9 &&
                   std::abs(line.points[0].x() - hole_x) < 1;
        }));
        p.press({{key::enter}});
        p.wait(20);
        p.press({{key::enter}});
    }
    CHECK(leaning >= 4);
}

TEST_CASE("the low side of the green is darker before anything is told of it") {
    Practised p;
    const Putt& putt = p.mode.session().question()->plan.putt;
    p.shell.forget_ground();
    const Frame frame = p.draw();
    const Vec2 ahead = putt.line().normalized();
    const double rises_right = putt.surface->at(0, 0).gradient().dot(Vec2(ahead.y(), -ahead.x()));
    REQUIRE(std::abs(rises_right) > 0.005);
    const Rect green = p.shell.layout().green;
    double light[2] = {0, 0};
    int seen[2] = {0, 0};
    for (const Mesh& mesh : all_of<Mesh>(frame.ground))
        for (const Mesh::Vertex& v : mesh.vertices) {
            if (v.colour.a < 255 || v.at.y() < green.y + 0.6 * green.h) continue;
            if (std::abs(v.at.x() - green.centre().x()) < 0.2 * green.w) continue;
            const int right = v.at.x() > green.centre().x();
            light[right] += v.colour.g, ++seen[right];
        }
    REQUIRE(seen[0] > 10);
    REQUIRE(seen[1] > 10);
    CHECK((light[1] / seen[1] > light[0] / seen[0]) == (rises_right > 0));
}

TEST_CASE("each step of help is one key or one click, and is remembered with its answer") {
    Practised p;
    const std::string slope = format_slope(p.mode.session().question()->plan.putt.slope_at_hole());
    p.press({{'h'}});
    CHECK(p.says("Slope " + slope.substr(0, slope.find(' '))));
    CHECK(p.says("o’clock"));
    p.press({{'h'}});
    CHECK(p.says("Slope read it"));  // but it has been seen
    p.press({{key::enter}});
    p.wait(20);
    CHECK(p.says("Help: slope."));
    p.press({{key::enter}});
    p.click(What::help_level, 1);
    p.shell.forget_ground();
    CHECK_FALSE(all_of<Line>(p.draw().ground).size() < 3);  // contours, beside the green's edge
    p.click(What::help_level, 2);
    CHECK(p.told<std::string>("view") == "plan");
    CHECK(p.says("fall line"));
    p.press({{'e'}, {key::enter}});
    p.wait(20);
    p.press({{key::enter}, {key::enter}});
    const std::vector<Answer> answers = p.remembered();
    REQUIRE(answers.size() == 3);
    CHECK(answers[0].help == Help{.slope = true});
    CHECK(answers[1].help == Help{.contours = true, .plan = true});
    CHECK_FALSE(answers[2].help.any());
}

TEST_CASE("how to see the tilt is told on the first putt ever, and never again") {
    const TemporaryFolder folder;
    for (const bool first : {true, false}) {
        DrawnMode<PractiseMode> p(quiet_look(), practise_start_in(folder.path()));
        CHECK(p.says("How to see the tilt") == first);
        p.press({{key::enter}});
        p.wait(20);
        p.press({{key::enter}});
        CHECK_FALSE(p.says("How to see the tilt"));
    }
}

TEST_CASE("what the note has no room for is scrolled to, and clicked there alone") {
    Practised p;
    p.shell.resize(1024, 640);
    p.press({{'+', true}, {'+', true}});
    const Rect note = p.shell.layout().note;
    CHECK_FALSE(find_target(p.shell.targets(), What::button)->hit.bottom() < note.bottom());
    p.shell.wheel(-20, note.centre(), {});
    p.draw();
    CHECK(find_target(p.shell.targets(), What::button)->hit.bottom() < note.bottom());
    for (const Target& target : p.shell.targets())
        if (target.what == What::session) CHECK(target.hit.y >= note.y);
    p.shell.wheel(20, note.centre(), {});
    CHECK(find_target((p.draw(), p.shell.targets()), What::session));
}

TEST_CASE("an answer is on the disk before its ball has moved, marked as the terminal marks it") {
    Practised p;
    p.press({{key::right}, {key::right}, {key::right}, {'s'}, {key::enter}});
    CHECK(p.mode.stage() == PractiseMode::Stage::rolling);
    const auto answers = p.remembered();
    REQUIRE(answers.size() == 1);
    CHECK(answers[0].sure == true);
    CHECK_THAT(*answers[0].aim_m, WithinAbs(3 * metres_per_inch, round_off));
    const Question& q = *p.mode.session().question();
    const auto marked = diagnose(q.plan.putt, Drill::read, *answers[0].aim_m,
                                 *answers[0].level_putt_m, Spread{}, usual_past_m);
    REQUIRE(marked);
    CHECK(answers[0].score == marked->score);
    CHECK_THAT(*answers[0].lost, WithinAbs(marked->lost, round_off));
}

TEST_CASE("what a drill gives is given, and does not move") {
    Practised line(Drill::line), pace(Drill::pace);
    const double given_pace = line.mode.session().question()->best.level_putt_m;
    line.press({{key::up}, {key::right}});
    CHECK_THAT(line.mode.said().level_putt_m, WithinAbs(given_pace, round_off));
    CHECK(line.mode.said().aim.offset_m > 0);
    const double given_aim = *pace.mode.session().question()->best.aim_offset_m;
    pace.press({{key::right}, {key::up}});
    CHECK_THAT(pace.mode.said().aim.offset_m, WithinAbs(given_aim, round_off));
}

TEST_CASE("the diamond is dragged along its rail, and one drag is one step of undo") {
    Practised p;
    const Vec2 hole = p.place("aim");  // it begins at the centre
    for (int i = 0; i < 6; ++i) p.press({{key::right}});
    const Vec2 right = p.place("aim");
    for (int i = 0; i < 6; ++i) p.press({{'z', true}});
    p.drag(hole, right);
    CHECK_THAT(p.mode.said().aim.offset_m, WithinAbs(6 * metres_per_inch, 1e-6));
    p.press({{'z', true}});
    CHECK(p.mode.said().aim.offset_m == 0);
}

TEST_CASE("the swell of the stroke is off until it is asked for") {
    Practised p;
    const auto wished = [&] {
        std::optional<bool> last;
        for (const Wish& wish : p.shell.take_wishes())
            if (wish.kind == Wish::Kind::swell) last = wish.on;
        return last;
    };
    CHECK_FALSE(wished());
    p.press({{'i'}});
    CHECK(wished() == true);
    CHECK(p.says("silent at the ball"));
    p.press({{'i'}});
    CHECK(wished() == false);
}

TEST_CASE("in Practise no label meets another, and nothing leaves its panel") {
    Practised p;
    for (const char* stage : {"asking", "told"}) {
        for (const char view : {'p', 'e', 'g'}) {
            INFO(stage << " " << view);
            p.press({{view}});
            check_layout(p);
        }
        p.press({{'p'}, {key::right}, {key::right}, {key::enter}});
        p.wait(20);
    }
}

TEST_CASE("a typed aim is seen as it was typed, until it is moved") {
    Practised p;
    p.press({{'a'}});
    p.type("6in left");
    CHECK(p.says("6 in left"));
    CHECK_FALSE(p.says("cup out left"));
    p.press({{key::left}});
    CHECK(p.says("one cup out left"));
}

TEST_CASE("the rail's numbers stand where that many cups out are, in either view") {
    TemporaryFolder folder;
    PractiseStart start = practise_start_in(folder.path());
    start.plan.set = {plane_putt(5 * metres_per_foot, 0, 0.02, 10, 0.3)};
    DrawnMode<PractiseMode> p(quiet_look(), start);
    for (const char view : {'e', 'p'}) {
        p.press({{view}, {'a'}});
        p.type("two cups left");
        const Vec2 aim = p.place("aim"), along = (aim - p.place("hole")).normalized();
        double nearest = 1e9;
        for (const Text& text : all_of<Text>(p.draw().picture))
            if (text.words == "2" && text.align == Align::centre && text.at.y() < 600)
                nearest = std::min(nearest, std::abs((text.at - aim).dot(along)));
        CAPTURE(view);
        CHECK(nearest < 2);  // half a cup, which it was off by the eye, is 17 pixels there
    }
}

TEST_CASE("no mark says of itself that there is none") {
    int straight = 0;
    for (int seed = 0; seed < 12; ++seed) {
        TemporaryFolder folder;
        PractiseStart start = practise_start_in(folder.path());
        start.plan.seed = static_cast<std::uint64_t>(seed);
        start.plan.ranges.most_slope = 0.005;
        DrawnMode<PractiseMode> p(quiet_look(), start);
        p.press({{key::enter}});
        p.wait(20);
        CHECK_FALSE(p.says("none, it runs straight"));
        const auto answers = Memory(folder.path()).answers();
        REQUIRE(answers.size() == 1);
        straight += std::abs(answers[0].true_aim_m.value_or(1)) < 0.5 * metres_per_inch;
    }
    CHECK(straight > 0);
}

TEST_CASE("a pace begins at the distance as it is told, rounded once") {
    for (const double inches : {89.6, 90.0, 90.4}) {
        TemporaryFolder folder;
        PractiseStart start = practise_start_in(folder.path());
        start.plan.set = {plane_putt(inches * metres_per_inch, 0, 0.02, 10, 0.3)};
        const DrawnMode<PractiseMode> p(quiet_look(), start);
        CHECK_THAT(p.mode.said().level_putt_m, WithinAbs(8 * metres_per_foot, round_off));
    }
}
