#include "viewer/putt/solver.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

using namespace dewtrail;

TEST_CASE("the thread beside gives the newest putt's answer, the same as at once") {
    const auto beside = solver_beside();
    Setup setup;
    for (const double clock : {1.0, 2.0, 4.0}) {
        setup.clock_h = clock;
        beside->ask(setup, usual_past_m);
    }
    std::optional<Solved> solved;
    for (int i = 0; i < 2000 && !solved; ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
        solved = beside->answer();
    }
    REQUIRE(solved);
    const Solved expected = solve(setup, usual_past_m, Effort::settled);
    CHECK(solved->read->stroke.angle_rad == expected.read->stroke.angle_rad);
    CHECK_FALSE(beside->answer());
}
