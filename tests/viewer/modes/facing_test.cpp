// The plan keeps uphill up, the player does not: left and right where they face another way.

#include <catch2/catch.hpp>
#include <cmath>

#include "viewer/modes/practised.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/practice/drill/dealt_putt.hpp"

using namespace dewtrail;

namespace {

/// Where the middle of a word stands on the green; none where it is not written.
std::optional<Vec2> middle_of(const Frame& frame, const std::string& words, const Rect& green) {
    for (const Text& text : all_of<Text>(frame.picture))
        if (text.words == words && text.outline > 0 && green.contains(text.at))
            return rect_of(text, type_width).centre();
    return std::nullopt;
}

/// Practise with a putt of 10 ft that rises so much and falls to the left.
struct Facing : Remembering, DrawnMode<PractiseMode> {
    explicit Facing(double up) : DrawnMode(quiet_look(), start(folder.path(), up)) {}
    static PractiseStart start(const std::filesystem::path& memory, double up) {
        PractiseStart start = practise_start_in(memory);
        start.plan.set = {plane_putt(10 * metres_per_foot, up, 0.01, 10, 0.3)};
        return start;
    }
    std::optional<Vec2> middle(const std::string& words) {
        return middle_of(draw(), words, shell.layout().green);
    }
};

}  // namespace

TEST_CASE("who faces down or across the plan finds left and right at the ball") {
    for (const double clock : {0.5, 1.5, 3.0, 9.0, 10.5, 11.9}) {
        INFO("clock " << clock);
        Drawn d;
        d.press({{'e'}});
        CHECK_FALSE(d.says("your left"));
        ReadStart start = quiet_start();
        set_clock(start.setup, clock);
        Drawn plan(start);
        plan.settle();
        const Frame frame = plan.draw();
        const Rect& green = plan.shell.layout().green;
        const auto left = middle_of(frame, "your left", green),
                   right = middle_of(frame, "your right", green);
        REQUIRE(left);
        REQUIRE(right);
        const Vec2 ball = plan.place("ball"), ahead = plan.place("hole") - ball;
        const Vec2 to_the_right(-ahead.y(), ahead.x());  // on a screen, where y is down
        CHECK((*right - ball).dot(to_the_right) > 0);
        CHECK((*left - ball).dot(to_the_right) < 0);
        for (const auto& at : {left, right}) CHECK((*at - ball).norm() < 90);
    }
}

TEST_CASE("who faces up the plan needs no word for left and right") {
    ReadStart start = quiet_start();
    for (const double clock : {4.5, 6.0, 7.5}) {
        set_clock(start.setup, clock);
        CHECK_FALSE(Drawn(start).says("your left"));
    }
    // Nor on a phone, whose plan stands as the player does.
    set_clock(start.setup, 12);
    Drawn phone(start);
    CHECK(phone.says("your left"));
    phone.shell.resize(390, 844);
    phone.draw();
    CHECK_FALSE(phone.says("your left"));
}

TEST_CASE("left and right of the player meet no other word on the plan") {
    for (const double clock : {11.0, 12.0, 1.5, 3.0}) {
        ReadStart start = quiet_start();
        set_clock(start.setup, clock);
        Drawn d(start);
        d.settle();
        INFO("clock " << clock);
        check_layout(d);
    }
}

TEST_CASE("on Practise's plan of a downhill putt the rail says which end is left") {
    Facing down(-0.02);
    CHECK_FALSE(down.middle("left"));  // by the eye it is where it is
    down.press({{'p'}, {'a'}});
    down.type("two cups left");
    const auto left = down.middle("left"), right = down.middle("right");
    REQUIRE(left);
    REQUIRE(right);
    const Vec2 aim = down.place("aim");
    CHECK((*left - aim).norm() < (*right - aim).norm());
    CHECK(left->x() > right->x());  // as it is seen by who looks down the plan
    CHECK(down.middle("your left"));
    check_layout(down);

    Facing up(0.02);
    up.press({{'p'}});
    CHECK_FALSE(up.middle("left"));
    CHECK_FALSE(up.middle("your left"));
}
