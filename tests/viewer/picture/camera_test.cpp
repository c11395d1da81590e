#include "viewer/picture/camera.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/tolerances.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/putt/solved_putt.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using oracle::round_off_of_thousands;

TEST_CASE("the plan camera and its inverse agree, turned or not") {
    PlanCamera camera{{3, -2}, {450, 300}, 137, 0.4};
    for (const Vec2& p : {Vec2(0, 0), Vec2(5, -7), Vec2(-3.3, 12)})
        REQUIRE_THAT((camera.to_green(camera.to_px(p)) - p).norm(),
                     WithinAbs(0, round_off_of_thousands));
    camera.turned_rad = 0;
    REQUIRE(camera.to_px({3, -1}).y() < camera.to_px({3, -2}).y());  // +y is up the plan
}

TEST_CASE("the plan fits everything into its pane with room for labels") {
    const Rect pane{0, 56, 904, 584};
    for (const double clock : {1.5, 3.0, 6.0, 10.5}) {
        const Solved s = solved_putt(12, 0.02, clock);
        const PlanCamera camera = fit_plan(to_be_seen(s), pane, 1);
        for (const Vec2& p : to_be_seen(s)) REQUIRE(pane.grown(-60).contains(camera.to_px(p)));
    }
}

TEST_CASE("the eye sees the ground where it is") {
    const EyeCamera eye({0, -3, 1}, 0, 0.2, 1200, {450, 300});
    const auto px = eye.to_px({0.4, 2, 0});
    REQUIRE(px);
    const auto back = eye.to_green(*px, 0);
    REQUIRE(back);
    REQUIRE_THAT((*back - Vec2(0.4, 2)).norm(), WithinAbs(0, round_off_of_thousands));
    REQUIRE(px->x() > 450);                // right is right
    REQUIRE_FALSE(eye.to_px({0, -4, 0}));  // behind the eye
    REQUIRE_FALSE(eye.to_green({450, eye.horizon_px() - 1}, 0));
    // What is very far on the level comes to the horizon: 1 m in 1e7 is 1e-4 px here.
    REQUIRE_THAT(eye.to_px({0, 1e7, 0})->y(), WithinAbs(eye.horizon_px(), 2e-4));
}

TEST_CASE("behind the ball, ball and hole are both in view at any distance") {
    const Rect pane{0, 56, 904, 584};
    for (const double feet : {2.0, 8.0, 12.0, 25.0, 60.0, 120.0})
        for (const EyePlace place : {EyePlace::crouched, EyePlace::standing}) {
            const Solved s = solved_putt(feet, 0.01, 3);
            const EyeCamera eye = eye_of(s, place, pane);
            INFO(feet << " ft, " << words_for(place));
            CHECK(pane.contains(*eye.to_px(on_ground(s.putt, s.putt.ball))));
            CHECK(pane.contains(*eye.to_px(on_ground(s.putt, s.putt.hole))));
            const Vec2 foot = *eye.to_px(on_ground(s.putt, s.putt.hole));
            const Vec2 top = flag_top(s.putt, eye, pane, {}).value();
            CHECK(pane.contains(top));
            CHECK(foot.y() - top.y() > 10);
            CHECK_THAT(top.x(), WithinAbs(foot.x(), 0.5));
        }
}

TEST_CASE("horizon, ball and hole are in view from everywhere, on short putts and on slopes too") {
    // The green of a window, of a phone held upright and of one that lies.
    for (const Rect pane : {Rect{0, 56, 904, 584}, Rect{0, 52, 390, 400}, Rect{0, 40, 520, 220}})
        for (const double feet : {2.0, 3.0, 5.0, 8.0, 13.0, 20.0, 35.0, 60.0})
            for (const double slope : {0.0, 0.03, 0.08})
                for (const double clock : {3.0, 6.0, 9.0, 12.0})
                    for (int i = 0; i < eye_places; ++i) {
                        const auto place = static_cast<EyePlace>(i);
                        Solved s;  // where they are matters, not how the putt is played
                        Setup setup;
                        setup.distance_m = feet * metres_per_foot;
                        setup.slope = slope;
                        setup.clock_h = clock;
                        s.putt = putt_of(setup);
                        const EyeCamera eye = eye_of(s, place, pane);
                        INFO(feet << " ft, " << slope << ", " << clock << " h, " << words_for(place)
                                  << ", " << pane.w << " x " << pane.h);
                        const double sky = (eye.horizon_px() - pane.y) / pane.h;
                        CHECK(sky > 0.1);
                        CHECK(sky < 0.6);
                        for (const Vec2& at : {s.putt.ball, s.putt.hole}) {
                            const auto px = eye.to_px(on_ground(s.putt, at));
                            REQUIRE(px);
                            CHECK(pane.grown(-0.03 * pane.h).contains(*px));
                        }
                    }
}

TEST_CASE("a plan that is turned shows the ball at the foot and the hole at the top") {
    const Rect pane{20, 50, 390, 440};
    const Vec2 ball(3, 1), hole(-1, 2), aside(0, 5);
    const PlanCamera camera = fit_plan({ball, hole, aside}, pane, 0.86, -bearing_of(hole - ball));
    const Vec2 from = camera.to_px(ball), to = camera.to_px(hole);
    CHECK(std::abs(from.x() - to.x()) < 1e-9);
    CHECK(to.y() < from.y());
    for (const Vec2& p : {ball, hole, aside}) {
        CHECK(pane.contains(camera.to_px(p)));
        CHECK((camera.to_green(camera.to_px(p)) - p).norm() < 1e-12);
    }
}
