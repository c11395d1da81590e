#include "viewer/picture/labels.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "viewer/modes/drawn_mode.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/putt/solved_putt.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

const Look& usual_look() {
    static const Look look{palette(Theme::dew), lay_out(1280, 800, 1, true), {}, type_width};
    return look;
}

/// The plan of a putt, with what its labels refer to.
struct Plan {
    Plan(const Solved& solved, const PlanCamera& camera, double time_s = 0) {
        MapView view;
        view.time_s = time_s;
        picture = plan_picture(solved, Trail(*solved.read), camera, usual_look().layout.green, view,
                               usual_look(), wishes);
    }
    explicit Plan(const Solved& solved, double time_s = 0)
        : Plan(solved, fit_plan(to_be_seen(solved), usual_look().layout.green, 1), time_s) {}

    std::vector<Label> wishes;
    PlanPicture picture;
};

/// From a place to the nearest point of a box.
double gap(const Rect& box, const Vec2& p) {
    return (p - Vec2(std::clamp(p.x(), box.x, box.right()), std::clamp(p.y(), box.y, box.bottom())))
        .norm();
}

/// Whether a line is drawn from beside a mark to a box.
bool leads(const Picture& picture, const Vec2& mark, const Rect& box) {
    for (const Line& line : all_of<Line>(picture))
        if (line.points.size() == 2)
            for (const auto& [near, far] : {std::pair(line.points[0], line.points[1]),
                                            std::pair(line.points[1], line.points[0])})
                if ((near - mark).norm() < 16 && gap(box, far) < 6) return true;
    return false;
}

}  // namespace

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
    const auto placed = place_labels(labels, obstacles, pane, type_width);
    REQUIRE(placed.size() >= 6);
    for (std::size_t i = 0; i < placed.size(); ++i) {
        REQUIRE(pane.holds(placed[i].box));
        for (const Rect& o : obstacles) REQUIRE_FALSE(o.meets(placed[i].box));
        for (std::size_t j = 0; j < i; ++j) REQUIRE_FALSE(placed[i].box.meets(placed[j].box));
    }
}

TEST_CASE("aim spot, start spot and apex are always named, and nothing overlaps on a bare putt") {
    for (const double clock : {1.0, 2.5, 3.0, 4.5, 7.5, 9.0, 10.5, 11.5}) {
        INFO("clock " << clock);
        const Solved s = solved_putt(15, 0.025, clock);
        const Plan plan(s, Trail(*s.read).end_s());
        std::string named;
        for (const PlacedLabel& a : plan.picture.labels) {
            for (const Text& text : a.texts) named += text.words + "; ";
            for (const PlacedLabel& b : plan.picture.labels)
                if (&a < &b) CHECK_FALSE(a.box.meets(b.box));
        }
        for (const char* name : {"aim spot", "start spot", "apex"})
            CHECK_THAT(named, Contains(name));
    }
}

TEST_CASE("a name stands nearest to what it names, or a hairline leads there") {
    for (const double clock : {1.0, 1.5, 3.0, 4.5, 7.5, 10.5})
        for (const double feet : {5.0, 12.0, 45.0}) {
            const Plan plan(solved_putt(feet, 0.02, clock));
            const auto& labels = plan.picture.labels;
            for (const PlacedLabel& named : labels) {
                if (leads(plan.picture.picture, named.label->mark, named.box)) continue;
                for (const PlacedLabel& other : labels) {
                    if (&named == &other) continue;
                    INFO(feet << " ft at " << clock << ": " << named.label->id << " beside "
                              << other.label->id);
                    CHECK(gap(named.box, named.label->mark) < gap(named.box, other.label->mark));
                }
            }
        }
}

TEST_CASE("what has left the picture is not named") {
    const Rect& pane = usual_look().layout.green;
    const Solved s = solved_putt(12, 0.02, 3);
    PlanCamera camera = fit_plan(to_be_seen(s), pane, 1);
    camera.centre_m.x() += 2;  // the hole's end is beyond the left edge now
    const Plan plan(s, camera);
    REQUIRE_FALSE(pane.contains(*plan.picture.marks.aim));
    for (const PlacedLabel& placed : plan.picture.labels) CHECK(placed.label->id != "aim");
}
