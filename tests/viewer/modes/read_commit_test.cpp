#include <catch2/catch.hpp>

#include "viewer/modes/drawn_mode.hpp"

/// The commit view, where the eye is, and what cannot be dragged.
using namespace dewtrail;

TEST_CASE("the commit view says how the numbers come back, and goes back where it came from",
          "[read_mode]") {
    Drawn d;
    d.settle();
    d.press({{'p'}});
    const std::string before = d.mode.view_words();
    d.press({{'c'}});
    CHECK(d.says("Esc: the numbers again"));
    CHECK_FALSE(d.says("apex"));
    CHECK_FALSE(d.mode.marks().apex);
    d.press({{key::escape}});
    CHECK_FALSE(d.mode.commit());
    CHECK(d.mode.view_words() == before);
    CHECK(d.mode.marks().apex);
    d.press({{'e'}, {'e'}, {'e'}});
    const std::string behind = d.mode.view_words();
    d.press({{'c'}});
    CHECK(d.mode.view_words() != behind);
    d.click(What::commit);
    CHECK(d.mode.view_words() == behind);
}

TEST_CASE("each place of the eye is named, and the name leads to the next", "[read_mode]") {
    Drawn d;
    d.settle();
    d.press({{'e'}});
    for (const char* name : {"behind the ball, crouched", "behind the ball, standing",
                             "behind the hole", "low side, halfway"}) {
        CHECK(d.says(name));
        d.press({{'e'}});
    }
    CHECK(d.says("behind the ball, crouched"));
}

TEST_CASE("a hole that stays says why, and where it would move", "[read_mode]") {
    Drawn d;
    d.settle();
    const Setup before = d.mode.setup();
    d.drag(*d.mode.marks().hole, *d.mode.marks().hole + Vec2(60, 30));
    CHECK(d.mode.setup().distance_m == before.distance_m);
    CHECK(d.mode.setup().clock_h == before.clock_h);
    CHECK(d.shell.undo_depth() == 0);
    CHECK(d.shell.message().find("On a green the hole moves") != std::string::npos);
}
