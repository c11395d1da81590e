#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "support/contrast.hpp"
#include "viewer/modes/drawn_mode.hpp"
#include "viewer/picture/camera.hpp"
#include "viewer/picture/labels.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/picture/widgets/note_picture.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/trail.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

constexpr double round_off = 1e-9;  // a few operations on numbers up to a thousand

Setup putt(double distance_ft, double slope, double clock_h) {
    Setup setup;
    setup.distance_m = distance_ft * metres_per_foot;
    setup.slope = slope;
    setup.clock_h = clock_h;
    return setup;
}

}  // namespace

TEST_CASE("the plan camera and its inverse agree, turned or not") {
    PlanCamera camera{{3, -2}, {450, 300}, 137, 0.4};
    for (const Vec2& p : {Vec2(0, 0), Vec2(5, -7), Vec2(-3.3, 12)})
        REQUIRE_THAT((camera.to_green(camera.to_px(p)) - p).norm(), WithinAbs(0, round_off));
    camera.turned_rad = 0;
    REQUIRE(camera.to_px({3, -1}).y() < camera.to_px({3, -2}).y());  // +y is up the plan
}

TEST_CASE("the plan fits everything into its pane with room for labels") {
    const Rect pane{0, 56, 904, 584};
    for (const double clock : {1.5, 3.0, 6.0, 10.5}) {
        const Solved s = solve(putt(12, 0.02, clock), usual_past_m, Effort::settled);
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
    REQUIRE_THAT((*back - Vec2(0.4, 2)).norm(), WithinAbs(0, round_off));
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
            const Solved s = solve(putt(feet, 0.01, 3), usual_past_m, Effort::live);
            const EyeCamera eye = eye_of(s, place, pane);
            INFO(feet << " ft, " << words_for(place));
            CHECK(pane.contains(*eye.to_px(on_ground(s.putt, s.putt.ball))));
            CHECK(pane.contains(*eye.to_px(on_ground(s.putt, s.putt.hole))));
        }
}

TEST_CASE("placed labels meet neither obstacles nor each other, unless they must show") {
    const Rect pane{0, 0, 800, 500};
    std::vector<Label> labels;
    for (int i = 0; i < 12; ++i) {
        Label label{
            "name", {{"a label", Face::sans, 18, {}}}, Vec2(80.0 + 55 * i, 250 + 40 * (i % 3)), 14};
        labels.push_back(label);
    }
    std::vector<Rect> obstacles;
    add_obstacles(obstacles, {{50, 260}, {750, 300}}, 5);
    const auto placed = place_labels(labels, obstacles, pane, half_em);
    REQUIRE(placed.size() >= 6);
    for (std::size_t i = 0; i < placed.size(); ++i) {
        REQUIRE(pane.holds(placed[i].box));
        for (const Rect& o : obstacles) REQUIRE_FALSE(o.meets(placed[i].box));
        for (std::size_t j = 0; j < i; ++j) REQUIRE_FALSE(placed[i].box.meets(placed[j].box));
    }
}

TEST_CASE("aim spot, start spot and apex are always named, and nothing overlaps on a bare putt") {
    const Rect pane = lay_out(1280, 800, 1, true).green;
    const Look look{palette(Theme::dew), lay_out(1280, 800, 1, true), {}, half_em};
    for (const double clock : {1.0, 2.5, 3.0, 4.5, 7.5, 9.0, 10.5, 11.5}) {
        const Solved s = solve(putt(15, 0.025, clock), usual_past_m, Effort::settled);
        const Trail trail(*s.read);
        MapView view;
        view.time_s = trail.end_s();
        std::vector<Label> wishes;
        const PlanCamera camera = fit_plan(to_be_seen(s), pane, 1);
        const PlanPicture plan = plan_picture(s, trail, camera, pane, view, look, wishes);
        int named = 0;
        for (const PlacedLabel& a : plan.labels) {
            named += a.label->must;
            for (const PlacedLabel& b : plan.labels)
                if (&a < &b) CHECK_FALSE(a.box.meets(b.box));
        }
        INFO("clock " << clock);
        CHECK(named >= 3);
    }
}

TEST_CASE("a name stands by its mark, or a hairline leads there") {
    const Look look{palette(Theme::dew), lay_out(1280, 800, 1, true), {}, half_em};
    const Rect pane = look.layout.green;
    for (const double clock : {1.0, 1.5, 3.0, 4.5, 7.5, 10.5})
        for (const double feet : {5.0, 12.0, 45.0}) {
            const Solved s = solve(putt(feet, 0.02, clock), usual_past_m, Effort::settled);
            const Trail trail(*s.read);
            std::vector<Label> wishes;
            const PlanCamera camera = fit_plan(to_be_seen(s), pane, 1);
            const PlanPicture plan = plan_picture(s, trail, camera, pane, {}, look, wishes);
            for (const PlacedLabel& placed : plan.labels) {
                INFO(feet << " ft at " << clock << ": " << placed.label->id);
                const Rect near = placed.box.grown(1.31 * placed.label->clear);
                CHECK((has_leader(placed) || near.contains(placed.label->mark)));
            }
        }
}

TEST_CASE("what has left the picture is not named") {
    const Look look{palette(Theme::dew), lay_out(1280, 800, 1, true), {}, half_em};
    const Solved s = solve(putt(12, 0.02, 3), usual_past_m, Effort::settled);
    PlanCamera camera = fit_plan(to_be_seen(s), look.layout.green, 1);
    camera.centre_m.x() += 2;  // the hole's end is beyond the left edge now
    std::vector<Label> wishes;
    const PlanPicture plan =
        plan_picture(s, Trail(*s.read), camera, look.layout.green, {}, look, wishes);
    REQUIRE_FALSE(look.layout.green.contains(*plan.marks.aim));
    for (const PlacedLabel& placed : plan.labels) CHECK(placed.label->id != "aim");
}

TEST_CASE("colours keep the contrast that the design promises") {
    for (const Theme theme : {Theme::dew, Theme::dusk}) {
        const Palette& c = palette(theme);
        for (const Colour ground : {c.grass_light, c.grass_dark, c.paper, c.paper2}) {
            for (const Colour text :
                 {c.ink, c.ink2, c.height_label, c.copper, c.wet_green, c.heather})
                CHECK(contrast(text, ground) >= 4.5);
        }
        for (const Colour grass : {c.grass_light, c.grass_dark}) {
            CHECK(contrast(c.contour, grass) >= 3);
            CHECK(contrast(theme == Theme::dew ? c.trail : c.trail_rim, grass) >= 3);
        }
        CHECK(contrast(c.on_button, c.wet_green) >= 4.5);
        CHECK(contrast(c.half_second, c.trail) >= 3);
    }
    REQUIRE_THAT(contrast(rgb(0xFFFFFF), rgb(0x000000)), WithinAbs(21, 1e-9));  // WCAG's extreme
}

TEST_CASE("the trail follows the solver's path and ends in the hole") {
    const Solved s = solve(putt(12, 0.02, 3), usual_past_m, Effort::settled);
    const Trail trail(*s.read);
    REQUIRE(trail.holed());
    const double rim_s = s.read->entry.time_s;
    for (const PathPoint& p : s.read->roll.path)
        if (p.time_s < rim_s)
            REQUIRE_THAT((trail.at(p.time_s).at - p.at).norm(), WithinAbs(0, round_off));
    REQUIRE_THAT((trail.at(rim_s).at - s.putt.hole).norm(), WithinAbs(hole_radius_m, 1e-5));
    REQUIRE(trail.half_seconds().size() == 5);  // 2.7 s
}

TEST_CASE("halfway the ball has shown a sixth of its break, a yard short about half is to come") {
    const Solved s = solve(putt(12, 0.02, 3), usual_past_m, Effort::settled);
    const auto marks = break_marks(s.putt, *s.read, Trail(*s.read));
    REQUIRE(marks.size() == 2);
    REQUIRE(marks[0].words == "half to come");
    REQUIRE(marks[1].words == "a sixth shown");
    // 17 % and 45 % by the numbers of the design, which came from another integration.
    REQUIRE_THAT(marks[1].shown, WithinAbs(0.17, 0.01));
    REQUIRE_THAT(marks[0].shown, WithinAbs(0.45, 0.01));
}

TEST_CASE("the note leads with what a player uses") {
    const Solved s = solve(putt(12, 0.02, 3), usual_past_m, Effort::settled);
    const Account account = note_of(putt(12, 0.02, 3), s, {}).account;
    CHECK(account.heading == "Right to left");
    REQUIRE(account.rows.size() == 6);
    CHECK(account.rows[0].words == "three cups out right");
    CHECK(account.rows[0].second == "15 in from the centre");
    CHECK(account.rows[1].words == "play it as a straight level 12-footer");
    CHECK(account.rows[1].detail == "leaves at 6.8 ft/s");
    CHECK(account.rows[2].words == "just past halfway, 5 in high");
    CHECK(
        read_as_text(putt(12, 0.02, 3), s, {}) ==
        "12 ft, 2 %, ball at 3:00, stimp 10, a foot past. Right to left. Aim three cups out right "
        "(15 in from the centre). Play it as a straight level 12-footer. Apex just past halfway, 5 "
        "in "
        "high; the start line passes 4 in above it.");
}

TEST_CASE("the three faces of the slope are the same ground") {
    Setup setup = putt(12, 0.02, 4);
    const double angle = solve(setup, usual_past_m, Effort::settled).read->stroke.angle_rad;
    const AlongAcross values = along_across(setup);
    set_along_across(setup, values);
    REQUIRE_THAT(setup.slope, WithinAbs(0.02, round_off));
    REQUIRE_THAT(setup.clock_h, WithinAbs(4, round_off));
    set_face(setup, SlopeFace::three_rows);
    REQUIRE_THAT(row(setup, 1).up, WithinAbs(values.up, round_off));
    // Solved by shooting there, in closed form before: the solver promises 1e-6 degrees.
    REQUIRE_THAT(solve(setup, usual_past_m, Effort::settled).read->stroke.angle_rad,
                 WithinAbs(angle, 2e-8));
    set_row(setup, 2, {0.01, 0.03});
    REQUIRE_THAT(setup.slope, WithinAbs(std::hypot(0.01, 0.03), round_off));
    set_face(setup, SlopeFace::total);
    REQUIRE(setup.readings.empty());
}

TEST_CASE("the parts of the window fill it and do not overlap") {
    for (const double text : {1.0, 1.25, 1.5})
        for (const auto& [w, h] : {std::pair(1280, 800), std::pair(1024, 640),
                                   std::pair(1920, 1080), std::pair(1024, 900)}) {
            const Layout l = lay_out(w, h, text, true);
            const Rect parts[] = {l.top_bar, l.green, l.roll_strip, l.setup_strip, l.note};
            double area = 0;
            for (const Rect& a : parts) {
                area += a.w * a.h;
                for (const Rect& b : parts)
                    if (&a != &b) CHECK_FALSE(a.meets(b));
            }
            CHECK_THAT(area, WithinAbs(static_cast<double>(w) * h, 1e-6));
            CHECK(l.green.h > 200);
        }
}
