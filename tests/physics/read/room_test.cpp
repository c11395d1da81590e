#include "physics/read/room.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <utility>

#include "physics/numbers/root.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

std::vector<oracle::NamedPutt> putts_with_rooms() {
    const Green turtle = oracle::shipped_green("turtle"), saddle = oracle::shipped_green("saddle");
    return {{"level", oracle::bare_putt(10, 0, 8, 6, oracle::inches_past(12))},
            {"side-hill", oracle::bare_putt(11, 0.03, 10, 3, oracle::inches_past(12))},
            {"downhill", oracle::bare_putt(9, 0.03, 6, 1, oracle::inches_past(6))},
            {"dead weight", oracle::bare_putt(10, 0.02, 5, 4, Finish::past(0))},
            {"firm", oracle::bare_putt(10, 0.02, 5, 4, Finish::hole_speed(1.3))},
            {"dying past the rim", oracle::bare_putt(10, 0.01, 30, 4.5, oracle::inches_past(12))},
            {"steep side-hill", oracle::bare_putt(12, 0.04, 6, 3, oracle::inches_past(12))},
            {"turtle", oracle::putt_on(turtle, "near", "crest", oracle::inches_past(12))},
            {"dead weight on a saddle", oracle::putt_on(saddle, "low", "seat", Finish::past(0))}};
}

Read solved(const Putt& putt) {
    ReadOptions options = oracle::line_only();
    options.room = true;
    return read(putt, options).lines.at(0);
}

bool drops(const Putt& putt, const Stroke& stroke, double angle_off, double pace_off) {
    const Stroke other{stroke.angle_rad + angle_off, stroke.speed_m_s * std::sqrt(1 + pace_off)};
    return describe_stroke(putt, other, oracle::line_only()).entry.holed;
}

TEST_CASE("just inside the room it drops, just outside it does not", "[room]") {
    const oracle::NamedPutt known = GENERATE(from_range(putts_with_rooms()));
    INFO(known.name);
    const Read line = solved(known.putt);
    REQUIRE(line.room);
    const Room& room = *line.room;
    CHECK(room.angle_lo_rad < 0);
    CHECK(room.angle_hi_rad > 0);
    CHECK(room.pace_lo <= 0);
    CHECK(room.pace_hi > 0);
    // Edges are found to 1e-7; rolls of the room and of this test differ by less than 1e-6.
    constexpr double beside = 2e-6;
    for (const double edge : {room.angle_lo_rad, room.angle_hi_rad}) {
        const double outward = std::copysign(beside, edge);
        CHECK(drops(known.putt, line.stroke, edge - outward, 0));
        CHECK_FALSE(drops(known.putt, line.stroke, edge + outward, 0));
    }
    for (const double edge : {room.pace_lo, room.pace_hi}) {
        const double outward = edge == room.pace_lo ? -beside : beside;
        CHECK(drops(known.putt, line.stroke, 0, edge - outward));
        CHECK_FALSE(drops(known.putt, line.stroke, 0, edge + outward));
    }
    // And all the way between.
    for (double t = 0.05; t < 1; t += 0.1) {
        CHECK(drops(known.putt, line.stroke,
                    room.angle_lo_rad + t * (room.angle_hi_rad - room.angle_lo_rad), 0));
        CHECK(drops(known.putt, line.stroke, 0, room.pace_lo + t * (room.pace_hi - room.pace_lo)));
    }
}

std::vector<std::pair<std::string, Putt>> putts_on_greens() {
    std::vector<std::pair<std::string, Putt>> putts;
    for (const char* name : {"meadow", "saddle", "turtle"}) {
        const Green green = oracle::shipped_green(name);
        for (const auto& ball : green.balls)
            for (const auto& hole : green.holes)
                for (const double past_m : {0.1, 0.3, 0.6, 1.0})
                    putts.emplace_back(
                        std::string(name) + ", " + ball.first + " to " + hole.first,
                        oracle::putt_on(green, ball.first, hole.first, Finish::past(past_m)));
    }
    return putts;
}

TEST_CASE("edges lie within 1e-7 of where the room's own rolls change", "[room]") {
    constexpr double beside = 1e-5, promised = 1e-7;
    int edges = 0;
    for (const auto& known : putts_on_greens()) {
        const Putt& putt = known.second;
        INFO(known.first << ", past " << putt.finish.value);
        const ReadResult result = read(putt, oracle::line_only());
        if (result.lines.empty()) continue;
        const Stroke& stroke = result.lines.front().stroke;
        const auto room = room_of(putt, stroke);
        if (!room) continue;
        const StrokesAbout strokes(putt, stroke);
        const auto check = [&](double edge, auto margin) {
            const double lo = edge - beside, hi = edge + beside;
            const double at_lo = margin(lo), at_hi = margin(hi);
            if ((at_lo > 0) == (at_hi > 0)) return;  // it ends where nothing changes
            ++edges;
            CHECK_THAT(root(margin, lo, hi, at_lo, at_hi, 1e-11), WithinAbs(edge, promised));
        };
        const auto by_angle = [&](double off) { return strokes.margin({off, 0}); };
        const auto by_pace = [&](double off) { return strokes.margin({0, off}); };
        check(room->angle_lo_rad, by_angle);
        check(room->angle_hi_rad, by_angle);
        check(room->pace_lo, by_pace);
        check(room->pace_hi, by_pace);
    }
    CHECK(edges > 600);
}

TEST_CASE("a stroke that does not drop has no room; near the hole it goes far", "[room]") {
    const Putt putt = oracle::bare_putt(10, 0, 10, 6, oracle::inches_past(12));
    CHECK_FALSE(room_of(putt, {0.1, 2.6}));
    const Putt near = oracle::bare_putt(4, 0, 0.4, 6, Finish::past(0.02));
    const Room room = room_of(near, solved(near).stroke).value();
    CHECK(room.pace_hi > 5);
    CHECK(room.pace_hi <= most_pace_off);
}

TEST_CASE("room on the level is even, and under the hole's own width", "[room]") {
    const Putt putt = oracle::bare_putt(10, 0, 10, 6, oracle::inches_past(12));
    const Room room = solved(putt).room.value();
    CHECK_THAT(room.angle_lo_rad, WithinAbs(-room.angle_hi_rad, 1e-7));
    CHECK(room.angle_hi_rad < std::asin(hole_radius_m / putt.distance_m()));
    CHECK(room.angle_hi_rad > std::asin(0.5 * hole_radius_m / putt.distance_m()));
}

TEST_CASE("on the level the softest pace that drops just reaches the rim", "[room]") {
    const Putt putt = oracle::bare_putt(10, 0, 10, 6, oracle::inches_past(12));
    const Read line = solved(putt);
    const double to_rim = putt.distance_m() - hole_radius_m;
    CHECK_THAT(line.room.value().pace_lo, WithinAbs(to_rim / line.level_roll_m - 1, 1e-6));
}

TEST_CASE("the closer the hole, the more room; the firmer the pace, the less", "[room]") {
    const auto width = [](double feet, double inches) {
        const Room r =
            solved(oracle::bare_putt(10, 0.01, feet, 3, oracle::inches_past(inches))).room.value();
        return r.angle_hi_rad - r.angle_lo_rad;
    };
    CHECK(width(5, 12) > width(10, 12));
    CHECK(width(10, 12) > width(10, 36));
}

TEST_CASE("a read too fast to drop has no room", "[room]") {
    const Read line = solved(oracle::bare_putt(10, 0.02, 10, 3, Finish::hole_speed(2)));
    CHECK_FALSE(line.entry.holed);
    CHECK_FALSE(line.room);
    CHECK_THAT(line.arrival_speed_m_s, WithinAbs(2, 1e-4));
}

TEST_CASE("entry is told where the ball meets the rim", "[room]") {
    const Putt putt = oracle::bare_putt(10, 0, 10, 6, oracle::inches_past(12));
    // Level and straight, passing 2 cm to the right: from ball to rim by Pythagoras.
    const double off = 0.02, angle = std::asin(off / putt.distance_m());
    const Read rolled = describe_stroke(putt, {angle, 2.6}, oracle::line_only());
    CHECK_THAT(rolled.entry.offset_m, WithinAbs(off, 1e-8));
    const double to_rim =
        putt.distance_m() * std::cos(angle) - std::sqrt(hole_radius_m * hole_radius_m - off * off);
    const double a = level_deceleration_m_s2(putt.resistance);
    CHECK_THAT(rolled.entry.speed_m_s, WithinAbs(std::sqrt(2.6 * 2.6 - 2 * a * to_rim), 1e-8));
    // Nearest point of the rim at 6:00 (pi); right of it is less.
    CHECK_THAT(rolled.entry.clock_rad,
               WithinAbs(M_PI - std::asin(off / hole_radius_m) + angle, 1e-6));
    CHECK(rolled.entry.clock_rad < M_PI);
}

/// A green with a bay that cuts the straight line between ball and hole, this wide there; the water
/// in its middle is nearer to the edge than the metre that a ball may be off.
Putt across_a_bay(double half_mouth_m) {
    Putt putt = oracle::bare_putt(10, 0, 10, 6, oracle::inches_past(12));
    putt.outline = std::make_shared<Outline>(std::vector<Vec2>{{-2, -4},
                                                               {2, -4},
                                                               {2, -1.5 - half_mouth_m},
                                                               {-1, -1.5},
                                                               {2, -1.5 + half_mouth_m},
                                                               {2, 2},
                                                               {-2, 2}});
    return putt;
}

TEST_CASE("a ball that has left the green does not enter", "[room]") {
    const Putt putt = across_a_bay(1.2);
    const Roll over = describe_stroke(putt, {0, 2.6}, oracle::line_only()).roll;
    REQUIRE(over.rim);
    REQUIRE(over.off_green);
    CHECK(over.off_green->arc_m < over.rim->arc_m);
    CHECK_FALSE(entry_of(putt, over));
}

TEST_CASE("nor one that has been off it between two steps", "[room]") {
    const Putt putt = across_a_bay(0.06);
    CHECK_FALSE(entry_of(putt, describe_stroke(putt, {0, 2.6}, oracle::line_only()).roll));
}

}  // namespace
}  // namespace dewtrail
