#include "physics/read/room_outline.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "physics/odds/stroke_map.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/surface/outline.hpp"
#include "support/as_eigen.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

std::vector<oracle::NamedPutt> putts_with_outlines() {
    return {{"level", oracle::bare_putt(10, 0, 8, 6, oracle::inches_past(12))},
            {"side-hill", oracle::bare_putt(11, 0.03, 10, 3, oracle::inches_past(12))},
            {"nearly too steep", oracle::bare_putt(11, 0.045, 12, 3, oracle::inches_past(12))},
            {"downhill", oracle::bare_putt(9, 0.03, 6, 1, oracle::inches_past(6))},
            {"dead weight", oracle::bare_putt(10, 0.02, 5, 4, Finish::past(0))},
            {"firm", oracle::bare_putt(10, 0.02, 5, 4, Finish::hole_speed(1.3))},
            {"long", oracle::bare_putt(10, 0.02, 40, 9, oracle::inches_past(3))}};
}

/// Everything in units of the angle that the hole's radius spans, and of a tenth of the level roll
/// that the fastest dropping ball has left at the hole: the frame of the stated accuracy.
struct Followed {
    explicit Followed(const Putt& asked) : putt(asked) {
        ReadOptions options = oracle::line_only();
        options.room = true;
        line = read(putt, options).lines.at(0);
        corners = room_outline(putt, line.stroke, line.room.value());
        unit = {
            std::asin(hole_radius_m / putt.distance_m()),
            0.1 * 1.63 * 1.63 / (2 * level_deceleration_m_s2(putt.resistance)) / line.level_roll_m};
        for (const StrokeOff& corner : corners) places.push_back(place(corner));
    }
    Vec2 place(const StrokeOff& off) const {
        return {off.angle_rad / unit.x(), off.pace / unit.y()};
    }
    bool drops(const Vec2& at) const {
        const Stroke stroke{line.stroke.angle_rad + at.x() * unit.x(),
                            line.stroke.speed_m_s * std::sqrt(1 + at.y() * unit.y())};
        return describe_stroke(putt, stroke, oracle::line_only()).entry.holed;
    }

    Putt putt;
    Read line;
    std::vector<StrokeOff> corners;
    Vec2 unit;
    std::vector<Vec2> places;
};

/// Out of the polygon, square to the way from the corner before to the one after.
Vec2 outward(const std::vector<Vec2>& corners, std::size_t i) {
    const std::size_t n = corners.size();
    const Vec2 along = (corners[(i + 1) % n] - corners[(i + n - 1) % n]).normalized();
    return {along.y(), -along.x()};
}

TEST_CASE("just inside the outline it drops, just outside it does not", "[room_outline]") {
    const oracle::NamedPutt known = GENERATE(from_range(putts_with_outlines()));
    INFO(known.name);
    const Followed f(known.putt);
    REQUIRE(f.corners.size() > 50);
    // Corners are found to 1e-6; rolls of the outline and of this test differ by less than that.
    constexpr double beside = 5e-6;
    for (std::size_t i = 0; i < f.places.size(); ++i) {
        const Vec2 out = beside * outward(f.places, i);
        INFO(i << ": " << as_eigen(f.places[i]).transpose());
        CHECK(f.drops(f.places[i] - out));
        CHECK_FALSE(f.drops(f.places[i] + out));
    }
}

TEST_CASE("strokes drop inside the outline and nowhere else", "[room_outline]") {
    const oracle::NamedPutt known = GENERATE(from_range(putts_with_outlines()));
    INFO(known.name);
    const Followed f(known.putt);
    const Outline edge(f.places);  // refuses a polygon that crosses itself
    Vec2 least = f.places[0], most = f.places[0];
    for (const Vec2& p : f.places) least = least.cwiseMin(p), most = most.cwiseMax(p);
    oracle::Random random(5);
    int inside = 0;
    for (int i = 0; i < 400; ++i) {
        const Vec2 at(random.between(least.x() - 0.5, most.x() + 0.5),
                      random.between(least.y() - 0.5, most.y() + 0.5));
        const double by = edge.inside_by(at);
        if (std::abs(by) < 0.02) continue;  // how far the edge bows between two corners
        INFO(as_eigen(at).transpose() << ", inside by " << by);
        CHECK(f.drops(at) == (by > 0));
        inside += by > 0;
    }
    CHECK((inside > 10 && inside < 390));  // both kinds were seen
}

TEST_CASE("the ends of the room are corners of its outline", "[room_outline]") {
    const oracle::NamedPutt known = GENERATE(from_range(putts_with_outlines()));
    INFO(known.name);
    const Followed f(known.putt);
    const Room& room = *f.line.room;
    const auto holds = [&](double angle, double pace) {
        return std::any_of(f.corners.begin(), f.corners.end(), [&](const StrokeOff& c) {
            // Through the units and back: two roundings.
            return std::abs(c.angle_rad - angle) < 1e-15 && std::abs(c.pace - pace) < 1e-15;
        });
    };
    CHECK(holds(room.angle_lo_rad, 0));
    CHECK(holds(room.angle_hi_rad, 0));
    CHECK(holds(0, room.pace_lo));
    CHECK(holds(0, room.pace_hi));
}

TEST_CASE("a mirrored putt has the mirrored outline", "[room_outline]") {
    const Followed right(oracle::bare_putt(10, 0.02, 12, 4, oracle::inches_past(12)));
    const Followed left(oracle::bare_putt(10, 0.02, 12, 8, oracle::inches_past(12)));
    std::vector<Vec2> mirrored;
    for (const Vec2& p : left.places) mirrored.emplace_back(-p.x(), p.y());
    const Outline edge(mirrored);
    // Walked the other way round, so other corners on the same edge: as near as it bows.
    for (const Vec2& p : right.places) CHECK_THAT(edge.inside_by(p), WithinAbs(0, 0.02));
}

TEST_CASE("the stroke map's intervals lie on the outline", "[room_outline]") {
    const Followed f(oracle::bare_putt(10, 0.025, 9, 2.5, oracle::inches_past(18)));
    const auto map = StrokeMap::make(f.putt);
    REQUIRE(map);
    const Outline edge(f.places);
    REQUIRE(map->panels().size() == 1);
    const auto [soft, firm] = map->panels().front().level_rolls;
    for (double share = 0.1; share < 0.95; share += 0.1) {
        const double level = soft + share * (firm - soft);
        const Drops drops = map->drops(level);
        REQUIRE(drops.size() == 1);
        for (const double angle : {drops.begin()->lo, drops.begin()->hi}) {
            const Vec2 at =
                f.place({angle - f.line.stroke.angle_rad, level / f.line.level_roll_m - 1});
            CHECK_THAT(edge.inside_by(at), WithinAbs(0, 0.02));
        }
    }
}

TEST_CASE("a green and ground where nothing stops have outlines too", "[room_outline]") {
    const Green turtle = oracle::shipped_green("turtle");
    const Followed curved(oracle::putt_on(turtle, "near", "crest", oracle::inches_past(12)));
    for (std::size_t i = 0; i < curved.places.size(); i += 9) {
        // Third derivatives jump between cells: rolls of two tolerances differ by up to 1e-6 m.
        const Vec2 out = 1e-4 * outward(curved.places, i);
        CHECK(curved.drops(curved.places[i] - out));
        CHECK_FALSE(curved.drops(curved.places[i] + out));
    }
    const Followed steep(oracle::bare_putt(12, 0.09, 12, 3, Finish::hole_speed(1.2)));
    CHECK_NOTHROW(Outline(steep.places));
}

TEST_CASE("what does not drop has no outline", "[room_outline]") {
    const Putt putt = oracle::bare_putt(10, 0.02, 10, 3, Finish::hole_speed(2));
    const Read line = read(putt, oracle::line_only()).lines.at(0);
    CHECK(room_outline(putt, line.stroke, {}).empty());
}

}  // namespace
}  // namespace dewtrail
