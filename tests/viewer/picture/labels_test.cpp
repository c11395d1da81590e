#include "viewer/picture/labels.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "viewer/modes/drawn_mode.hpp"
#include "viewer/picture/map/eye_ground.hpp"
#include "viewer/picture/map/eye_picture.hpp"
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

/// What is seen at a pixel of a picture, lines and discs and polygons looked at.
Colour seen_at(const Picture& picture, const Vec2& at) {
    Colour top{};
    const auto lay = [&](bool covers, const Colour& colour) {
        if (covers && colour.a > 200) top = colour;
    };
    for (const Shape& shape : picture) {
        if (const auto* disc = std::get_if<Disc>(&shape))
            lay((disc->centre - at).norm() < disc->radius, disc->colour);
        if (const auto* polygon = std::get_if<Polygon>(&shape)) {
            bool inside = true;
            for (std::size_t i = 0; i < polygon->points.size(); ++i) {
                const Vec2 a = polygon->points[i],
                           b = polygon->points[(i + 1) % polygon->points.size()];
                inside &= (b.x() - a.x()) * (at.y() - a.y()) >= (b.y() - a.y()) * (at.x() - a.x());
            }
            lay(inside, polygon->colour);
        }
        if (const auto* line = std::get_if<Line>(&shape)) {
            std::vector<Vec2> points(line->points.begin(), line->points.end());
            if (line->closed) points.push_back(points.front());
            for (std::size_t i = 1; i < points.size(); ++i) {
                const Vec2 way = points[i] - points[i - 1];
                const double t = std::clamp(
                    (at - points[i - 1]).dot(way) / std::max(way.squaredNorm(), 1e-12), 0.0, 1.0);
                lay((points[i - 1] + t * way - at).norm() < line->width / 2, line->colour);
            }
        }
    }
    return top;
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

TEST_CASE("the hole is seen in the middle of an aim spot that lies on it") {
    for (const double past_m :
         {usual_past_m, 3 * usual_past_m}) {  // with the stand-in hole, without
        Setup setup;
        setup.slope = 0;
        setup.finish = Finish::past(past_m);
        const Plan plan(solve(setup, usual_past_m, Effort::settled));
        const Marks& m = plan.picture.marks;
        REQUIRE((*m.aim - *m.hole).norm() < 0.1);
        REQUIRE(m.together == (past_m == usual_past_m));
        int seen = 0;
        for (int i = 0; i < 12; ++i)
            seen += seen_at(plan.picture.picture,
                            *m.hole + 0.75 * m.hole_px * along_bearing((i + 0.5) * M_PI / 6)) ==
                    palette(Theme::dew).hole;
        CHECK(seen >= 10);  // the start line and the line to the ball cross it
        CHECK(seen_at(plan.picture.picture, *m.aim) == palette(Theme::dew).copper);
    }
}

TEST_CASE("an apex stands beside other marks, and where it has no room or is none, not at all") {
    int apexes = 0;
    for (const double feet : {0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 6.0})
        for (const double clock : {1.5, 3.0, 5.0}) {
            INFO(feet << " ft at " << clock);
            const Solved s = solved_putt(feet, 0.03, clock);
            PlanCamera camera = fit_plan(to_be_seen(s), usual_look().layout.green, 1);
            camera.px_per_m = 315;  // as large as a page draws it
            const Plan plan(s, camera);
            const Marks& m = plan.picture.marks;
            const Vec2 along = (m.line_to - m.line_from).normalized();
            for (const Polygon& mark : all_of<Polygon>(plan.picture.picture)) {
                if (mark.points.size() != 3 || mark.colour != palette(Theme::dew).wet_green)
                    continue;
                ++apexes;
                REQUIRE(m.apex);
                for (const Vec2& p : mark.points) {
                    CHECK((p - *m.ball).norm() > m.ball_px);
                    CHECK((p - *m.hole).norm() > m.hole_px);
                    CHECK(std::abs((p - *m.start_spot).dot(along)) > 3);  // half the bar
                }
            }
        }
    CHECK(apexes > 5);
    CHECK_FALSE(Plan(solved_putt(0.5, 0.02, 3)).picture.marks.apex);  // 'none, it runs straight'
}

TEST_CASE("the turns of a path that breaks both ways are named on their own sides") {
    for (const double side : {-1.0, 1.0}) {
        Setup setup;
        setup.distance_m = 9;
        set_readings(setup, {{0, 0, 0.03 * side}, {4, 0, 0}, {9, 0, -0.015 * side}});
        const Solved s = solve(setup, usual_past_m, Effort::settled);
        REQUIRE(s.read);
        REQUIRE(s.read->turns);
        const Plan plan(s, Trail(*s.read).end_s());
        const Vec2 ball = *plan.picture.marks.ball, ahead = *plan.picture.marks.hole - ball;
        const Vec2 right(-ahead.y(), ahead.x());
        int named = 0;
        for (const PlacedLabel& label : plan.picture.labels) {
            if (label.label->id != "turn") continue;
            ++named;
            const bool stands_right = (label.box.centre() - ball).dot(right) > 0;
            CHECK(stands_right == (label.texts.back().words.find(" right ") != std::string::npos));
        }
        CHECK(named == 2);
    }
}

TEST_CASE("the hours round a small ring are not read as one") {
    const Solved s = solved_putt(0.5, 0.02, 3);
    PlanCamera camera = fit_plan(to_be_seen(s), usual_look().layout.green, 1);
    for (double px_per_m = 200; px_per_m < 450; px_per_m += 10) {
        camera.px_per_m = px_per_m;
        std::vector<Rect> hours;
        const Plan plan(s, camera);
        for (const Text& text : all_of<Text>(plan.picture.picture))
            if (text.words.ends_with(":00") || text.words.ends_with(":30"))
                hours.push_back(rect_of(text, type_width));
        REQUIRE(hours.size() > 2);
        for (std::size_t i = 0; i < hours.size(); ++i)
            for (std::size_t k = 0; k < i; ++k)
                CHECK_FALSE(hours[i].grown(2).meets(hours[k].grown(2)));
    }
}

TEST_CASE("by eye no height stands on the fall line's figure") {
    const Layout layout = lay_out(1280, 800, 1, true, true);  // a low pane, above three rows
    const Look look{palette(Theme::dew), layout, {}, type_width};
    int heights = 0, figures = 0;
    for (const double feet : {6.0, 8.0, 12.0, 20.0})
        for (const double side : {-1.0, 1.0})
            for (const double across : {0.02, 0.04, 0.05}) {
                Setup setup;
                setup.distance_m = feet * metres_per_foot;
                set_readings(setup, {{0, 0, across * side},
                                     {0.5 * setup.distance_m, 0, 0.01 * side},
                                     {setup.distance_m, 0, -0.04 * side}});
                const Solved s = solve(setup, usual_past_m, Effort::live);
                const EyeCamera eye = eye_of(s, EyePlace::crouched, layout.green);
                std::vector<Label> wishes;
                const Trail trail = s.read ? Trail(*s.read) : Trail();
                const PlanPicture plan = eye_picture(s, trail, eye, EyePlace::crouched,
                                                     layout.green, MapView{}, look, wishes);
                figures += plan.slope_figure.w > 0 && plan.fall_line.w > 0;
                for (const Text& height : all_of<Text>(eye_ground(s, eye, layout.green, look))) {
                    ++heights;
                    const Rect box = rect_of(height, type_width);
                    CHECK_FALSE(plan.slope_figure.meets(box));
                    CHECK_FALSE(plan.fall_line.meets(box));
                }
            }
    CHECK(heights > 10);
    CHECK(figures > 10);
}
