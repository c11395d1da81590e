#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "viewer/files/faults.hpp"

using namespace dewtrail;

namespace {

/// Every size of window and type, in Plan and Eye; the putt is solved once.
int faults_of(Drawn& d, const std::string& name, int texts = 3) {
    int faults = 0;
    for (const bool eye : {false, true}) {
        d.shell.press({eye ? 'e' : 'p'});
        for (const auto& [w, h] :
             {std::pair(1280, 800), std::pair(1024, 640), std::pair(1920, 1080),
              std::pair(1024, 900), std::pair(3840, 2160), std::pair(7680, 4320)})
            for (int text = 0; text < texts; ++text) {
                d.shell.press({'0', true});
                for (int i = 0; i < text; ++i) d.shell.press({'+', true});
                d.shell.resize(w, h);
                const Frame frame = d.shell.frame(half_em);
                for (const std::string& fault :
                     Faults(d.shell.layout(), frame, &d.mode.marks()).found) {
                    UNSCOPED_INFO(fmt::format("{}, {}, {}x{}, text {}: {}", name,
                                              eye ? "eye" : "plan", w, h, 100 + 25 * text, fault));
                    ++faults;
                }
            }
    }
    return faults;
}

}  // namespace

TEST_CASE("on bare putts no label meets another or a mark, and nothing leaves its panel") {
    for (const double clock : {12.0, 1.5, 3.0, 4.3, 6.0, 7.7, 9.0, 10.5})
        for (const double feet : {5.0, 12.0, 30.0}) {
            ReadStart start = quiet_start();
            start.setup.clock_h = clock;
            start.setup.distance_m = feet * metres_per_foot;
            start.setup.slope = feet > 20 ? 0.01 : 0.025;
            Drawn d(start);
            CHECK(faults_of(d, fmt::format("{} ft at {}", feet, clock)) == 0);
        }
}

TEST_CASE("on shipped greens no label meets another or a mark") {
    for (const char* name : {"meadow", "saddle", "stairs"})
        for (const double turn_h : {0.0, 4.0, 8.0}) {
            ReadStart start = quiet_start();
            put_on_green(start.setup, shipped_green(name));
            set_clock(start.setup, bearing_hours(start.setup) + turn_h);
            Drawn d(start);
            CHECK(faults_of(d, fmt::format("{}, turned {} h", name, turn_h)) == 0);
        }
}

TEST_CASE("no contour strikes out words on the map") {
    int met = 0;
    for (const double stimp : {8.0, 9.0, 10.0, 11.0}) {
        ReadStart start = quiet_start();
        start.setup.stimp_ft = stimp;
        Drawn d(start);
        d.shell.forget_ground();
        const Frame frame = d.shell.frame(half_em);
        REQUIRE_FALSE(frame.ground.empty());
        for (const Text& text : all_of<Text>(frame.picture)) {
            if (text.outline == 0 || text.turned_rad != 0 || text.words.empty()) continue;
            const Rect box = rect_of(text, half_em);
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
    Drawn with_message(steep);
    CHECK(faults_of(with_message, "message") == 0);
    ReadStart detail = quiet_start();
    detail.detail = true;
    Drawn with_detail(detail);
    CHECK(faults_of(with_detail, "detail") == 0);
    ReadStart along = quiet_start();
    set_face(along.setup, SlopeFace::along_across);
    Drawn with_faces(along);
    CHECK(faults_of(with_faces, "along and across") == 0);
    ReadStart rows = quiet_start();
    set_face(rows.setup, SlopeFace::three_rows);
    Drawn with_rows(rows);
    // At 150 % the two strips of fields leave the map too little height for its names.
    CHECK(faults_of(with_rows, "three readings", 2) == 0);
    ReadStart metric = quiet_start();
    metric.units.metric = true;
    Drawn in_metres(metric);
    CHECK(faults_of(in_metres, "metric") == 0);
}
