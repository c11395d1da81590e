#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/tolerances.hpp"
#include "viewer/modes/drawn_mode.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using oracle::round_off_of_thousands;

namespace {

/// Answers when it is told to.
struct Late : Solver {
    void ask(const Setup& setup, double past_m) override {
        ++asked;
        question = [=] { return solve(setup, past_m, Effort::settled); };
    }
    std::optional<Solved> answer() override {
        if (!ready || !question) return std::nullopt;
        return std::exchange(question, nullptr)();
    }
    std::function<Solved()> question;
    int asked = 0;
    bool ready = false;
};

/// Read with such a solver.
struct SolvedLate : Drawn {
    SolvedLate() : SolvedLate(std::make_shared<Late>()) {}
    explicit SolvedLate(std::shared_ptr<Late> solver) : Drawn(start(solver)), late(solver) {}
    static ReadStart start(std::shared_ptr<Late> solver) {
        ReadStart start = quiet_start();
        start.solver = std::move(solver);
        return start;
    }
    std::shared_ptr<Late> late;
};

/// Straight down a slope on which nothing stops, slow enough at the hole to drop.
ReadStart too_steep() {
    ReadStart start = quiet_start();
    start.setup.slope = 0.09;
    start.setup.clock_h = 12;
    start.setup.stimp_ft = 12;
    start.setup.finish = Finish::hole_speed(1.3);
    return start;
}

bool same_ink(const Colour& a, const Colour& b) {
    return a.r == b.r && a.g == b.g && a.b == b.b;
}

/// From a place to the nearest edge.
double inside_by(const Rect& pane, const Vec2& p) {
    return std::min({p.x() - pane.x, pane.right() - p.x(), p.y() - pane.y, pane.bottom() - p.y()});
}

/// The widest disc of a colour about a place; 0 if there is none.
double radius_at(const Picture& picture, const Vec2& at, const Colour& colour) {
    double radius = 0;
    for (const Disc& disc : all_of<Disc>(picture))
        if ((disc.centre - at).norm() < 1 && same_ink(disc.colour, colour))
            radius = std::max(radius, disc.radius);
    return radius;
}

}  // namespace

TEST_CASE("the trail of a ball that cannot stop runs to the edge of the pane and fades there") {
    Drawn d(too_steep());
    const Frame frame = d.wait(0.1);
    REQUIRE(d.mode.solved().read);
    REQUIRE(d.mode.solved().read->roll.end == RollEnd::keeps_rolling);
    const Rect pane = d.shell.layout().green;
    const Colour trail = palette(Theme::dew).trail;
    double nearest_edge = 1e9;
    int full = 0;
    for (const Mesh& mesh : all_of<Mesh>(frame.picture))
        for (const Mesh::Vertex& v : mesh.vertices) {
            if (!same_ink(v.colour, trail)) continue;
            const double inside = inside_by(pane, v.at);
            nearest_edge = std::min(nearest_edge, std::abs(inside));
            if (inside < 2) CHECK(v.colour.a < 10);
            full += v.colour.a > 200;
        }
    CHECK(nearest_edge < 10);  // two points of the trail lie so near to each other
    CHECK(full > 10);
    CHECK(d.mode.marks().apex.has_value() == d.mode.solved().read->apex.has_value());
}

TEST_CASE("a second line is told, shown, and the first one brought back") {
    ReadStart start = too_steep();
    start.setup.clock_h = 2;
    Drawn d(start);
    d.settle();
    const Solved first = d.mode.solved();
    REQUIRE(first.second);
    REQUIRE(trouble_of(first, {}).words.find("A second line holes it too, ") != std::string::npos);
    const auto press_show = [&] {
        d.click(What::offer);
        return d.mode.solved().read->stroke.angle_rad;
    };
    CHECK(press_show() == first.second->stroke.angle_rad);
    CHECK(d.shell.undo_depth() == 0);
    CHECK(press_show() == first.read->stroke.angle_rad);
}

TEST_CASE("what takes long is fainter after 0.12 s and said after 0.4 s, until the answer") {
    SolvedLate d;
    d.shell.press({'.'});
    CHECK_FALSE(d.mode.solving());
    d.wait(0.13);
    REQUIRE(d.late->asked == 1);
    REQUIRE(d.mode.solving());
    const std::string heading = "Right to left";
    CHECK(opacity_of(d.wait(0.05), heading) == 255);
    CHECK(opacity_of(d.wait(0.15), heading) == std::lround(0.75 * 255));
    CHECK_FALSE(d.says("Solving …"));
    CHECK_FALSE(d.shell.playback.end_s == 0);  // the trail is there meanwhile
    CHECK(says(d.wait(0.3), "Solving …"));
    d.late->ready = true;
    CHECK(opacity_of(d.wait(0.05), heading) == 255);
    CHECK_FALSE(d.mode.solving());
    CHECK_FALSE(d.says("Solving …"));
    CHECK_FALSE(d.shell.advance(0.1));
}

TEST_CASE("a change while the solver is at work asks anew, and the old answer is not taken") {
    SolvedLate d;
    d.shell.press({'.'});
    d.wait(0.2);
    d.shell.press({'.'});
    d.late->ready = true;
    CHECK_FALSE(d.mode.solving());
    d.wait(0.3);
    CHECK(d.late->asked == 2);
    CHECK_THAT(d.mode.solved().putt.distance_m(),
               WithinAbs(14 * metres_per_foot, round_off_of_thousands));
}

TEST_CASE("a roll that is being watched goes on when the full answer comes") {
    SolvedLate d;
    d.shell.press({'.'});
    d.wait(0.2);
    d.shell.press({key::space});
    d.wait(0.5);
    d.late->ready = true;
    d.wait(0.1);
    CHECK(d.shell.playback.running);
    CHECK_THAT(d.shell.playback.time_s, WithinAbs(0.6, 0.02));  // a frame either way
}

TEST_CASE("marks and trail ease to the new solution in 0.18 s, not with less motion") {
    Drawn d{ReadStart{}};
    const Vec2 before = *d.mode.marks().apex;
    const auto type_stimp = [](Drawn& drawn) {
        drawn.press({{'t'}, {key::enter}});
        drawn.type("14");
    };
    type_stimp(d);
    CHECK_THAT((*d.mode.marks().apex - before).norm(), WithinAbs(0, round_off_of_thousands));
    d.wait(0.06);
    const Vec2 during = *d.mode.marks().apex;
    d.wait(0.5);
    const Vec2 after = *d.mode.marks().apex;
    CHECK((after - before).norm() > 5);
    CHECK((during - before).norm() > 1);
    CHECK((during - after).norm() > 1);

    Drawn still;
    type_stimp(still);
    CHECK_THAT((*still.mode.marks().apex - after).norm(), WithinAbs(0, round_off_of_thousands));
}

TEST_CASE("a theme fades over in 0.2 s, and at once with less motion") {
    Drawn d{ReadStart{}};
    const auto grass = [&](Drawn& drawn, double seconds) {
        drawn.shell.advance(seconds);
        drawn.shell.forget_ground();
        return all_of<Mesh>(drawn.draw().ground).front().vertices.front().colour;
    };
    const Colour dew = grass(d, 0);
    d.shell.press({'d'});
    const Colour between = grass(d, 0.1), dusk = grass(d, 0.2);
    CHECK(between.r < dew.r);
    CHECK(between.r > dusk.r);
    Drawn still;
    still.shell.press({'d'});
    CHECK(grass(still, 0.001) == dusk);
}

TEST_CASE("a ball that drops shrinks and darkens, and the hole's ring pulses once") {
    for (const bool less_motion : {false, true}) {
        ReadStart start;
        start.outlook = false;  // nothing is worked out beside
        start.less_motion = less_motion;
        Drawn d(start);
        const Vec2 hole = *d.mode.marks().hole;
        const Colour ring = palette(Theme::dew).hole_ring;
        const double rest = radius_at(d.wait(0.1).picture, hole, ring);
        REQUIRE(rest > 0);
        d.shell.press({key::space});
        // Just before its top is level with the green it lies within the rim.
        const double end_s = d.shell.playback.end_s;
        while (d.shell.playback.time_s < end_s - 0.015) d.shell.advance(0.005);
        d.draw();
        REQUIRE(d.mode.marks().rolling);
        CHECK((*d.mode.marks().rolling - hole).norm() < rest);
        while (d.shell.playback.running) d.shell.advance(0.005);
        const Frame frame = d.wait(0.1);
        CHECK_FALSE(d.mode.marks().rolling);
        if (less_motion) {
            CHECK(radius_at(frame.picture, hole, ring) == rest);
            continue;
        }
        CHECK(radius_at(frame.picture, hole, ring) > 1.15 * rest);
        const Frame later = d.wait(0.3);
        CHECK_THAT(radius_at(later.picture, hole, ring), WithinAbs(rest, round_off_of_thousands));
        CHECK_FALSE(d.mode.marks().rolling);
        CHECK_FALSE(d.shell.advance(0.1));
    }
}

TEST_CASE("the ball is dragged along its trail to scrub, which is no step of undo") {
    for (const bool eye : {false, true}) {
        ReadStart start = quiet_start();
        start.eye = eye;
        Drawn d(start);
        d.shell.press({key::home});
        d.shell.press({'l', false, true});
        d.shell.press({'l', false, true});
        d.draw();
        REQUIRE(d.mode.marks().rolling);
        const double before = d.shell.playback.time_s;
        const Vec2 from = *d.mode.marks().rolling;
        d.drag(from, from + 0.5 * (*d.mode.marks().hole - from));
        CHECK(d.shell.playback.time_s > before + 0.2);
        CHECK_FALSE(d.shell.playback.complete());
        CHECK(d.shell.undo_depth() == 0);
        CHECK_THAT(d.mode.setup().clock_h, WithinAbs(3, 1e-12));
    }
}

TEST_CASE("Esc puts a scrubbed ball back") {
    Drawn d;
    d.shell.press({key::home});
    d.shell.press({'l', false, true});
    d.draw();
    const Vec2 from = *d.mode.marks().rolling;
    d.shell.pointer_pressed(from, Button::left, {});
    d.shell.pointer_moved(from + Vec2(-200, 0), {});
    REQUIRE(d.shell.playback.time_s > 0.6);
    d.shell.press({key::escape});
    CHECK_THAT(d.shell.playback.time_s, WithinAbs(0.5, round_off_of_thousands));
}

TEST_CASE("the note is dragged away by its edge, and back") {
    for (const auto& [w, h] : {std::pair(1280, 800), std::pair(1024, 900)}) {
        ReadStart start = quiet_start();
        start.width = w, start.height = h;
        Drawn d(start);
        const Vec2 inward = w > 1200 ? Vec2(1, 0) : Vec2(0, 1);
        const Vec2 edge = d.shell.layout().note_edge.centre();
        const double green = d.shell.layout().green.w * d.shell.layout().green.h;
        d.drag(edge, edge + 60 * inward);
        CHECK(d.mode.note_shown());
        d.drag(edge, edge + 290 * inward);
        CHECK_FALSE(d.mode.note_shown());
        CHECK(d.shell.layout().green.w * d.shell.layout().green.h > green);
        const Vec2 hidden = d.shell.layout().note_edge.centre() - 2 * inward;
        d.drag(hidden, hidden - 290 * inward);
        CHECK(d.mode.note_shown());
        CHECK(d.shell.undo_depth() == 0);
    }
}

TEST_CASE("the wheel changes what it is over") {
    Drawn d;
    const auto wheel = [&](const Vec2& at, Held held = {}) {
        d.shell.wheel(1, at, held);
        d.settle();
    };
    wheel(*d.mode.marks().ball);
    CHECK_THAT(d.mode.setup().clock_h, WithinAbs(3 + 1.0 / 12, round_off_of_thousands));
    const auto figure = [&](Field field) {
        return find_target(d.shell.targets(), What::figure, static_cast<int>(field))->hit.centre();
    };
    wheel(figure(Field::distance));
    CHECK_THAT(d.mode.setup().distance_m, WithinAbs(13 * metres_per_foot, round_off_of_thousands));
    wheel(figure(Field::stimp));
    CHECK_THAT(d.mode.setup().stimp_ft, WithinAbs(10.5, round_off_of_thousands));
    wheel(figure(Field::finish));
    CHECK_THAT(d.mode.setup().finish.value,
               WithinAbs(13 * metres_per_inch, round_off_of_thousands));
    const double clock = d.mode.setup().clock_h;
    wheel((d.mode.drop_px() + d.mode.bar_px()) / 2);
    CHECK_THAT(d.mode.setup().clock_h, WithinAbs(clock - 1.0 / 30, round_off_of_thousands));
    const Rect slope = d.mode.slope_figure();
    wheel(slope.centre());
    CHECK_THAT(d.mode.setup().slope, WithinAbs(0.0225, round_off_of_thousands));
    d.shell.press({key::home});
    d.draw();
    wheel(find_target(d.shell.targets(), What::time_line)->hit.centre());
    CHECK_THAT(d.shell.playback.time_s, WithinAbs(0.05, round_off_of_thousands));
}

TEST_CASE("Ctrl and the wheel zoom about the pointer") {
    Drawn d;
    const Vec2 hole = *d.mode.marks().hole, ball = *d.mode.marks().ball;
    d.shell.wheel(1, hole, {.ctrl = true});
    d.draw();
    CHECK_THAT((*d.mode.marks().hole - hole).norm(), WithinAbs(0, 1e-6));
    CHECK_THAT((*d.mode.marks().ball - hole).norm() / (ball - hole).norm(), WithinAbs(1.15, 1e-6));
    CHECK(d.shell.undo_depth() == 0);
}

TEST_CASE("while the ball rolls the ground is not painted again", "[read_mode]") {
    Drawn d;
    d.settle();
    for (const char view : {'p', 'e'}) {
        d.press({{view}});
        d.press({{key::space}});
        d.draw();
        int painted = 0, frames = 0;
        for (; frames < 120; ++frames) {
            d.shell.advance(1.0 / 60);
            painted += !d.draw().ground.empty();
        }
        CHECK(painted <= 2);  // when it sets off, and when it is there
    }
}
