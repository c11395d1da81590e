#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "greens/input_error.hpp"
#include "tests/support/tolerances.hpp"
#include "viewer/modes/drawn_mode.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using oracle::round_off;
using oracle::round_off_of_thousands;

/// Where the ball lies on the screen at this clock of the bare putt, which has 12 o'clock at the
/// top.
Vec2 px_at(const Drawn& d, double clock_h) {
    const Vec2 hole = *d.mode.marks().hole;
    const double turned = clock_h * std::numbers::pi / 6;
    return hole + (*d.mode.marks().ball - hole).norm() * Vec2(std::sin(turned), -std::cos(turned));
}

TEST_CASE("a dragged ball keeps its distance and stops at the nearest five minutes of clock") {
    // Let go at, ends at; in minutes after four.
    for (const auto& [at, ends] : {std::pair(30, 30), {32, 30}, {33, 35}, {61, 60}}) {
        Drawn d;
        d.drag(*d.mode.marks().ball, px_at(d, 4 + at / 60.0));
        INFO(at);
        CHECK_THAT(d.mode.setup().clock_h, WithinAbs(4 + ends / 60.0, round_off_of_thousands));
        CHECK_THAT(d.mode.setup().distance_m, WithinAbs(12 * metres_per_foot, round_off));
        CHECK(d.shell.undo_depth() == 1);
    }
}

TEST_CASE("with Ctrl the ball is dragged in and out by whole inches, its clock kept") {
    // Let go at, ends at; in inches.
    for (const auto& [at, ends] : {std::pair(72.0, 72), {72.3, 72}, {72.7, 73}}) {
        Drawn d;
        const Vec2 ball = *d.mode.marks().ball, hole = *d.mode.marks().hole;
        d.drag(ball, hole + at / 144 * (ball - hole), {.ctrl = true});
        INFO(at);
        CHECK_THAT(d.mode.setup().distance_m,
                   WithinAbs(ends * metres_per_inch, round_off_of_thousands));
        CHECK_THAT(d.mode.setup().clock_h, WithinAbs(3, round_off));
    }
}

TEST_CASE("two hundred steps are undone, and redone until something new happens") {
    Drawn d;
    for (int i = 0; i < 210; ++i) d.shell.press({']'});
    REQUIRE(d.shell.undo_depth() == 200);
    const double after = d.mode.setup().clock_h;
    for (int i = 0; i < 200; ++i) d.shell.press({'z', true});
    REQUIRE(d.shell.undo_depth() == 0);
    REQUIRE(d.shell.redo_depth() == 200);
    for (int i = 0; i < 200; ++i) d.shell.press({'y', true});
    REQUIRE_THAT(d.mode.setup().clock_h, WithinAbs(after, round_off));
    d.shell.press({'z', true});
    d.shell.press({'.'});
    REQUIRE(d.shell.redo_depth() == 0);
}

TEST_CASE("Esc during a drag leaves the putt as it was, without a step") {
    Drawn d;
    const Vec2 ball = *d.mode.marks().ball;
    d.shell.pointer_pressed(ball, Button::left, {});
    d.shell.pointer_moved(ball + Vec2(-100, 200), {});
    REQUIRE(d.mode.setup().clock_h > 3);
    d.shell.press({key::escape});
    d.shell.pointer_released(ball + Vec2(-100, 200));
    REQUIRE_THAT(d.mode.setup().clock_h, WithinAbs(3, round_off));
    REQUIRE(d.shell.undo_depth() == 0);
}

TEST_CASE("what is typed is taken, or left with a word of why") {
    Drawn d;
    d.shell.press({'t'});
    d.shell.press({key::enter});
    REQUIRE(d.shell.typing());
    d.shell.typed("11.5");
    REQUIRE_THAT(d.mode.setup().stimp_ft, WithinAbs(11.5, round_off));
    d.shell.press({key::enter});
    d.draw();
    d.shell.typed("99");
    REQUIRE_THAT(d.mode.setup().stimp_ft, WithinAbs(11.5, round_off));
    REQUIRE(d.shell.message().find("99") != std::string::npos);
}

TEST_CASE("Tab walks through everything that can be clicked, once, and comes round") {
    Drawn d;
    std::vector<FocusStop> walked;
    for (d.shell.press({key::tab}); walked.empty() || d.shell.focus() != walked.front();
         d.shell.press({key::tab})) {
        walked.push_back(*d.shell.focus());
        REQUIRE(walked.size() < 100);
    }
    std::size_t stops = d.mode.marks_to_focus().size();
    for (const Target& target : d.shell.targets()) {
        if (!is_stop(target.what)) continue;
        INFO(static_cast<int>(target.what) << ' ' << target.index);
        const FocusStop stop = FocusStop::on(target.what, target.index);
        CHECK(std::count(walked.begin(), walked.end(), stop) == 1);
        ++stops;
    }
    CHECK(walked.size() == stops);
    // The values first: a field, a mark, the roll, the note, and at last the words at the top.
    const auto place = [&](const FocusStop& stop) {
        return std::find(walked.begin(), walked.end(), stop) - walked.begin();
    };
    CHECK(place(FocusStop::on(What::field, static_cast<int>(Field::distance))) == 0);
    CHECK(place(FocusStop::on(What::field, static_cast<int>(Field::finish))) <
          place(FocusStop::on(MarkId::ball)));
    CHECK(place(FocusStop::on(MarkId::drop)) < place(FocusStop::on(What::play)));
    CHECK(place(FocusStop::on(What::slow)) < place(FocusStop::on(What::detail)));
    CHECK(place(FocusStop::on(What::detail)) < place(FocusStop::on(What::pupil)));
    CHECK(walked.back() == FocusStop::on(What::help));
    const FocusStop last = walked.back();
    d.shell.press({key::tab, false, true});
    CHECK(d.shell.focus() == last);
}

TEST_CASE("the roll takes its own time at any frame rate, and slow motion slows it") {
    Drawn d;
    d.shell.press({key::space});
    for (int i = 0; i < 10; ++i) d.shell.advance(0.1);
    REQUIRE_THAT(d.shell.playback.time_s, WithinAbs(1.0, 1e-9));
    d.shell.press({'m'});
    d.shell.advance(0.5);
    REQUIRE_THAT(d.shell.playback.time_s, WithinAbs(1.25, 1e-9));
    d.shell.press({'m'});
    d.shell.advance(0.4);
    REQUIRE_THAT(d.shell.playback.time_s, WithinAbs(1.35, 1e-9));
}

TEST_CASE("where nothing stops, the offer gives a read") {
    ReadStart start = quiet_start();
    start.setup.slope = 0.09;
    start.setup.clock_h = 12;
    start.setup.stimp_ft = 12;
    Drawn d(start);
    REQUIRE_FALSE(d.mode.solved().read);
    d.click(What::offer);
    REQUIRE(d.mode.solved().read);
    REQUIRE(d.mode.setup().finish.kind == Finish::Kind::hole_speed);
}

TEST_CASE("a green that cannot be read is told, and the putt stays") {
    ReadStart start = quiet_start();
    start.greens = [] { return std::vector<std::string>{"broken"}; };
    start.load = [](const std::string&) -> std::shared_ptr<const Green> {
        throw InputError("broken.toml", 14, 3, "no height", "Add one.");
    };
    Drawn d(start);
    d.shell.press({'o', true});
    d.shell.press({key::enter});
    REQUIRE(d.shell.message().find("broken.toml:14:3") != std::string::npos);
    REQUIRE_FALSE(d.mode.setup().green);
}

ReadStart on_meadow() {
    ReadStart start = quiet_start();
    put_on_green(start.setup, shipped_green("meadow"));
    return start;
}

TEST_CASE("a hole dragged off the green stops inside its edge, and is put back by undo") {
    Drawn d(on_meadow());
    const Setup before = d.mode.setup();
    const Vec2 hole = *d.mode.marks().hole;
    const Vec2 away = (hole - *d.mode.marks().ball).normalized();
    d.drag(hole, hole + 5000 * away);
    const Setup after = d.mode.setup();
    CHECK((after.hole - before.hole).norm() > 0.5);
    // The place is found to a millionth of what was asked, here some 40 m.
    CHECK_THAT(after.green->outline.inside_by(after.hole), WithinAbs(hole_radius_m, 1e-4));
    CHECK(d.mode.solved().read);
    CHECK(d.shell.undo_depth() == 1);
    d.press({{'z', true}});
    CHECK(d.mode.setup().hole == before.hole);
}

TEST_CASE("a ball dragged off the green is told") {
    Drawn d(on_meadow());
    const Vec2 ball = *d.mode.marks().ball;
    REQUIRE_FALSE(d.says("Put the ball on the green."));
    d.drag(ball, ball + 5000 * (ball - *d.mode.marks().hole).normalized());
    CHECK(d.mode.setup().green->outline.inside_by(d.mode.setup().ball) < 0);
    CHECK(d.says("Put the ball on the green."));
}

TEST_CASE("the ground is painted anew only when it changes") {
    Drawn d;
    REQUIRE(d.draw().ground.empty());
    d.shell.press({key::space});
    d.shell.advance(0.1);
    d.draw();  // labels keep their places: the key may change once when rolling begins
    d.shell.advance(0.1);
    REQUIRE(d.draw().ground.empty());
    d.shell.press({'d'});
    d.shell.advance(0.05);
    REQUIRE_FALSE(d.draw().ground.empty());
}

TEST_CASE("nothing moves when nobody acts") {
    Drawn d;
    d.settle();
    REQUIRE_FALSE(d.shell.advance(0.1));
}

TEST_CASE("after the first roll apex, start line and aim spot come into sight in this order") {
    ReadStart start;
    start.first_start = true;
    start.outlook = false;
    Drawn d(start);
    while (d.shell.playback.running) d.shell.advance(1.0 / 60);
    // The start line comes from 0.3 s on, the aim spot and the names from 0.6 s on.
    const MapView halfway{.marks_share = 0.5};
    REQUIRE(halfway.appeared(Appearing::apex) == 1);
    REQUIRE(halfway.appeared(Appearing::line) == Approx(0.5));
    REQUIRE(halfway.appeared(Appearing::aim) == 0);
    REQUIRE(opacity_of(d.wait(0.45), "apex") == 0);
    REQUIRE(opacity_of(d.wait(0.6), "apex") == 255);
}

TEST_CASE("a first start rolls once by itself and gives three hints") {
    ReadStart start;
    start.first_start = true;
    Drawn d(start);
    REQUIRE(d.shell.playback.running);
    for (int i = 0; i < 200; ++i) d.shell.advance(0.05);
    REQUIRE(d.shell.playback.complete());
    std::vector<std::string> hints;
    bool done = false;
    for (int second = 0; second < 4 * 12 && !done; ++second) {
        for (const char* hint : {"Drag the ball round the hole.",
                                 "Drag the drop to turn the slope.", "Space rolls it."})
            if (d.says(hint) && (hints.empty() || hints.back() != hint)) hints.push_back(hint);
        d.wait(1);
        for (const Wish& wish : d.shell.take_wishes())
            done = done || wish.kind == Wish::Kind::hints_done;
    }
    CHECK(hints == std::vector<std::string>{"Drag the ball round the hole.",
                                            "Drag the drop to turn the slope.", "Space rolls it."});
    CHECK(done);
}
