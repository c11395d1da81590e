/// What a roll and a read cost, in counts: times are for the benchmark, counts do not wobble. A
/// number here may fall; if it rises, something became slower for everybody.

#include <catch2/catch.hpp>

#include "physics/odds/odds.hpp"
#include "physics/read/room.hpp"
#include "physics/read/surface_line.hpp"
#include "physics/roll/sensitive_roll.hpp"
#include "tests/support/allocations.hpp"
#include "tests/support/counted_surface.hpp"
#include "tests/support/putts.hpp"

namespace dewtrail {
namespace {

using oracle::allocations;
using oracle::bare_putt;
using oracle::inches_past;

Putt side_hill() {
    return bare_putt(10, 0.02, 12, 3, inches_past(12));
}

Putt on_saddle() {
    const Green saddle = oracle::shipped_green("saddle");
    return oracle::putt_on(saddle, "low", "seat", inches_past(12));
}

TEST_CASE("a roll allocates nothing") {
    for (const Putt& putt : {side_hill(), on_saddle()}) {
        RollOptions options;
        options.hole = putt.hole;
        options.outline = putt.outline.get();
        const long before = allocations();
        const Roll rolled = roll(*putt.surface, putt.resistance, putt.launch({0.08, 2.1}), options);
        CHECK(allocations() == before);
        CHECK(rolled.evaluations > 0);
    }
}

TEST_CASE("a plane is read with a handful of allocations, a green with as few") {
    const Putt plane = side_hill(), saddle = on_saddle();
    const auto taken = [](const Putt& putt) {
        const long before = allocations();
        const auto result = read(putt, oracle::line_only());
        CHECK(result.lines.size() == 1);
        return allocations() - before;
    };
    CHECK(taken(plane) <= 3);
    CHECK(taken(saddle) <= 4);
}

TEST_CASE("a roll asks for the surface no more often than it did") {
    const auto evaluations = [](const Putt& putt, double tolerance) {
        RollOptions options;
        options.tolerance = tolerance;
        options.hole = putt.hole;
        return roll(*putt.surface, putt.resistance, putt.launch({0.08, 2.1}), options).evaluations;
    };
    CHECK(evaluations(side_hill(), 1e-8) <= 109);
    CHECK(evaluations(on_saddle(), 1e-8) <= 191);  // cells of 1.25 m: 144 with those of 2.5 m
}

TEST_CASE("a read on a green takes no more evaluations than it did") {
    Putt putt = on_saddle();
    const auto counted = std::make_shared<oracle::CountedSurface>(putt.surface);
    putt.surface = counted;
    REQUIRE(lines_on_surface(putt, 1e-8, false).strokes.size() == 1);
    CHECK(counted->asked() <= 615);
    counted->forget();
    REQUIRE(read(putt, oracle::line_only()).lines.size() == 1);
    CHECK(counted->asked() <= 901);
}

TEST_CASE("a room on a green takes no more evaluations than it did") {
    Putt putt = on_saddle();
    const Stroke stroke = oracle::read_of(putt).stroke;
    const auto counted = std::make_shared<oracle::CountedSurface>(putt.surface);
    putt.surface = counted;
    REQUIRE(room_of(putt, stroke));
    CHECK(counted->asked() <= 1912);
}

TEST_CASE("sensitivities ride along: the same steps with and without them") {
    for (const Putt& putt : {side_hill(), on_saddle()}) {
        RollOptions options;
        options.hole = putt.hole;
        const Launch launch = putt.launch({0.08, 2.1});
        const Roll plain = roll(*putt.surface, putt.resistance, launch, options);
        const auto with =
            roll_with_sensitivities(*putt.surface, putt.resistance, launch, options, true);
        CHECK(with.roll.steps == plain.steps);
        CHECK(with.roll.last.at == plain.last.at);
    }
}

}  // namespace
}  // namespace dewtrail
