#include "physics/odds/next_putts.hpp"

#include <sched.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/odds/best_choice.hpp"
#include "support/putts.hpp"
#include "support/units.hpp"

using Catch::WithinAbs;

namespace dewtrail {
namespace {

const Scatter never_misreads_fall{1.85 * oracle::degree, 0.14, 0.091, 0.005};

HoleSurround surround(double stimp_ft, double slope) {
    return *HoleSurround::make(std::make_shared<Plane>(Vec2(0, slope)),
                               oracle::resistance(stimp_ft), Vec2(0, 0));
}

TEST_CASE("expected putts rise with distance and start from one", "[next_putts]") {
    const NextPutts next(surround(10, 0.02), never_misreads_fall);
    for (int hour = 0; hour < 24; ++hour) {
        const Vec2 e = along_bearing(hour * M_PI / 12);
        Prospect before = next.from(Vec2(0, 0));
        REQUIRE_THAT(before.putts, WithinAbs(1, 1e-12));
        for (double away = 0.02; away < 25; away *= 1.07) {
            const Prospect here = next.from(away * e);
            REQUIRE(here.putts >=
                    before.putts - 1e-4);  // between spokes the cubics may wave a little
            REQUIRE(here.holed <= before.holed + 1e-4);
            REQUIRE((here.holed >= 0 && here.holed <= 1));
            before = here;
        }
        CHECK((before.putts > 2 && before.putts < 3.5));
    }
}

TEST_CASE("the table keeps its own equation", "[next_putts]") {
    const HoleSurround hole = surround(10, 0.02);
    const NextPutts next(hole, never_misreads_fall);
    // From a spot of the table the best choice, looked for finely, takes the putts of the table.
    for (const int ring : {3, 6, 9, 11})
        for (const int hour : {0, 2, 4, 6}) {
            Putt putt = oracle::bare_putt(10, 0.02, 1, 0, Finish::past(0.3));
            putt.ball = next.table().place(ring, hour);
            const auto best = best_choice(putt, never_misreads_fall, next);
            REQUIRE(best);
            INFO("ring " << ring << " hour " << hour);
            // Coarse quadrature, seven finishes and one step of aim: 0.003 putts.
            CHECK_THAT(best->fewest_putts.odds.putts,
                       WithinAbs(next.table().at(ring, hour).putts, 0.004));
        }
}

TEST_CASE("between its spots the table is near what a putt there takes", "[next_putts]") {
    const NextPutts next(surround(11, 0.02), never_misreads_fall);
    for (const double feet : {2.0, 4.7, 8.0, 17.0})
        for (const double clock : {0.5, 2.5, 4.5}) {
            const Putt putt = oracle::bare_putt(11, 0.02, feet, clock, Finish::past(0.3));
            const auto best = best_choice(putt, never_misreads_fall, next);
            INFO(feet << " ft at " << clock);
            CHECK_THAT(best->fewest_putts.odds.putts, WithinAbs(next.from(putt.ball).putts, 0.01));
        }
}

TEST_CASE("a player who never errs takes one putt, two from where it cannot drop", "[next_putts]") {
    const NextPutts next(surround(10, 0.01), Scatter{});
    for (const double away : {0.3, 1.0, 5.0, 15.0})
        CHECK_THAT(next.from(Vec2(away, 0)).putts, WithinAbs(1, 1e-6));
}

TEST_CASE("a plane is solved by halves, and the halves are mirror images", "[next_putts]") {
    const NextPutts next(surround(10, 0.02), never_misreads_fall);
    for (const double clock : {1.0, 2.3, 4.9}) {
        const Vec2 right = 2.5 * along_bearing(clock * M_PI / 6);
        CHECK_THAT(next.from(right).putts,
                   WithinAbs(next.from({-right.x(), right.y()}).putts, 1e-12));
    }
}

TEST_CASE("where nothing stops there are no next putts", "[next_putts]") {
    CHECK_FALSE(HoleSurround::make(std::make_shared<Plane>(Vec2(0, 0.09)), 0.07, Vec2(0, 0)));
}

TEST_CASE("a hole at the edge of a curved green has next putts", "[next_putts]") {
    const Green green = oracle::shipped_green("meadow");
    const auto hole =
        HoleSurround::make(green.surface, oracle::resistance(10), green.outline.corners().front());
    REQUIRE(hole);
    const NextPutts next(*hole, never_misreads_fall);
    const double putts = next.from(green.outline.corners().front() + Vec2(1, 0)).putts;
    CHECK((putts > 1 && putts < 2.5));
}

/// Holds the process to one of its cores for as long as it lives.
class OneCore {
  public:
    OneCore() {
        sched_getaffinity(0, sizeof before_, &before_);
        int first = 0;
        while (!CPU_ISSET(first, &before_)) ++first;
        cpu_set_t one;
        CPU_ZERO(&one);
        CPU_SET(first, &one);
        sched_setaffinity(0, sizeof one, &one);
    }
    ~OneCore() { sched_setaffinity(0, sizeof before_, &before_); }

  private:
    cpu_set_t before_{};
};

TEST_CASE("next putts are the same bits on one core and on all of them") {
    const Green saddle = oracle::shipped_green("saddle");
    const auto everywhere = [&] {
        const auto surround = HoleSurround::make(saddle.surface, oracle::resistance(10),
                                                 saddle.holes.begin()->second);
        const NextPutts next(surround.value(), never_misreads_fall);
        std::vector<double> putts;
        for (int ring = 0; ring < ProspectTable::rings; ++ring)
            for (int hour = 0; hour < ProspectTable::hours; ++hour)
                putts.push_back(next.table().at(ring, hour).putts);
        return putts;
    };
    const auto on_all = everywhere();
    const OneCore one;
    CHECK(everywhere() == on_all);
}

}  // namespace
}  // namespace dewtrail
