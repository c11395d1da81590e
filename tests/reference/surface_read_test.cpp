/// Reads on fitted greens, rolled again by GSL: a third integration, which shares nothing with the
/// two that the read has already been through.

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/gsl_roll.hpp"
#include "tests/support/putts.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// What the program promises on a smooth fitted green.
constexpr double promised_miss_m = 1e-4, promised_finish_m = 1e-3, promised_finish_m_s = 1e-4;

void check_by_gsl(const Putt& putt, const Read& line) {
    oracle::GslOptions options;
    options.hole = putt.hole;
    const auto rolled =
        oracle::gsl_roll(*putt.surface, putt.resistance, putt.launch(line.stroke), options);
    if (putt.finish.kind == Finish::Kind::past) REQUIRE(rolled.rested);
    if (putt.finish.kind == Finish::Kind::past && putt.finish.value == 0) {
        CHECK_THAT((rolled.last.at - putt.hole).norm(), WithinAbs(0, promised_miss_m));
        return;
    }
    REQUIRE(rolled.pass);
    CHECK_THAT((rolled.pass->at - putt.hole).norm(), WithinAbs(0, promised_miss_m));
    // An error of the speed's size times what 1e-4 m of place does to it.
    CHECK_THAT(line.arrival_speed_m_s, WithinAbs(rolled.pass->speed_m_s, promised_finish_m_s));
    CHECK_THAT(line.arrival_time_s, WithinAbs(rolled.pass->time_s, 1e-4));
    if (putt.finish.kind == Finish::Kind::past)
        CHECK_THAT(rolled.last.arc_m - rolled.pass->arc_m,
                   WithinAbs(putt.finish.value, promised_finish_m));
    else
        CHECK_THAT(rolled.pass->speed_m_s, WithinAbs(putt.finish.value, promised_finish_m_s));
}

TEST_CASE("reads between named balls and holes hold under GSL", "[reference]") {
    const auto name = GENERATE("meadow", "saddle", "stairs", "turtle");
    const Finish finish = GENERATE(Finish::past(0), Finish::past(0.3), Finish::hole_speed(0.7));
    const Green green = oracle::shipped_green(name);
    int read_here = 0;
    for (const auto& [ball, from] : green.balls)
        for (const auto& [hole, at] : green.holes) {
            INFO(name << ": " << ball << " to " << hole);
            const Putt putt = oracle::putt_on(green, ball, hole, finish);
            const ReadResult result = read(putt, oracle::line_only());
            if (result.lines.empty()) continue;  // counted below
            check_by_gsl(putt, result.lines[0]);
            ++read_here;
        }
    // Some dead-weight and 1-ft finishes do not exist on the stairs' riser and the turtle's flanks.
    const int putts = static_cast<int>(green.balls.size() * green.holes.size());
    CHECK(read_here >= putts - 4);
}

}  // namespace
}  // namespace dewtrail
