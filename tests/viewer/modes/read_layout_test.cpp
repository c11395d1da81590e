#include <catch2/catch.hpp>

#include "viewer/modes/faults.hpp"

using namespace dewtrail;

namespace {

const Sizes every_size{{1280, 800}, {1024, 640},  {1920, 1080},
                       {1024, 900}, {3840, 2160}, {7680, 4320}};

/// Every size of window and type, in Plan and Eye; the putt is solved once.
void check_views(const ReadStart& start, int texts = 3) {
    Drawn d(start);
    for (const char view : {'p', 'e'}) {
        INFO(view);
        d.press({{view}});
        check_layout(d, {}, every_size, texts);
    }
}

}  // namespace

TEST_CASE("on bare putts no label meets another or a mark, and nothing leaves its panel") {
    for (const double clock : {12.0, 1.5, 3.0, 4.3, 6.0, 7.7, 9.0, 10.5})
        for (const double feet : {5.0, 12.0, 30.0}) {
            ReadStart start = quiet_start();
            start.setup.clock_h = clock;
            start.setup.distance_m = feet * metres_per_foot;
            start.setup.slope = feet > 20 ? 0.01 : 0.025;
            INFO(feet << " ft at " << clock);
            check_views(start);
        }
}

TEST_CASE("on shipped greens no label meets another or a mark") {
    for (const char* name : {"meadow", "saddle", "stairs"})
        for (const double turn_h : {0.0, 4.0, 8.0}) {
            ReadStart start = quiet_start();
            put_on_green(start.setup, shipped_green(name));
            set_clock(start.setup, bearing_hours(start.setup) + turn_h);
            INFO(name << ", turned " << turn_h << " h");
            check_views(start);
        }
}

TEST_CASE("no contour strikes out words on the map") {
    int met = 0;
    for (const double stimp : {8.0, 9.0, 10.0, 11.0}) {
        ReadStart start = quiet_start();
        start.setup.stimp_ft = stimp;
        Drawn d(start);
        d.shell.forget_ground();
        const Frame frame = d.draw();
        REQUIRE_FALSE(frame.ground.empty());
        for (const Text& text : all_of<Text>(frame.picture)) {
            if (text.outline == 0 || text.turned_rad != 0 || text.words.empty()) continue;
            const Rect box = rect_of(text, type_width);
            INFO(text.words);
            for (const Line& line : all_of<Line>(frame.ground)) {
                const Rect across{line.points.front().x(), line.points.front().y(),
                                  line.points.back().x() - line.points.front().x(), 0};
                CHECK_FALSE(across.meets(box));
                met += across.y > box.y && across.y < box.bottom();
            }
        }
    }
    CHECK(met > 0);  // lines at the height of words there are: they stop
}

TEST_CASE("messages, sheets and coach detail keep their places") {
    ReadStart steep = quiet_start();
    steep.setup.slope = 0.09;
    steep.setup.clock_h = 2;
    steep.setup.finish = Finish::hole_speed(1.4);
    check_views(steep);
    ReadStart detail = quiet_start();
    detail.detail = true;
    check_views(detail);
    ReadStart along = quiet_start();
    set_face(along.setup, SlopeFace::along_across);
    check_views(along);
    ReadStart rows = quiet_start();
    set_face(rows.setup, SlopeFace::three_rows);
    // At 150 % the two strips of fields leave the map too little height for its names.
    check_views(rows, 2);
    ReadStart metric = quiet_start();
    metric.units.metric = true;
    check_views(metric);
}
